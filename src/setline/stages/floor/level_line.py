"""The level line from every set-up: N down to the box tops, and the struck line that stands above it.

A line that was agreed keeps its N on the set-up it was agreed on. Once a line is on the wall, the level
line is that line's own laser reading plus its clearance. Neither is rounded or chosen again. Any other line
comes from the band and is whole on the set-up in use; on every other set-up it is printed finer, with
``~``.
"""

from __future__ import annotations

from dataclasses import dataclass

from setline.job.job import Job
from setline.job.readings import (
    down_from_laser,
    set_up_in_use,
    set_up_offsets,
    struck_line_z,
    z_below_laser,
)
from setline.lengths import Rounding, Units, fine_step, round_to, show
from setline.result import Figure, SetUpLine
from setline.rules import RuleBook
from setline.stages.floor.spoken import height_told
from setline.wording import say

__all__ = ["FixedLine", "clearance_of", "fixed_line", "set_up_lines"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FixedLine:
    """A line that was agreed or is on the wall.

    Attributes:
        name: ``line 1``, or what an agreed line is called.
        set_up: The set-up it was read from or agreed on.
        level: N on that set-up. [ticks]
        tops: Height of the tops, or None if that set-up is tied to no other. [ticks]
        is_struck: Whether it is on the wall.
        readings: The laser reading or the agreement it rests on.
        working: How N follows.
    """

    name: str
    set_up: str
    level: int
    tops: int | None
    is_struck: bool
    readings: tuple[str, ...]
    working: tuple[str, ...]


def clearance_of(job: Job, book: RuleBook) -> int:
    """Return how far the struck line stands above the tops, in ticks: its own, else the rule's."""
    struck = job.record.struck_lines[:1]
    if struck and struck[0].clearance is not None:
        return struck[0].clearance.ticks
    return book.length("struck-line-clearance")


def fixed_line(job: Job, book: RuleBook) -> FixedLine | None:
    """Return the line that holds until it is taken back: the first on the wall, else the one agreed."""
    offsets, units = set_up_offsets(job.floor), job.job.tape
    clearance = clearance_of(job, book)
    if job.record.struck_lines:
        line = job.record.struck_lines[0]
        z = struck_line_z(line, offsets)
        level = line.down.ticks + clearance
        step = say(
            "work-struck",
            line=line.name,
            strike=line.down.typed,
            set_up=line.set_up,
            clearance=show(clearance, units),
            level=show(level, units),
        )
        return FixedLine(
            name=line.name,
            set_up=line.set_up,
            level=level,
            tops=None if z is None else z - clearance,
            is_struck=True,
            readings=(f"{line.set_up} {line.name}: {line.down.typed}",),
            working=(step,),
        )
    agreed = job.record.agreed_line
    if agreed is None:
        return None
    offset = offsets.get(agreed.set_up)
    return FixedLine(
        name=say("agreed-line"),
        set_up=agreed.set_up,
        level=agreed.down.ticks,
        tops=None if offset is None else z_below_laser(agreed.down.ticks, offset),
        is_struck=False,
        readings=(f"{agreed.set_up} {say('agreed-line')}: {agreed.down.typed}",),
        working=(say("work-agreed", level=agreed.down.typed, set_up=agreed.set_up),),
    )


def set_up_lines(job: Job, tops: Figure, clearance: int, fixed: FixedLine | None) -> tuple[SetUpLine, ...]:
    """Return N and the struck line from every set-up, the one in use first.

    Args:
        job: The job.
        tops: The height of the tops.
        clearance: Of the struck line over the tops. [ticks]
        fixed: The line that holds already, if one does.
    """
    in_use = set_up_in_use(job.floor)
    names = [each.name for each in job.floor.set_ups]
    if in_use is not None:
        names = [in_use.name, *(name for name in names if name != in_use.name)]
    return tuple(_line_from(job, name, tops, clearance, fixed) for name in names)


def _line_from(job: Job, name: str, tops: Figure, clearance: int, fixed: FixedLine | None) -> SetUpLine:
    """Return the line as measured from one set-up."""
    in_use = set_up_in_use(job.floor)
    is_in_use = in_use is not None and in_use.name == name
    own = fixed is not None and fixed.set_up == name
    level = _level_from(job, name, tops, fixed)
    is_exact = own or (fixed is None and is_in_use)
    strike = None if level is None else level - clearance
    units = job.job.tape
    step = say(
        "work-strike",
        level="?" if level is None else show(level, units),
        clearance=show(clearance, units),
        strike="?" if strike is None else show(strike, units),
    )
    working = fixed.working if own and fixed is not None else _level_working(job, name, tops, level)
    figure = Figure(
        value=level,
        within=tops.within,
        readings=tops.readings,
        rule=tops.rule,
        working=working,
    )
    return SetUpLine(
        set_up=name,
        in_use=is_in_use,
        level=figure,
        strike=Figure(
            value=strike,
            within=tops.within,
            readings=tops.readings,
            rule="struck-line-clearance",
            working=(*working, step),
        ),
        printed_level=_printed(level, is_exact, units),
        printed_strike=_printed(strike, is_exact, units),
        is_exact=is_exact,
    )


def _level_from(job: Job, name: str, tops: Figure, fixed: FixedLine | None) -> int | None:
    """Return N from a set-up, or None where there is no line or no tie."""
    if fixed is not None and fixed.set_up == name:
        return fixed.level
    offset = set_up_offsets(job.floor)[name]
    return None if tops.value is None or offset is None else down_from_laser(tops.value, offset)


def _level_working(job: Job, name: str, tops: Figure, level: int | None) -> tuple[str, ...]:
    """Return how N on a set-up follows from the tops."""
    units, offset = job.job.tape, set_up_offsets(job.floor)[name]
    if level is None or tops.value is None:
        return (*tops.working, say("work-not-tied", set_up=name)) if offset is None else tops.working
    if not offset:
        return (*tops.working, say("work-level", level=_measured(level, units), set_up=name))
    key = "work-level-above" if offset > 0 else "work-level-below"
    step = say(
        key,
        set_up=name,
        offset=show(abs(offset), units),
        tops=height_told(tops.value, units),
        level=_measured(level, units),
    )
    return (*tops.working, step)


def _measured(level: int, units: Units) -> str:
    """Return N as it is measured: ``13 1/2 down``, or up where it is negative."""
    return height_told(z_below_laser(level, 0), units)


def _printed(value: int | None, is_exact: bool, units: Units) -> int | None:
    """Return what is printed: as it is on its own set-up; on another to a fine step, tops up."""
    if value is None or is_exact:
        return value
    return round_to(value, fine_step(units), Rounding.DOWN)
