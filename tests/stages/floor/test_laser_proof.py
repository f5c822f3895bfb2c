"""Proofs of the laser, at their limits."""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.tape import inch, mm

from setline.stages.floor.laser_proof import Rating, closing_shot, prove_between_walls, prove_by_pegs

EIGHTH_AT_30 = Rating(error=inch("1/8"), over=inch(360))


@pytest.mark.parametrize(("difference", "holds"), [("0", True), ("1/8", True), ("9/64", False)])
def test_the_reversal_holds_up_to_twice_distance_times_rating(difference: str, holds: bool) -> None:
    """Between walls 15 ft apart a laser rated 1/8 at 30 ft may miss its own mark by 1/8, and no more."""
    proof = prove_between_walls(distance=inch(180), difference=inch(difference), rating=EIGHTH_AT_30)
    assert (proof.found, proof.allowed, proof.holds) == (inch(difference), inch("1/8"), holds)
    assert proof.slope == Fraction(inch(difference), inch(360))


@pytest.mark.parametrize("climb", [Fraction(1, 4000), Fraction(-1, 2000), Fraction(0)])
def test_the_pegs_find_a_known_slope(climb: Fraction) -> None:
    """Readings made up for a line that climbs by a known slope give that slope back, sign and all.

    A climbing line passes higher over the far mark, so that mark is read farther down.
    """
    near, far, true = inch(20), inch(220), inch("3/8")
    difference = true + climb * (far - near)
    proof = prove_by_pegs(
        near=near, far=far, true_difference=true, difference=int(difference), rating=EIGHTH_AT_30
    )
    assert proof.slope == pytest.approx(climb, abs=1e-7)
    assert proof.allowed == Fraction(inch("1/8") * 200, 360)
    assert proof.holds is (abs(climb) < Fraction(1, 2880))


def test_pegs_that_stand_alike_prove_nothing() -> None:
    """With both marks equally far the slope cancels, so the call is refused."""
    with pytest.raises(ValueError, match="farther"):
        prove_by_pegs(near=mm(500), far=mm(500), true_difference=0, difference=0, rating=EIGHTH_AT_30)


@pytest.mark.parametrize(("again", "holds"), [("48 1/4", True), ("48 3/16", True), ("48 3/8", False)])
def test_the_closing_shot_holds_up_to_its_limit(again: str, holds: bool) -> None:
    """The first point read again may differ by the limit either way, and tells no slope."""
    proof = closing_shot(first=inch("48 1/4"), again=inch(again), limit=inch("1/16"))
    assert (proof.found, proof.holds, proof.slope) == (abs(inch(again) - inch("48 1/4")), holds, None)
