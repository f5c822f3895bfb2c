"""The worth of a reading, against the closed form that a plain normal law has."""

from __future__ import annotations

import numpy as np
import pytest

from setline.lengths import TICKS_PER_INCH, Units
from setline.odds.drawn import DrawnFloors, ReadingSpot
from setline.odds.next_reading import next_readings

DOUBT = TICKS_PER_INCH // 32


def _spots(count: int) -> list[ReadingSpot]:
    """Return spots along a wall, a foot apart."""
    foot = 12 * TICKS_PER_INCH
    return [
        ReadingSpot(wall="A", u=foot * n, out=0, line="wall", x=foot * n, y=0, again=False)
        for n in range(count)
    ]


def _floors(shares: list[float], doubt: int, count: int = 40_000) -> DrawnFloors:
    """Return floors with one bearing point, and spots that share so much of its height with it."""
    chance = np.random.default_rng(5)
    high = chance.normal(0, doubt, count)
    own = chance.normal(0, doubt, (count, len(shares)))
    share = np.array(shares)
    return DrawnFloors(asked=high[:, None], bare=share * high[:, None] + np.sqrt(1 - share**2) * own)


def test_what_a_reading_leaves_is_what_the_normal_law_leaves() -> None:
    """One bearing point, doubted by 1/8: after a reading good to 1/32 at it, prior and reading combine."""
    before = TICKS_PER_INCH // 8
    (reading,) = next_readings(
        _floors([0.2, 1.0, 0.6], before), _spots(3), doubt=DOUBT, units=Units.INCH, settled=True
    )
    left = (before**-2 + DOUBT**-2) ** -0.5
    step = TICKS_PER_INCH // 64
    assert reading.spot == "A 12 wall"
    assert reading.within_before == pytest.approx(1.96 * before, abs=step)
    assert reading.within_after == pytest.approx(1.96 * left, abs=step)


def test_the_second_reading_is_judged_on_what_the_first_leaves() -> None:
    """A spot that says the same as the first is worth little after it; one that says more is next."""
    chance = np.random.default_rng(6)
    left, right = chance.normal(0, TICKS_PER_INCH // 8, (2, 40_000))
    floors = DrawnFloors(asked=(left + 0.8 * right)[:, None], bare=np.column_stack((left, left, right)))
    found = next_readings(floors, _spots(3), doubt=DOUBT // 8, units=Units.INCH, settled=False)
    assert {found[0].spot, found[1].spot} in ({"A 0 wall", "A 24 wall"}, {"A 12 wall", "A 24 wall"})
    assert found[1].would_settle.startswith("Then A 24 wall: within ")


def test_a_reading_that_tells_nothing_is_not_asked_for() -> None:
    """Where no spot shares anything with the high spot a settled line asks for none."""
    assert (
        next_readings(_floors([0.0, 0.0], DOUBT), _spots(2), doubt=DOUBT, units=Units.INCH, settled=True)
        == ()
    )
    assert next_readings(_floors([], DOUBT), [], doubt=DOUBT, units=Units.INCH, settled=False) == ()


def test_an_unsettled_line_always_has_a_next_reading() -> None:
    """Where every spot tells little, the one that tells most is named all the same."""
    found = next_readings(
        _floors([0.0, 0.3], TICKS_PER_INCH),
        _spots(2),
        doubt=8 * TICKS_PER_INCH,
        units=Units.INCH,
        settled=False,
    )
    assert [reading.spot for reading in found][:1] == ["A 12 wall"]
    assert "tells most" in found[0].would_settle
