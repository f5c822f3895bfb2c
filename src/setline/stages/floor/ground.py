"""The floor as the boxes meet it: readings, surface, coverings, and which number stands at a point.

One rule gives the number for the line, the band and the shims alike:

* the nearest reading within 3 in, as read (of equally near ones the middle), if no step lies between and its
  set-up is tied to the one in use;
* else the surface's mean;
* and ``?`` where the nearest reading on the same side of every step lies over 12 in away, or the mean may be
  off by more than 1/8, 19 times in 20.

The three lengths are rules of the book. A set-up tied by marks adds the doubt of its tie and of its laser's
slope; its numbers stay as read.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot, sqrt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from setline.job.job import Job
from setline.job.readings import FloorReading, floor_readings
from setline.result import FloorSpot
from setline.rules import RuleBook
from setline.stages.floor.covering import Coverings, coverings_of
from setline.stages.floor.set_ups import TieDoubts, floor_doubt, laser_doubts, laser_numbers
from setline.stages.floor.sounding import Sounding, StepLine, sides
from setline.stages.floor.surface import SIDE_OF_95, FloorModel, fit_floor
from setline.stages.room import Outline

__all__ = ["Close", "Ground", "GroundHeight", "read_ground", "toe_line_of"]

Ints = NDArray[np.int64]
Spot = tuple[int, int]
NEARBY = 4  # readings named behind a number that the surface gives


@dataclass(frozen=True, slots=True, kw_only=True)
class GroundHeight:
    """The bare floor at a point.

    Attributes:
        bare: Its height, or None where it is ``?``. [ticks]
        guess: The same or, where it is ``?``, what the surface says; None without any reading. [ticks]
        within: Half its 95 % range. [ticks]
        readings: Places in ``Ground.readings`` of those it rests on, the nearest first.
        as_read: Whether it is a reading itself rather than the surface's mean.
        too_far: Whether it is ``?`` for want of a reading near enough, rather than for doubt.
    """

    bare: int | None
    guess: int | None
    within: int | None
    readings: tuple[int, ...]
    as_read: bool
    too_far: bool


class Close(NamedTuple):
    """Readings of one spot close to a side, and the place on the side that is nearest to them."""

    readings: tuple[int, ...]
    u: int
    out: int


class Ground:
    """The floor of a job; made by ``read_ground``.

    Attributes:
        job: The job.
        book: Its rules.
        outline: Its room.
        toe_line: How far out from the wall the toe line lies. [ticks]
        coverings: What lies on the bare floor, and will.
        readings: Every floor reading, signs converted.
        spots: The same in the room, for drawings.
        soundings: The same as heights of the bare floor, as the surface takes them.
        doubt: One standard deviation of a reading. [ticks]
        model: The surface, or None without readings.
    """

    def __init__(self, job: Job, book: RuleBook, outline: Outline) -> None:
        self.job, self.book, self.outline = job, book, outline
        self.toe_line = toe_line_of(job, book)
        self.coverings: Coverings = coverings_of(job, outline, self.toe_line)
        self.doubt = floor_doubt(job, book)
        self.readings: tuple[FloorReading, ...] = floor_readings(job, self.toe_line)
        self._places = [outline.to_room(each.wall, each.u, each.out) for each in self.readings]
        laid = [self.coverings.laid(place) for place in self._places] if self.coverings.all else []
        self._laid = [
            0 if not laid or each.on == "bare" else laid[index] for index, each in enumerate(self.readings)
        ]
        self.spots = self._spots()
        self.soundings = self._soundings()
        self.steps = _step_lines(job, outline)
        self.model: FloorModel | None = self._fitted()
        self._at: Ints = np.array(self._places, dtype=np.int64).reshape(-1, 2)
        self._tied = np.array([each.z is not None for each in self.readings], dtype=bool)
        self._sides = [sides(place, self.steps) for place in self._places]
        self._tie_doubts = TieDoubts(job, book, self.readings, self._places)
        self._from_wall: dict[str, Ints] = {}

    def _fitted(self) -> FloorModel | None:
        """Return the surface of the bare floor, or None without readings."""
        if not self.soundings:
            return None
        return fit_floor(self.soundings, self.steps, laser_doubts(self.job, self.book))

    def _spots(self) -> tuple[FloorSpot, ...]:
        """Return the readings in the room."""
        return tuple(
            FloorSpot(
                address=each.address,
                typed=each.typed,
                wall=each.wall,
                u=each.u,
                out=each.out,
                x=place[0],
                y=place[1],
                z=each.z,
                on_covering=laid > 0,
                under_boxes=None if each.z is None else each.z - laid + self.coverings.under_boxes(place),
            )
            for each, place, laid in zip(self.readings, self._places, self._laid, strict=True)
        )

    def _soundings(self) -> tuple[Sounding, ...]:
        """Return the readings as heights of the bare floor; untied set-ups get numbers of their own."""
        untied = dict.fromkeys(each.set_up for each in self.readings if each.z is None)
        numbers = {name: number for number, name in enumerate(untied, start=1)}
        lasers = laser_numbers(self.job)
        return tuple(
            Sounding(
                x=place[0],
                y=place[1],
                z=(each.own if each.z is None else each.z) - laid,
                set_up=numbers.get(each.set_up, 0),
                sigma=max(self.doubt, 1),
                laser=lasers[each.set_up],
            )
            for each, place, laid in zip(self.readings, self._places, self._laid, strict=True)
        )

    def bare_z(self, reading: int) -> int | None:
        """Return the height of the bare floor at a reading, or None if its set-up is tied to no other."""
        z = self.readings[reading].z
        return None if z is None else z - self._laid[reading]

    def place(self, reading: int) -> Spot:
        """Return x, y of a reading."""
        return self._places[reading]

    def close_to(self, wall: str, u: tuple[int, int], out: tuple[int, int]) -> list[Close]:
        """Return the tied readings within the reach of ``as-read-within`` of a side, no step between.

        Args:
            wall: The wall the side is seen from.
            u: Its least and greatest u. [ticks]
            out: Its least and greatest out. [ticks]

        Returns:
            In the job's order, repeats of one spot together.
        """
        along, across = self.seen_from(wall)
        at_u, at_out = np.clip(along, *u), np.clip(across, *out)
        away = (along - at_u) ** 2 + (across - at_out) ** 2
        near = np.flatnonzero(self._tied & (away <= self.book.length("as-read-within") ** 2))
        found: dict[Spot, Close] = {}
        for index in near.tolist():
            spot = self.outline.to_room(wall, int(at_u[index]), int(at_out[index]))
            if self.is_same_side(index, spot):
                before = found.get(self._places[index])
                takes = () if before is None else before.readings
                found[self._places[index]] = Close((*takes, index), int(at_u[index]), int(at_out[index]))
        return list(found.values())

    def seen_from(self, wall: str) -> tuple[Ints, Ints]:
        """Return u and out of every reading as seen from a wall, in the job's order."""
        if wall not in self._from_wall:
            seen = [self.outline.from_room(wall, *place) for place in self._places]
            self._from_wall[wall] = np.array(seen, dtype=np.int64).reshape(-1, 2)
        return self._from_wall[wall][:, 0], self._from_wall[wall][:, 1]

    def is_tied(self, reading: int) -> bool:
        """Return whether a reading has a height."""
        return bool(self._tied[reading])

    def is_same_side(self, reading: int, spot: Spot) -> bool:
        """Return whether no step lies between a reading and a spot."""
        return not self.steps or self._sides[reading] == sides(spot, self.steps)

    def sides_of(self, reading: int) -> tuple[int, ...]:
        """Return on which side of each step a reading lies."""
        return self._sides[reading]

    def told(self, readings: Sequence[int]) -> tuple[str, ...]:
        """Return the addresses of readings, each with its text as typed."""
        return tuple(f"{self.readings[each].address}: {self.readings[each].typed}" for each in readings)

    def heights(self, spots: Sequence[Spot]) -> tuple[GroundHeight, ...]:
        """Return the number that stands at each spot (see the module's head); one call for many is quick.

        Args:
            spots: x, y in the room. [ticks]
        """
        if self.model is None or not spots:
            return tuple(_UNKNOWN for _ in spots)
        away = self._square_distances(spots)
        as_read = [self.as_read(near) if near else None for near in self._as_read_at(away)]
        others = [index for index, read in enumerate(as_read) if read is None]
        modelled = iter(self._modelled([spots[index] for index in others], away[others]))
        return tuple(read if read is not None else next(modelled) for read in as_read)

    def as_read(self, readings: Sequence[int]) -> GroundHeight:
        """Return the number that readings give by themselves: their middle."""
        heights = sorted(z for each in readings if (z := self.bare_z(each)) is not None)
        middle = (heights[(len(heights) - 1) // 2] + heights[len(heights) // 2]) // 2
        return GroundHeight(
            bare=middle,
            guess=middle,
            within=self._within(readings),
            readings=tuple(readings),
            as_read=True,
            too_far=False,
        )

    def stands_as_read(self, spots: Sequence[Spot]) -> list[tuple[int, ...]]:
        """Return for each spot the readings that stand there: the nearest, or equally near ones; or none."""
        if self.model is None:
            return [() for _ in spots]
        return self._as_read_at(self._square_distances(spots))

    def has_near_reading(self, spots: Sequence[Spot]) -> list[bool]:
        """Return for each spot whether a reading on its side of every step lies near enough for a number."""
        if self.model is None or not spots:
            return [False for _ in spots]
        reach = self.book.length("nearest-reading")
        return [bool(near) for near in self._square_distances(spots).min(axis=1) <= reach**2]

    def _square_distances(self, spots: Sequence[Spot]) -> Ints:
        """Return the square of each distance from spot to reading; across a step it is ``_FAR``. Exact."""
        points = np.array(spots, dtype=np.int64)
        along, across = points[:, :1] - self._at[:, 0], points[:, 1:] - self._at[:, 1]
        away: Ints = along * along + across * across
        if self.steps:
            here = np.array([sides(spot, self.steps) for spot in spots], dtype=np.int8)
            there = np.array(self._sides, dtype=np.int8)
            away[(here[:, None, :] != there[None, :, :]).any(axis=2)] = _FAR
        return away

    def _as_read_at(self, away: Ints) -> list[tuple[int, ...]]:
        """Return for each row of square distances the nearest tied reading within reach, and its equals."""
        tied = np.where(self._tied, away, _FAR)
        least = tied.min(axis=1, keepdims=True)
        near = (tied == least) & (least <= self.book.length("as-read-within") ** 2)
        found: list[list[int]] = [[] for _ in away]
        for row, reading in zip(*(each.tolist() for each in np.nonzero(near)), strict=True):
            found[row].append(reading)
        return [tuple(each) for each in found]

    def _modelled(self, spots: Sequence[Spot], away: Ints) -> list[GroundHeight]:
        """Return the surface's mean at each spot, or ``?``."""
        assert self.model is not None, "the surface is asked only where there is one"
        reach, limit = self.book.length("nearest-reading") ** 2, self.book.length("doubt-limit")
        order = np.argsort(away, axis=1, kind="stable")[:, :NEARBY]
        found: list[GroundHeight] = []
        for row, nearest, fitted in zip(away, order, self.model.at(spots), strict=True):
            too_far = int(row[nearest[0]]) > reach
            found.append(
                GroundHeight(
                    bare=None if too_far or fitted.within > limit else fitted.height,
                    guess=fitted.height,
                    within=fitted.within,
                    readings=tuple(int(each) for each in nearest if row[each] < _FAR),
                    as_read=False,
                    too_far=too_far,
                )
            )
        return found

    def _within(self, readings: Sequence[int]) -> int:
        """Return half the 95 % range of the middle of readings."""
        own = self.doubt / sqrt(len(readings))
        return round(SIDE_OF_95 * hypot(own, self._tie_doubts.of(readings[0])))


_FAR = np.int64(2**62)
_UNKNOWN = GroundHeight(bare=None, guess=None, within=None, readings=(), as_read=False, too_far=True)


def _step_lines(job: Job, outline: Outline) -> tuple[StepLine, ...]:
    """Return the marked steps in the room."""
    return tuple(
        StepLine(
            *outline.to_room(step.wall, step.from_u.ticks, step.from_out.ticks),
            *outline.to_room(step.wall, step.to_u.ticks, step.to_out.ticks),
        )
        for step in job.floor.steps
    )


def toe_line_of(job: Job, book: RuleBook) -> int:
    """Return how far out from the wall the toe line lies: the job's, else the rule's. [ticks]."""
    given = job.floor.toe_line
    return given.ticks if given is not None else book.length("toe-line")


def read_ground(job: Job, book: RuleBook, outline: Outline) -> Ground:
    """Return the floor as the boxes meet it.

    Args:
        job: The job.
        book: Its rules.
        outline: Its room.
    """
    return Ground(job, book, outline)
