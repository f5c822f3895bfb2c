"""The gap under a straightedge laid anywhere along a line of readings, and how far it rocks on a hump.

The profile is the straight join of the readings. The straightedge rests on two points of the floor under it,
the highest it can; its own ends may rest between two readings. Only windows of exactly its length count (the
whole line, if shorter): a longer straightedge rests at least as high everywhere.

Why the search is exact. Under a chord from a to b the gap at s grows or falls steadily as one end slides
along one straight piece of the profile, so the widest gap has both ends at readings, or ends exactly one
straightedge apart. In the second case the height over s is a parabola in the place of the start, between two
breaks of the profile under either end: its turning point and the two breaks are all that need trying. And s
itself is a reading, since between two readings the profile is straight.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

__all__ = ["StraightedgeGap", "gap_under_straightedge", "rocking_gap"]

Station = tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class StraightedgeGap:
    """The widest gap between a straightedge and the floor.

    Attributes:
        gap: Between its edge and the floor. [ticks, exact]
        at: Along the line, where that is: always a reading. [ticks]
        rests: Along the line, the two points it rests on there. [ticks, exact]
    """

    gap: Fraction
    at: int
    rests: tuple[Fraction, Fraction]


def gap_under_straightedge(profile: Sequence[Station], length: int) -> StraightedgeGap | None:
    """Return the widest gap under a straightedge of that length laid anywhere along the line.

    Args:
        profile: (along, height) of each reading; along grows, height up positive. [ticks]
        length: Of the straightedge; if the line is shorter, the whole line is one window. [ticks]

    Returns:
        The widest gap, the first along the line if equal; None for fewer than three readings, or where the
        straightedge touches everywhere.

    Raises:
        ValueError: The readings are not in order along the line.

    Source:
        Plain geometry (see the module's head).
    """
    if any(left[0] >= right[0] for left, right in pairwise(profile)):
        raise ValueError("readings of a line stand in order, each farther along than the one before")
    if len(profile) < 3:
        return None
    best: StraightedgeGap | None = None
    for found in (_resting_on_readings(profile, length), _resting_on_its_ends(profile, length)):
        if found is not None and (best is None or found.gap > best.gap):
            best = found
    return best


def rocking_gap(profile: Sequence[Station], length: int) -> StraightedgeGap | None:
    """Return how far a hump stands above the straight line between two lower points within the length.

    It is the gap under a straightedge held against the floor from below; ``rests`` are the two low points.
    """
    return gap_under_straightedge([(along, -height) for along, height in profile], length)


def _resting_on_readings(profile: Sequence[Station], length: int) -> StraightedgeGap | None:
    """Return the widest gap with both rests at readings no farther apart than the straightedge is long."""
    best, rests = Fraction(0), None
    for first, (a, low) in enumerate(profile):
        for last in range(first + 2, len(profile)):
            b, high = profile[last]
            if b - a > length:
                break
            for s, floor in profile[first + 1 : last]:
                over = low * (b - s) + high * (s - a) - floor * (b - a)
                if over * best.denominator > best.numerator * (b - a):
                    best, rests = Fraction(over, b - a), (a, s, b)
    if rests is None:
        return None
    return StraightedgeGap(gap=best, at=rests[1], rests=(Fraction(rests[0]), Fraction(rests[2])))


def _resting_on_its_ends(profile: Sequence[Station], length: int) -> StraightedgeGap | None:
    """Return the widest gap with the straightedge's two ends resting on the floor.

    Floats find the place; the gap there is then worked out exactly.
    """
    widest, found = 0.0, None
    for slide in _slides(profile, length):
        for s, floor in profile:
            if slide.start < s < slide.end + length:
                height, start = _highest_pass(slide, s, length)
                if height - floor > widest + TOUCH:
                    widest, found = height - floor, (slide, s, start)
    if found is None:
        return None
    slide, s, near = found
    exact = min(_exact_starts(slide, s, length), key=lambda place: abs(place - near))
    gap = slide.over(s, exact, length) - dict(profile)[s]
    return StraightedgeGap(gap=gap, at=s, rests=(exact, exact + length))


TOUCH = 1e-6  # a gap below a millionth of a tick is the floats' crumbs


@dataclass(frozen=True, slots=True)
class _Slide:
    """A stretch of starts for which each end stays on one straight piece of the profile.

    Each piece is a reading it starts at (along, height), its run and its rise to the next reading.
    """

    start: int
    end: int
    left: tuple[int, int, int, int]
    right: tuple[int, int, int, int]

    def over(self, s: int, start: Fraction, length: int) -> Fraction:
        """Return the height of the straightedge over s, exactly."""
        (a, low, run, rise), (b, high, reach, climb) = self.left, self.right
        behind = low + Fraction(rise, run) * (start - a)
        ahead = high + Fraction(climb, reach) * (start + length - b)
        return behind + (ahead - behind) * (s - start) / length


def _slides(profile: Sequence[Station], length: int) -> Iterator[_Slide]:
    """Yield each stretch of starts between two breaks of the profile under either end."""
    begin, finish = profile[0][0], profile[-1][0] - length
    breaks = {along for along, _ in profile} | {along - length for along, _ in profile}
    starts = sorted(along for along in breaks if begin <= along <= finish)
    for start, end in pairwise(starts):
        yield _Slide(start, end, _piece(profile, start), _piece(profile, start + length))


def _piece(profile: Sequence[Station], along: int) -> tuple[int, int, int, int]:
    """Return the straight piece of the profile that starts at or before a place."""
    last = max(place for place in range(len(profile) - 1) if profile[place][0] <= along)
    (a, low), (b, high) = profile[last], profile[last + 1]
    return a, low, b - a, high - low


def _parabola(slide: _Slide, s: int, length: int) -> tuple[float, float, float]:
    """Return level, slope, square: the height over s is level + slope p + square p p at slide.start + p."""
    (a, low, run, rise), (b, high, reach, climb) = slide.left, slide.right
    m, n = rise / run, climb / reach
    behind, ahead = low + m * (slide.start - a), high + n * (slide.start + length - b)
    share = (s - slide.start) / length
    level = behind + (ahead - behind) * share
    return level, m + (n - m) * share - (ahead - behind) / length, (m - n) / length


def _highest_pass(slide: _Slide, s: int, length: int) -> tuple[float, float]:
    """Return the greatest height of the straightedge over s as it slides, and its start there."""
    level, slope, square = _parabola(slide, s, length)
    least, most = max(0, s - length - slide.start), min(slide.end, s) - slide.start
    tries = [float(least), float(most)]
    if square < 0 and least < -slope / (2 * square) < most:
        tries.append(-slope / (2 * square))
    height, back = max((level + p * (slope + p * square), -p) for p in tries)
    return height, slide.start - back


def _exact_starts(slide: _Slide, s: int, length: int) -> list[Fraction]:
    """Return the starts that may be the best: the two breaks and the parabola's turning point."""
    starts = [Fraction(max(slide.start, s - length)), Fraction(min(slide.end, s))]
    low, middle, high = (slide.over(s, slide.start + Fraction(p), length) for p in (-1, 0, 1))
    square, slope = (low + high) / 2 - middle, (high - low) / 2
    if square:
        starts.append(slide.start - slope / (2 * square))
    return starts
