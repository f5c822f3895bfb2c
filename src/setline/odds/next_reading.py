"""The floor readings that would help the line most.

For every spot that might be read, the drawn floors are sorted by what would be read there (the floor and the
slip of a reading) and put into twenty equal bins. How much the height of the high spot still varies inside
the bins, about a straight line in each so that a bin's own width does not count, is what would be left of its
doubt after that reading. This beats reading where the surface is least known, or at the presumed high spot:
what counts is what tells of the highest point among many.

The second reading is judged on what the first leaves.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

import numpy as np
from numpy.typing import NDArray

from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Rounding, Units, round_to, show
from setline.odds.drawn import DrawnFloors, ReadingSpot
from setline.result import NextReading, RunPlan
from setline.stages.floor.bearing import Bearing
from setline.stages.floor.ground import Ground
from setline.stages.floor.surface import SIDE_OF_95
from setline.wording import say

__all__ = ["next_readings", "reading_spots"]

Array = NDArray[np.float64]

SEED_OF_SLIPS = 61  # not the seed of the floors: a slip must know nothing of them
BINS = 20
MOST_SPOTS = 120
MOST_AT_ONCE = 3


def reading_spots(
    ground: Ground, runs: Sequence[RunPlan], bearings: Sequence[Bearing]
) -> tuple[ReadingSpot, ...]:
    """Return the spots that might be read: under the base runs, at the wall and at the toe line.

    They lie where boxes bear and, between those, every foot from the left end, on whole inches (centimetres);
    where a reading was taken close by, at that reading.

    Args:
        ground: The floor.
        runs: The runs.
        bearings: Where the boxes bear.
    """
    places = [(run.wall, u) for run in runs for u in _places_under(ground, run, bearings)]
    every = -(-2 * len(places) // MOST_SPOTS) or 1
    lines = ((0, "wall"), (ground.toe_line, "toe"))
    spots = (
        _at_reading(ground, wall, u, out) or _fresh(ground, wall, u, out, line)
        for wall, u in places[::every]
        for out, line in lines
    )
    return tuple(dict.fromkeys(spots))


def _places_under(ground: Ground, run: RunPlan, bearings: Sequence[Bearing]) -> list[int]:
    """Return where along its wall the floor under a run might be read, from its left end."""
    left, right = run.left_end.value, run.right_end.value
    if run.row != "base" or left is None or right is None:
        return []
    metric = ground.job.job.tape == Units.METRIC
    whole, foot = (10 * TICKS_PER_MM, 300 * TICKS_PER_MM) if metric else (TICKS_PER_INCH, 12 * TICKS_PER_INCH)
    places: list[int] = []
    sides = sorted(each.u for each in bearings if each.wall == run.wall and left <= each.u <= right)
    for u in (*sides, *range(left, right, foot), right):
        place = round_to(u, whole, Rounding.NEAREST_UP)
        if all(abs(place - other) > ground.book.length("as-read-within") for other in places):
            places.append(place)
    return sorted(places)


def _fresh(ground: Ground, wall: str, u: int, out: int, line: str) -> ReadingSpot:
    """Return a spot that was not read."""
    x, y = ground.outline.to_room(wall, u, out)
    return ReadingSpot(wall=wall, u=u, out=out, line=line, x=x, y=y, again=False)


def _at_reading(ground: Ground, wall: str, u: int, out: int) -> ReadingSpot | None:
    """Return the nearest reading along the same wall within reach of a spot, as a spot to read again."""
    reach = ground.book.length("as-read-within")
    near = [
        (abs(each.u - u), each)
        for each in ground.readings
        if each.wall == wall and each.out == out and abs(each.u - u) <= reach
    ]
    if not near:
        return None
    reading = min(near, key=lambda pair: pair[0])[1]
    x, y = ground.outline.to_room(wall, reading.u, reading.out)
    return ReadingSpot(wall=wall, u=reading.u, out=out, line=reading.line, x=x, y=y, again=True)


def next_readings(
    floors: DrawnFloors, spots: Sequence[ReadingSpot], *, doubt: int, units: Units, settled: bool
) -> tuple[NextReading, ...]:
    """Return the readings that would narrow the height of the high spot most, in the order to take them.

    Args:
        floors: Drawn floors.
        spots: Spots that might be read, one a column of ``floors.bare``.
        doubt: One standard deviation of a reading. [ticks]
        units: The job's tape.
        settled: Whether enough was read for the line: then one reading, to confirm it.

    Returns:
        At most three. A line that is not settled has one at least; else none that would not change what the
        high spot is printed within.
    """
    chance = np.random.default_rng(SEED_OF_SLIPS)
    high, bare = floors.asked.max(axis=1), floors.bare
    open_spots = np.ones(len(spots), dtype=bool)
    found: list[NextReading] = []
    before = float(high.var())
    for _ in range(min(MOST_AT_ONCE if not settled else 1, len(spots))):
        read = bare + chance.normal(0.0, doubt, bare.shape)
        left = np.where(open_spots, _left_in_bins(high, read), np.inf)
        best = int(left.argmin())
        after = float(left[best])
        narrows = _within(after, units) < _within(before, units)
        if not narrows and (settled or found):
            break
        key = "next-reading-after" if found else "next-reading" if narrows else "next-reading-most"
        found.append(_told(spots[best], before, after, units, key))
        high, bare = _less_what_it_tells(high, bare, read[:, best])
        before, open_spots[best] = after, False
    return tuple(found)


def _left_in_bins(high: Array, read: Array) -> Array:
    """Return the high spot's variance about a straight line in each bin, averaged; one a reading."""
    order = read.argsort(axis=0)
    tall = _about_mean(high[order].reshape(BINS, -1, read.shape[1]))
    told = _about_mean(np.take_along_axis(read, order, axis=0).reshape(tall.shape))
    square, shared = np.square(told).sum(axis=1), (told * tall).sum(axis=1)
    left = np.square(tall).sum(axis=1) - np.square(shared) / square
    return np.asarray(left.mean(axis=0) / (tall.shape[1] - 2))


def _less_what_it_tells(high: Array, bare: Array, read: Array) -> tuple[Array, Array]:
    """Return what one reading leaves unknown: in each of its bins, everything less its straight line."""
    order = read.argsort()
    told = _about_mean(read[order].reshape(BINS, -1, 1))
    both = _about_mean(np.column_stack((high, bare))[order].reshape(BINS, -1, 1 + bare.shape[1]))
    slope = (told * both).sum(axis=1, keepdims=True) / np.square(told).sum(axis=1, keepdims=True)
    left = (both - slope * told).reshape(len(read), -1)
    return left[:, 0], left[:, 1:]


def _about_mean(binned: Array) -> Array:
    """Return each bin less its mean."""
    return np.asarray(binned - binned.mean(axis=1, keepdims=True))


def _told(spot: ReadingSpot, before: float, after: float, units: Units, key: str) -> NextReading:
    """Return a reading to take, with what it would settle in the sentence of that key."""
    name = f"{spot.wall} {show(spot.u, units)} {spot.line}"
    return NextReading(
        spot=name,
        wall=spot.wall,
        u=spot.u,
        out=spot.out,
        again=spot.again,
        within_before=_within(before, units),
        within_after=_within(after, units),
        would_settle=say(
            key,
            spot=say("next-reading-again", spot=name) if spot.again else name,
            after=show(_within(after, units), units),
            before=show(_within(before, units), units),
        ),
    )


def _within(variance: float, units: Units) -> int:
    """Return half the 95 % range as it is printed: rounded up to 1/64 in or 0.1 mm."""
    step = TICKS_PER_INCH // 64 if units == Units.INCH else TICKS_PER_MM // 10
    return round_to(ceil(SIDE_OF_95 * variance**0.5), step, Rounding.UP)
