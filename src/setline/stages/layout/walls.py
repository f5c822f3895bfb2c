"""A wall as it was read from end to end: its lengths, its end walls, and what is usable between them.

Where both ends were read from a plumb line, the usable length is the least right less the greatest left over
the heights and depths that the end boxes meet. Where an end was not, only the lengths can tell, so the least
of those read within the boxes' height is taken and the missing offsets are asked for.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from math import ceil, sqrt

from setline.job.fields import Height
from setline.job.job import Job
from setline.job.readings import floor_heights, height_z
from setline.job.room import Wall
from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Units, show
from setline.result import Figure
from setline.rules import RuleBook
from setline.stages.layout.lean import Band, EndWall, Offset, PlumbLine, Protrusion, Side, spoken_height
from setline.wording import say

_Heights = tuple[tuple[str, int, int], ...]

__all__ = ["LengthRead", "Usable", "WallAsRead", "half_width", "read_walls"]


def half_width(sds: Iterable[int]) -> int:
    """Return half of a 95 % range from independent standard deviations: 1.96 of their root sum of squares."""
    return ceil(1.96 * sqrt(sum(sd * sd for sd in sds)))


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthRead:
    """A length from corner to corner: where it was read, and the text as typed."""

    z: int
    out: int
    length: int
    reading: str
    is_at_datum: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Usable:
    """What a wall leaves between its ends for a row.

    Attributes:
        left: u of the left end with what it rests on.
        right: u of the right end.
        unread: Ends at which no plumb offset was read.
        far: Ends at which the row reaches farther than asked from every offset.
        disagrees: By how much a length falls short of what the offsets say, where that is over their doubt.
        narrower: By how much the faces have less room than the wall, where no offset tells at which end.
    """

    left: Figure
    right: Figure
    unread: tuple[Side, ...] = ()
    far: tuple[Side, ...] = ()
    disagrees: int = 0
    narrower: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class WallAsRead:
    """A wall's lengths and end walls on one set of signs.

    Attributes:
        wall: The wall.
        left: The wall that closes its left end.
        right: The wall that closes its right end.
        lengths: Its lengths.
        struck: z of the struck line, where the datum lies.
        floor_left: z of the floor at its left corner.
        floor_right: z of the floor at its right corner.
        coverings: Thickness of all coverings on the floor, laid and to come.
        job: The job, for its tape.
        book: The rules.
    """

    wall: Wall
    left: EndWall
    right: EndWall
    lengths: tuple[LengthRead, ...]
    struck: int
    floor_left: int
    floor_right: int
    coverings: int
    job: Job
    book: RuleBook

    @property
    def finished_left(self) -> int:
        """Return z of the finished floor at the left corner."""
        return self.floor_left + self.coverings

    @property
    def doubt(self) -> int:
        """One standard deviation of a length read."""
        own = self.job.tools.length_doubt
        return own.ticks if own else self.book.length("length-reading-doubt")

    def reference(self) -> LengthRead:
        """Return the length that the right end is counted from: read at the datum, else nearest to it."""
        at_wall = [each for each in self.lengths if each.is_at_datum and each.out == 0]
        if at_wall:
            least = min(at_wall, key=lambda each: each.length)
            most = max(each.length for each in at_wall)
            return LengthRead(
                z=least.z,
                out=0,
                length=(least.length + most) // 2,
                reading="; ".join(each.reading for each in at_wall),
                is_at_datum=True,
            )
        return min(self.lengths, key=lambda each: (each.out, abs(each.z - self.struck)))

    def right_at_datum(self) -> int:
        """Return u of the right end wall's surface at the datum's height."""
        reference = self.reference()
        start = self.left.shift_at(reference.z, reference.out)
        return start + reference.length - self.right.shift_at(reference.z, reference.out)

    def usable(self, left: Band, right: Band) -> Usable:
        """Return what is usable between the ends for a row that meets them in these bands."""
        near = self.book.length("nearest-reading")
        start, stop = self.left.farthest(left, near), self.right.farthest(right, near)
        lengths = self._within(left, right)
        tight = self._tight(lengths)
        disagrees = max((short for short, each in tight if each.out == 0), default=0)
        narrower = max((short for short, each in tight if each.out > 0), default=0)
        return Usable(
            left=self._left(start, lengths),
            right=self._right(stop, lengths, max(disagrees, narrower)),
            unread=tuple(end.side for end in (self.left, self.right) if not end.is_read),
            far=tuple(
                end.side
                for end, met in ((self.left, start), (self.right, stop))
                if end.is_read and met.is_far
            ),
            disagrees=disagrees,
            narrower=narrower,
        )

    def _within(self, left: Band, right: Band) -> list[LengthRead]:
        """Return the lengths read within the height of either band; the nearest to them if there are none."""
        near = self.book.length("as-read-within")
        low, high = min(left.low, right.low), max(left.high, right.high)
        found = [each for each in self.lengths if low - near <= each.z <= high + near]
        if found:
            return found
        nearest = min(self.lengths, key=lambda each: min(abs(each.z - low), abs(each.z - high)))
        return [nearest]

    def _tight(self, lengths: Iterable[LengthRead]) -> list[tuple[int, LengthRead]]:
        """Return the lengths that fall short of what both ends' offsets say, and by how much."""
        if not (self.left.is_read and self.right.is_read):
            return []
        stop = self.right_at_datum()
        found = []
        for each in lengths:
            said = stop + self.right.shift_at(each.z, each.out) - self.left.shift_at(each.z, each.out)
            short = said - each.length
            if short > (half_width([self.doubt] * 6) if each.out == 0 else 0):
                found.append((short, each))
        return found

    def _left(self, met: Protrusion, lengths: list[LengthRead]) -> Figure:
        """Return the left end: the datum itself, or where its end wall stands farther into the room."""
        units = self.job.job.tape
        if met.at is not None and met.datum is not None:
            return self._leaning("left", 0, met, [])
        start, told = 0, None
        if self.right.is_read:
            stop = self.right_at_datum()
            for each in lengths:
                place = stop + self.right.shift_at(each.z, each.out) - each.length
                if place > start:
                    start, told = place, each
        return Figure(
            value=start,
            within=half_width([self.doubt] * 2) if told else 0,
            readings=(told.reading,) if told else (),
            working=(
                say("left-by-length", reading=told.reading, at=show(start, units))
                if told
                else say("left-is-datum"),
            ),
        )

    def _right(self, met: Protrusion, lengths: list[LengthRead], short: int) -> Figure:
        """Return the right end: the length from the datum, less what its end wall stands into the room."""
        units = self.job.job.tape
        if met.at is not None and met.datum is not None:
            reference = self.reference()
            figure = self._leaning("right", self.right_at_datum(), met, [reference.reading])
            if not short or figure.value is None:
                return figure
            less = figure.value - short
            line = say("right-less-short", short=show(short, units), at=show(less, units))
            return Figure(
                value=less, within=figure.within, readings=figure.readings, working=(*figure.working, line)
            )
        ends = [(self.left.shift_at(each.z, each.out) + each.length, each) for each in lengths]
        stop, told = min(ends, key=lambda pair: pair[0])
        key = "right-is-length" if len(ends) == 1 else "right-is-least-length"
        return Figure(
            value=stop,
            within=half_width([self.doubt]),
            readings=(told.reading,),
            working=(say(key, reading=told.reading, at=show(stop, units)),),
        )

    def _leaning(self, side: Side, datum: int, met: Protrusion, readings: list[str]) -> Figure:
        """Return an end that was read from a plumb line."""
        assert met.at is not None, "an end that was read has its offsets"
        assert met.datum is not None, "and one that ties them to the datum"
        units = self.job.job.tape
        place = datum + met.shift
        sds = [self.doubt] * (len(readings) + (2 if met.shift else 0))
        step = say(
            "end-leans" if met.shift else "end-stands",
            side=side,
            at=met.at.spoken,
            datum=show(datum, units),
            shift=show(abs(met.shift), units),
            sign="+" if met.shift > 0 else "-",
            end=show(place, units),
        )
        return Figure(
            value=place,
            within=half_width(sds),
            readings=tuple(dict.fromkeys([*readings, met.datum.reading, met.at.reading])),
            working=(step,),
        )


def read_walls(job: Job, book: RuleBook, tops: int) -> dict[str, WallAsRead]:
    """Return every wall as it was read, by its letter.

    Args:
        job: The job.
        book: The rules.
        tops: z of the box tops. [ticks]
    """
    floor = floor_heights(job)
    return {wall.name: _read_wall(wall, job, book, tops, floor) for wall in job.room.walls}


def _read_wall(wall: Wall, job: Job, book: RuleBook, tops: int, floor: _Heights) -> WallAsRead:
    """Return one wall as it was read."""
    usual = tops - book.length("base-height")
    rough = wall.lengths[0].length.ticks
    floors = {
        "left": _floor_near(floor, wall.name, 0, usual),
        "right": _floor_near(floor, wall.name, rough, usual),
    }
    struck = tops + book.length("struck-line-clearance")
    coverings = sum(covering.thickness.ticks for covering in job.floor.coverings)

    def stands(height: Height, side: Side) -> int | None:
        subfloor = floors[side]
        return height_z(height, job, subfloor=subfloor, finished=subfloor + coverings, tops=tops)

    lines: dict[Side, list[PlumbLine]] = {"left": [], "right": []}
    for plumb in wall.plumb:
        offsets = []
        for each in plumb.offsets:
            z = stands(each.height, plumb.end)
            if z is None:
                continue
            spoken = spoken_height(each.height)
            address = f"{wall.name} {plumb.end} plumb {spoken}" + (
                f" {each.out.typed} out" if each.out else ""
            )
            offsets.append(
                Offset.read(
                    plumb.end,
                    z=z,
                    out=each.out.ticks if each.out else 0,
                    back=each.back.ticks,
                    reading=f"{address}: {each.back.typed}",
                    spoken=spoken,
                )
            )
        if offsets:
            line = PlumbLine(
                plumb.end,
                offsets,
                struck=struck,
                as_read=book.length("as-read-within"),
                grain=_grain(job.job.tape),
            )
            lines[plumb.end].append(line)
    return WallAsRead(
        wall=wall,
        left=EndWall("left", lines["left"]),
        right=EndWall("right", lines["right"]),
        lengths=_lengths(wall, book, struck, stands),
        struck=struck,
        floor_left=floors["left"],
        floor_right=floors["right"],
        coverings=coverings,
        job=job,
        book=book,
    )


def _grain(units: Units) -> int:
    """Return the finest step that is printed: 1/64 in or 0.1 mm."""
    return TICKS_PER_INCH // 64 if units == Units.INCH else TICKS_PER_MM // 10


def _lengths(
    wall: Wall, book: RuleBook, struck: int, stands: Callable[[Height, Side], int | None]
) -> tuple[LengthRead, ...]:
    """Return a wall's lengths with where they were read; one without a height was read at the datum."""
    face = book.length("base-depth") + book.length("front-thickness")
    takes: Counter[str] = Counter()
    found = []
    for each in wall.lengths:
        z = struck if each.height is None else stands(each.height, "left")
        address = f"{wall.name} length"
        if each.height is not None:
            address += f" {spoken_height(each.height)}"
        if each.at == "face":
            address += " at the faces"
        takes[address] += 1
        if takes[address] > 1:
            address += f" take {takes[address]}"
        found.append(
            LengthRead(
                z=struck if z is None else z,
                out=face if each.at == "face" else 0,
                length=each.length.ticks,
                reading=f"{address}: {each.length.typed}",
                is_at_datum=each.height is None,
            )
        )
    return tuple(found)


def _floor_near(floor: _Heights, wall: str, u: int, usual: int) -> int:
    """Return z of the floor read nearest to a corner along a wall, or where it usually lies."""
    near = [(abs(at - u), z) for letter, at, z in floor if letter == wall]
    return min(near)[1] if near else usual
