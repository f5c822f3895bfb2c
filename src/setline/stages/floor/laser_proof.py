"""Proving the laser: two walls, two pegs, and the closing shot on the first point.

A laser that is out throws a line that climbs or falls steadily as it goes: one slope for the whole set-up. It
cancels in every shim read and set from one place, and leaves the tops out of level by just that slope. So it
is proved on each job, and every proof is judged against the maker's rating, never against a feeling.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

__all__ = ["Proof", "Rating", "closing_shot", "prove_between_walls", "prove_by_pegs"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rating:
    """What the maker rates the laser at: so much out over so much distance.

    Attributes:
        error: Rated error. [ticks]
        over: Distance it is rated over. [ticks]
    """

    error: int
    over: int

    @property
    def slope(self) -> Fraction:
        """Rated error per unit of distance."""
        return Fraction(self.error, self.over)


@dataclass(frozen=True, slots=True, kw_only=True)
class Proof:
    """How a proof came out: what was found beside what is allowed.

    Attributes:
        found: The difference found, 0 or more. [ticks]
        allowed: The most that the rating allows. [ticks, exact]
        slope: How much the line climbs (+) or falls (-) per unit of distance; without a sign where the proof
            cannot tell; None where it says nothing of a slope.
        holds: Whether the laser is within its rating.
    """

    found: int
    allowed: Fraction
    slope: Fraction | None
    holds: bool


def prove_between_walls(*, distance: int, difference: int, rating: Rating) -> Proof:
    """Judge the two-wall reversal.

    Close to wall 1 the beam is marked on it and on wall 2. Close to wall 2, set on that mark and turned, it
    is marked on wall 1 again. The second mark misses the first by twice the slope over the distance.

    Args:
        distance: Between the two walls. [ticks]
        difference: Between the two marks on wall 1. [ticks]
        rating: Of the laser.

    Returns:
        The slope found is half the difference over the distance; which way cannot be told from it.

    Source:
        Makers' manuals for line and rotary lasers: the difference is at most 2 x distance x rated error.
    """
    allowed = 2 * distance * rating.slope
    slope = Fraction(difference, 2 * distance)
    return Proof(found=difference, allowed=allowed, slope=slope, holds=difference <= allowed)


def prove_by_pegs(*, near: int, far: int, true_difference: int, difference: int, rating: Rating) -> Proof:
    """Judge the two-peg test.

    Two fixed marks are read from midway between them, where any slope cancels: the true difference. They are
    read again from close to the first: what has changed is the slope over the extra distance to the second.

    Args:
        near: From the laser to the first mark, at the second reading. [ticks]
        far: From there to the second mark; it is farther. [ticks]
        true_difference: Second reading less first, read from midway. [ticks, down from the line]
        difference: Second reading less first, read from close to the first. [ticks, down from the line]
        rating: Of the laser.

    Returns:
        With readings taken down from the line, a slope below 0 means that the line falls as it goes.

    Raises:
        ValueError: The second mark is not farther than the first.

    Source:
        The surveyors' two-peg test: e = ((b - a) - true) / (far - near).
    """
    if far <= near:
        raise ValueError("the second mark has to stand farther from the laser than the first")
    out = difference - true_difference
    allowed = (far - near) * rating.slope
    return Proof(found=abs(out), allowed=allowed, slope=Fraction(out, far - near), holds=abs(out) <= allowed)


def closing_shot(*, first: int, again: int, limit: int) -> Proof:
    """Judge the closing shot: the first point read again before the laser is moved.

    It tells whether the laser was knocked or has settled since, not whether it is level.

    Args:
        first: Down to the point, read first. [ticks]
        again: Down to it, read last. [ticks]
        limit: Most that the two may differ. [ticks]
    """
    found = abs(again - first)
    return Proof(found=found, allowed=Fraction(limit), slope=None, holds=found <= limit)
