"""From what the tape showed to heights and places: every sign of the project is converted in this file.

The tape shows plain distances. Inside the engine z = 0 is the laser line of the set-up in use and z grows
upwards, so a floor read 48 1/4 *down* lies at z = -48 1/4. A wall read *back* from a string or plane lies
hollow by that much. N, the level line, is measured *down* again. Half of all slips in levelling are slips of
a sign; whoever needs one converted calls here.

Set-ups are tied by marks that were shot from both: the one in use has offset 0, another's offset is how far
its laser line lies above that one. Without a tie it has none, and its readings have no height.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from setline.job.fields import Height
from setline.job.floor import Floor, FloorLine, SetUp, SharedMark
from setline.job.job import Job
from setline.job.record import StruckLine
from setline.job.room import EqualMarks
from setline.lengths import Length, Units, show

__all__ = [
    "CeilingSpot",
    "FloorReading",
    "SetUpTie",
    "ceiling_spots",
    "down_from_laser",
    "floor_heights",
    "floor_readings",
    "height_z",
    "mark_differences",
    "middle_of_wall",
    "out_of_plumb",
    "set_up_in_use",
    "set_up_offsets",
    "set_up_ties",
    "struck_line_z",
    "surface_shift",
    "z_below_laser",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorReading:
    """One floor reading, its signs converted.

    Attributes:
        address: ``S1 A 48 toe``; the same spot again is ``S1 A 48 toe take 2``.
        typed: As the tape showed it.
        set_up: The set-up it was read from.
        wall: Letter of the wall it was read along.
        u: Along the wall from its left corner. [ticks]
        out: From the wall into the room. [ticks]
        line: ``wall``, ``toe``, or the distance out as it is printed.
        own: Height above its own laser line: always 0 or less. [ticks]
        z: Height above the laser line in use, or None if its set-up is tied to no other. [ticks]
        on: What it was said to be read on, if anything was said.
    """

    address: str
    typed: str
    set_up: str
    wall: str
    u: int
    out: int
    line: str
    own: int
    z: int | None
    on: Literal["bare", "covering"] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUpTie:
    """How a set-up is tied to the one in use.

    Attributes:
        exact: How far its laser line lies above the one in use. [ticks, not whole]
        links: Along the chain of ties, how many marks each was shot with; empty for the set-up in use.
    """

    exact: Fraction
    links: tuple[int, ...]

    @property
    def offset(self) -> int:
        """The same, to the nearest tick, halves up."""
        return (2 * self.exact.numerator + self.exact.denominator) // (2 * self.exact.denominator)


@dataclass(frozen=True, slots=True, kw_only=True)
class CeilingSpot:
    """One ceiling reading, its signs converted.

    Attributes:
        address: ``S1 A 48 ceiling``.
        typed: As the tape showed it.
        wall: Letter of the wall it was read along.
        u: Along the wall. [ticks]
        out: From the wall. [ticks]
        z: Height above the laser line in use, or None if its set-up is tied to no other. [ticks]
    """

    address: str
    typed: str
    wall: str
    u: int
    out: int
    z: int | None


def z_below_laser(down: int, offset: int) -> int:
    """Return the height of what was read ``down`` from a laser line that lies ``offset`` above z = 0."""
    return offset - down


def down_from_laser(z: int, offset: int) -> int:
    """Return how far to measure DOWN from a laser line to a height; negative means measure up."""
    return offset - z


def surface_shift(end: Literal["left", "right"], back: int) -> int:
    """Return how far along u an end wall's surface lies from the plumb line it was read from.

    Args:
        end: Which corner of the wall being faced; its end wall stands there.
        back: From the plumb line back to the surface, as the tape shows it.

    Returns:
        Negative at a left end, positive at a right one: the surface lies beyond the line. [ticks]
    """
    return -back if end == "left" else back


def out_of_plumb(back: int) -> int:
    """Return how far a surface stands towards the room from its string or plane: read back, it is less."""
    return -back


def middle_of_wall(marks: EqualMarks) -> int:
    """Return u of a wall's middle from equal marks struck from both ends.

    Half of what the marks stand apart is added to the length struck, or taken off it where they have crossed.
    """
    half = marks.apart.ticks // 2
    return marks.equal.ticks - half if marks.crossed else marks.equal.ticks + half


def set_up_in_use(floor: Floor) -> SetUp | None:
    """Return the set-up whose laser line is z = 0, or None where the laser was never set up.

    It is the one that the job names, else the one with most floor readings, the first named on a tie. A name
    that no set-up bears counts as none; the reader of jobs refuses it.
    """
    named = next((each for each in floor.set_ups if each.name == floor.use), None)
    if named is not None or not floor.set_ups:
        return named
    return max(floor.set_ups, key=_reading_count)


def _reading_count(set_up: SetUp) -> int:
    """Return how many floor readings were taken from a set-up."""
    return sum(len(line.readings) for line in set_up.lines)


def set_up_offsets(floor: Floor) -> dict[str, int | None]:
    """Return how far each set-up's laser line lies above that of the one in use.

    An offset is the mean difference over the marks shot from both. A set-up that shares no mark with the one
    in use is tied through others by the chain with the fewest ties (the first named of equals); the exact
    means are added up and rounded once, to the nearest tick.

    Returns:
        Set-up's name -> offset, in the job's order; None where no tie was shot. [ticks]
    """
    ties = set_up_ties(floor)
    return {each.name: ties[each.name].offset if each.name in ties else None for each in floor.set_ups}


def set_up_ties(floor: Floor) -> dict[str, SetUpTie]:
    """Return how every set-up that is tied to the one in use is tied to it, nearest ties first."""
    in_use = set_up_in_use(floor)
    if in_use is None:
        return {}
    ties = {in_use.name: SetUpTie(exact=Fraction(0), links=())}
    edge = [in_use]
    while edge:
        reached: list[SetUp] = []
        for known in edge:
            for other in floor.set_ups:
                shared = () if other.name in ties else mark_differences(known, other)
                if shared:
                    mean = Fraction(sum(difference for _, difference in shared), len(shared))
                    so_far = ties[known.name]
                    ties[other.name] = SetUpTie(exact=so_far.exact + mean, links=(*so_far.links, len(shared)))
                    reached.append(other)
        edge = reached
    return ties


def mark_differences(known: SetUp, other: SetUp) -> tuple[tuple[str, int], ...]:
    """Return, mark by mark shot from both, how far the other's laser line lies above the known one's.

    Returns:
        Pairs of the mark's name and the difference, in the known set-up's order. [ticks]
    """
    seen = {mark.name: _mark_z(mark) for mark in other.marks}
    return tuple((mark.name, _mark_z(mark) - seen[mark.name]) for mark in known.marks if mark.name in seen)


def _mark_z(mark: SharedMark) -> int:
    """Return a mark's height above the laser line that it was shot from."""
    if mark.up is not None:
        return mark.up.ticks
    return -mark.down.ticks if mark.down is not None else 0


def floor_readings(job: Job, toe_line: int) -> tuple[FloorReading, ...]:
    """Return every floor reading with its signs converted, in the job's order.

    Args:
        job: The job.
        toe_line: How far out from the wall the toe line lies. [ticks]
    """
    offsets = set_up_offsets(job.floor)
    takes: Counter[str] = Counter()
    found: list[FloorReading] = []
    for set_up in job.floor.set_ups:
        for line in set_up.lines:
            out, name = _line_out(line, toe_line, job.job.tape)
            for u, down in line.readings:
                spot = f"{set_up.name} {line.wall} {show(u.ticks, job.job.tape)} {name}"
                takes[spot] += 1
                offset = offsets[set_up.name]
                found.append(
                    FloorReading(
                        address=spot if takes[spot] == 1 else f"{spot} take {takes[spot]}",
                        typed=down.typed,
                        set_up=set_up.name,
                        wall=line.wall,
                        u=u.ticks,
                        out=out,
                        line=name,
                        own=z_below_laser(down.ticks, 0),
                        z=None if offset is None else z_below_laser(down.ticks, offset),
                        on=line.on,
                    )
                )
    return tuple(found)


def floor_heights(job: Job) -> tuple[tuple[str, int, int], ...]:
    """Return wall, u and z of every floor reading that has a height, in the job's order."""
    offsets = set_up_offsets(job.floor)
    return tuple(
        (line.wall, u.ticks, z_below_laser(down.ticks, offset))
        for set_up in job.floor.set_ups
        if (offset := offsets[set_up.name]) is not None
        for line in set_up.lines
        for u, down in line.readings
    )


def _line_out(line: FloorLine, toe_line: int, units: Units) -> tuple[int, str]:
    """Return how far out a line of readings lies, and what it is called in an address."""
    if isinstance(line.at, Length):
        return line.at.ticks, show(line.at.ticks, units)
    return (0 if line.at == "wall" else toe_line), line.at


def ceiling_spots(job: Job) -> tuple[CeilingSpot, ...]:
    """Return every ceiling reading with its signs converted, in the job's order."""
    offsets = set_up_offsets(job.floor)
    found: list[CeilingSpot] = []
    for reading in job.room.ceiling:
        offset = offsets.get(reading.set_up)
        u = show(reading.u.ticks, job.job.tape)
        found.append(
            CeilingSpot(
                address=f"{reading.set_up} {reading.wall} {u} ceiling",
                typed=reading.up.typed,
                wall=reading.wall,
                u=reading.u.ticks,
                out=0 if reading.out is None else reading.out.ticks,
                z=None if offset is None else offset + reading.up.ticks,
            )
        )
    return tuple(found)


def struck_line_z(line: StruckLine, offsets: Mapping[str, int | None]) -> int | None:
    """Return the height of a line on the wall by its own laser reading, or None if its set-up is not tied."""
    offset = offsets.get(line.set_up)
    return None if offset is None else z_below_laser(line.down.ticks, offset)


def height_z(
    height: Height,
    job: Job,
    *,
    subfloor: int | None = None,
    finished: int | None = None,
    tops: int | None = None,
) -> int | None:
    """Return the z of a height by its zero.

    Args:
        height: The height, up or down from its zero.
        job: The job, for its set-ups and struck lines.
        subfloor: z of the bare floor at the same place, where it is known. [ticks]
        finished: z of the finished floor at the same place, where it is known. [ticks]
        tops: z of the level line, where a wish may be stated from it. [ticks]

    Returns:
        z, or None where its zero is not known: no floor was read there, its set-up is tied to no other, no
        line of that name was struck. [ticks]
    """
    zero = _zero_z(height.zero, job, {"subfloor": subfloor, "finished floor": finished, "level line": tops})
    if zero is None:
        return None
    if height.up is not None:
        return zero + height.up.ticks
    return zero - height.down.ticks if height.down is not None else None


def _zero_z(zero: str, job: Job, planes: Mapping[str, int | None]) -> int | None:
    """Return the z of a zero: a plane at the place, a set-up's laser line, or a struck line by its name."""
    if zero in planes:
        return planes[zero]
    offsets = set_up_offsets(job.floor)
    if zero.startswith("laser "):
        return offsets.get(zero.removeprefix("laser "))
    name = zero.removeprefix("line ")
    for line in job.record.struck_lines:
        if name in (line.name, line.name.removeprefix("line ")):
            return struck_line_z(line, offsets)
    return None
