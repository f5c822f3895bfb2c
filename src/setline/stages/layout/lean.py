"""Where the walls that close the two ends of a wall really stand, over height and depth.

A plumb line at a corner is read back to the wall that closes it, at several heights and perhaps at several
depths out into the room. Plumb boxes meet each end wall where it stands farthest into the room, so what
counts is the surface over the end box's height *and* depth: usable = least right - greatest left, and never
the least of the lengths, which two walls that lean together do not show at all.

Between two readings a wall is taken straight; beyond the last it is taken plumb. Every plumb line is tied to
the wall by its own reading at the height of the struck line, nearest to the wall, where the datum lies.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from setline.job.fields import Height
from setline.job.readings import surface_shift
from setline.lengths import Rounding, round_to

__all__ = ["Band", "EndWall", "Offset", "PlumbLine", "Protrusion", "spoken_height"]

Side = Literal["left", "right"]


def spoken_height(height: Height) -> str:
    """Return a height as it is spoken in an address, such as ``34 1/2 up from subfloor``."""
    if height.up is not None:
        return f"{height.up.typed} up from {height.zero}"
    return f"{height.down.typed if height.down else '?'} down from {height.zero}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """The part of an end wall that a box could meet.

    Attributes:
        low: Lower end (z). [ticks]
        high: Upper end (z).
        out: From the wall to this far out into the room.
    """

    low: int
    high: int
    out: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Offset:
    """One plumb reading with its signs converted.

    Attributes:
        z: Height. [ticks]
        out: From the wall into the room.
        shift: Where the surface lies along u from its plumb line.
        reading: Address and text as typed.
        spoken: Its height as spoken.
    """

    z: int
    out: int
    shift: int
    reading: str
    spoken: str

    @staticmethod
    def read(side: Side, *, z: int, out: int, back: int, reading: str, spoken: str) -> Offset:
        """Return the offset of a reading ``back`` from a plumb line to the end wall of that side."""
        return Offset(z=z, out=out, shift=surface_shift(side, back), reading=reading, spoken=spoken)


@dataclass(frozen=True, slots=True, kw_only=True)
class Protrusion:
    """Where an end wall stands farthest into the room within a band.

    Attributes:
        shift: Along u from the wall's surface at the datum. [ticks]
        at: The reading nearest to the place, or None for a wall of which none was read.
        datum: The reading that ties its plumb line to the datum, or the nearest to it.
        is_far: Whether the band reaches farther past all readings than it should.
    """

    shift: int
    at: Offset | None = None
    datum: Offset | None = None
    is_far: bool = False


class PlumbLine:
    """The readings from one plumb line, tied to the wall's surface at the datum.

    Args:
        side: Which end of the wall its end wall closes.
        offsets: The readings; at least one.
        struck: z of the struck line, where the datum lies.
        as_read: A reading this near to the struck line counts as read at it.
        grain: What is found between readings is rounded to this, into the room.
    """

    __slots__ = ("_at_datum", "_grain", "_lines", "datum", "side")

    def __init__(
        self, side: Side, offsets: Iterable[Offset], *, struck: int, as_read: int, grain: int
    ) -> None:
        self.side = side
        self._grain = grain
        ordered = sorted(offsets, key=lambda each: (each.out, abs(each.z - struck), each.z))
        if abs(ordered[0].z - struck) <= as_read:
            ordered[0] = replace(ordered[0], z=struck)
        self.datum = ordered[0]
        lines: dict[int, list[Offset]] = {}
        for offset in sorted(ordered, key=lambda each: each.z):
            lines.setdefault(offset.out, []).append(offset)
        self._lines = sorted(lines.items())
        self._at_datum = _along(self._lines[0][1], struck)

    def shift_at(self, z: int, out: int) -> int:
        """Return where the surface lies along u from its place at the datum, in ticks."""
        return self._at(z, out) - self._at_datum

    def _at(self, z: int, out: int) -> int:
        """Return the surface along u from the plumb line: straight between readings, plumb beyond them."""
        depths = self._lines
        outs = [depth for depth, _ in depths]
        place = bisect_left(outs, out)
        if place == 0:
            return _along(depths[0][1], z)
        if place == len(outs):
            return _along(depths[-1][1], z)
        return _between(
            (outs[place - 1], _along(depths[place - 1][1], z)),
            (outs[place], _along(depths[place][1], z)),
            out,
        )

    def farthest(self, band: Band, near: int) -> Protrusion:
        """Return where the surface stands farthest into the room within a band.

        Args:
            band: Heights and depth.
            near: A band that reaches farther than this past all readings is said to be far.
        """
        heights = {band.low, band.high}
        heights.update(each.z for _, line in self._lines for each in line if band.low < each.z < band.high)
        outs = {out for out, _ in self._lines if out < band.out} | {band.out, 0}
        sign = 1 if self.side == "left" else -1
        spots = [(sign * self.shift_at(z, out), -z, -out) for z in sorted(heights) for out in sorted(outs)]
        into, z, out = max(spots)
        return Protrusion(
            shift=sign * round_to(into, self._grain, Rounding.UP),
            at=self._nearest(-z, -out),
            datum=self.datum,
            is_far=self._reaches_past(band) > near,
        )

    def _nearest(self, z: int, out: int) -> Offset:
        everything = [each for _, line in self._lines for each in line]
        return min(everything, key=lambda each: (abs(each.z - z) + abs(each.out - out), each.z, each.out))

    def _reaches_past(self, band: Band) -> int:
        """Return how far a band reaches past the lowest or the highest reading."""
        heights = [each.z for _, line in self._lines for each in line]
        return max(min(heights) - band.low, band.high - max(heights))


def _along(line: Sequence[Offset], z: int) -> int:
    """Return the surface at a height between the readings of one depth."""
    place = bisect_left([each.z for each in line], z)
    if place == 0:
        return line[0].shift
    if place == len(line):
        return line[-1].shift
    below, above = line[place - 1], line[place]
    return _between((below.z, below.shift), (above.z, above.shift), z)


def _between(first: tuple[int, int], second: tuple[int, int], at: int) -> int:
    """Return the value on the straight line between two points, to the nearest tick."""
    (start, low), (end, high) = first, second
    rise, span = (high - low) * (at - start), end - start
    return low + (2 * rise + span) // (2 * span)


class EndWall:
    """The wall that closes one end, by all its plumb lines.

    Args:
        side: Which end.
        lines: Its plumb lines; none if none was read.
    """

    __slots__ = ("lines", "side")

    def __init__(self, side: Side, lines: Sequence[PlumbLine]) -> None:
        self.side = side
        self.lines = tuple(lines)

    @property
    def is_read(self) -> bool:
        """Whether it was read at all."""
        return bool(self.lines)

    def shift_at(self, z: int, out: int) -> int:
        """Return where its surface lies along u from its place at the datum, by its first plumb line."""
        return self.lines[0].shift_at(z, out) if self.lines else 0

    def farthest(self, band: Band, near: int) -> Protrusion:
        """Return where it stands farthest into the room within a band; no shift where nothing was read."""
        found = [line.farthest(band, near) for line in self.lines]
        if not found:
            return Protrusion(shift=0)
        return (
            max(found, key=lambda each: each.shift)
            if self.side == "left"
            else min(found, key=lambda each: each.shift)
        )
