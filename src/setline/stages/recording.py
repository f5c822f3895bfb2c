"""What is written down when somebody says yes, strikes a mark, sets a box or takes it out again.

Each function gives the fields of the job that change; who writes them keeps them as entries. A mark is
written with the number as it is printed, because that is what was agreed and what stands on the wall.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from setline.job.record import Record
from setline.lengths import Units, show
from setline.result import Change, Edge, ItemPlace, Mark, Plan, RunPlan
from setline.stages.layout.take_out import take_out_changes

__all__ = [
    "EdgeAsSet",
    "agree_all",
    "edge_to_read",
    "item_in",
    "set_box",
    "stray_marks",
    "strike",
    "strike_line",
    "strike_out",
    "take_out",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeAsSet:
    """Where an edge of a box came to stand, or where it is planned to.

    Attributes:
        side: ``left`` or ``right``.
        of: What its mark names: the ``frame`` or the ``body``.
        at: Its u as typed; of a planned one, as its mark is printed.
        how: ``read``, or ``on the mark``.
    """

    side: str
    of: str
    at: str
    how: str = "read"


def agree_all(plan: Plan, record: Record) -> tuple[Change, ...]:
    """Return what a yes to the whole plan writes: the level line, every joint, and nothing of what is gone.

    A run without places has nothing to say yes to; what was agreed of it stays.

    Args:
        plan: What was said yes to.
        record: What is on record.
    """
    changes = list(_agree_line(plan, record))
    for run in plan.runs:
        if run.solved:
            changes += _agree(run.marks, Units(plan.units))
    for name in _gone(plan, (each.name for each in record.agreed)):
        changes += [Change(place=("record", "agreed", name, field), value=None) for field in ("name", "at")]
    return tuple(changes)


def _agree_line(plan: Plan, record: Record) -> Iterator[Change]:
    """Yield the level line as it is agreed, unless a line is on the wall or it is agreed already."""
    line = next((each for each in plan.level_line.set_ups if each.in_use), None)
    if line is None or line.printed_level is None or line.printed_level < 0 or record.struck_lines:
        return
    agreed = record.agreed_line
    if agreed is None or (agreed.set_up, agreed.down.ticks) != (line.set_up, line.printed_level):
        down = show(line.printed_level, Units(plan.units))
        yield Change(place=("record", "agreed_line"), value={"set_up": line.set_up, "down": down})


def _agree(marks: Iterable[Mark], units: Units) -> Iterator[Change]:
    """Yield marks as they are agreed, those that are not agreed so already."""
    for mark in marks:
        if mark.printed is not None and mark.printed != mark.agreed:
            yield Change(place=("record", "agreed", mark.name, "at"), value=show(mark.printed, units))


def _gone(plan: Plan, names: Iterable[str]) -> list[str]:
    """Return the names of marks that the plan does not have."""
    here = {mark.name for run in plan.runs for mark in run.marks}
    return [name for name in names if name not in here]


def strike(mark: Mark, units: Units) -> tuple[Change, ...]:
    """Return what striking a mark writes: its number as it is printed."""
    assert mark.printed is not None, f"{mark.name} has no number to strike"
    return (Change(place=("record", "struck", mark.name, "at"), value=show(mark.printed, units)),)


def strike_out(name: str) -> tuple[Change, ...]:
    """Return what striking a mark out again writes: it is on the wall no longer."""
    return tuple(Change(place=("record", "struck", name, field), value=None) for field in ("at", "name"))


def strike_line(plan: Plan, *, down: str | None = None, name: str = "line 1") -> tuple[Change, ...]:
    """Return what striking the level line's line writes: its own reading from the laser in use.

    Args:
        plan: The plan.
        down: That reading as typed; without it the line stands where the plan said.
        name: The line's name.
    """
    line = next(each for each in plan.level_line.set_ups if each.in_use)
    if down is None:
        assert line.printed_strike is not None, "there is no line to strike"
        down = show(line.printed_strike, Units(plan.units))
    place = ("record", "struck_lines", name)
    return Change(place=(*place, "set_up"), value=line.set_up), Change(place=(*place, "down"), value=down)


def stray_marks(plan: Plan, record: Record) -> tuple[tuple[str, int], ...]:
    """Return name and place of marks on the wall that no joint of the plan answers to: to be struck out."""
    gone = set(_gone(plan, (each.name for each in record.struck)))
    return tuple((each.name, each.at.ticks) for each in record.struck if each.name in gone)


def item_in(plan: Plan, number: int) -> tuple[RunPlan, ItemPlace, int] | None:
    """Return the first run that an item stands in, the item, and its place in that run, or None."""
    for run in plan.runs:
        for place, item in enumerate(run.items):
            if item.number == number:
                return run, item, place
    return None


def edge_to_read(plan: Plan, number: int, side: str, at: int | None = None) -> EdgeAsSet | None:
    """Return the edge of a box that its mark names, with the number planned for it, or None.

    Args:
        plan: The plan.
        number: The box.
        side: ``left`` or ``right``.
        at: Where its mark was before, once the box stands; without it, where it is printed now. [ticks]
    """
    found = item_in(plan, number)
    if found is None:
        return None
    run, _, place = found
    mark = run.marks[place if side == "left" else place + 1]
    planned = mark.printed if at is None else at
    if planned is None:
        return None
    of = "body" if mark.edge is Edge.BODY and mark.of_item == number else "frame"
    return EdgeAsSet(side=side, of=of, at=show(planned, Units(plan.units)), how="on the mark")


def set_box(
    plan: Plan,
    number: int,
    edges: Iterable[EdgeAsSet] = (),
    *,
    below_line_left: str | None = None,
    below_line_right: str | None = None,
    off_wall: str | None = None,
    screwed: bool = False,
) -> tuple[Change, ...]:
    """Return what setting a box writes: the edges read, and a yes to those that were not.

    An edge that was not read stays as planned. So that it does, its mark is agreed, unless it was before.

    Args:
        plan: The plan it was set by.
        number: The box.
        edges: The edges that were read or seen on their marks.
        below_line_left: From the struck line down to its top, front left, as typed.
        below_line_right: The same at the front right.
        off_wall: How far its back stands off the wall, as typed.
        screwed: Whether its screws are in.
    """
    read = tuple(edges)
    place = ("record", "set", str(number))
    listed = [{"edge": each.side, "of": each.of, "at": each.at, "how": each.how} for each in read]
    heights = {
        "below_line_left": below_line_left,
        "below_line_right": below_line_right,
        "off_wall": off_wall,
    }
    changes = [Change(place=(*place, "screwed"), value=screwed)]
    changes += [Change(place=(*place, "edges"), value=listed or None)]
    changes += [Change(place=(*place, field), value=text) for field, text in heights.items()]
    found = item_in(plan, number)
    if found is not None and found[0].solved:
        run, _, at = found
        sides = {each.side for each in read}
        unread = [run.marks[at + count] for count, side in enumerate(("left", "right")) if side not in sides]
        free = [mark for mark in unread if mark.struck is None and mark.agreed is None]
        changes += _agree(free, Units(plan.units))
    return tuple(changes)


def take_out(number: int) -> tuple[Change, ...]:
    """Return what taking a set box out again writes: nothing of it is on record any more."""
    return take_out_changes(number)
