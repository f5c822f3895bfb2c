"""What differs between two plans, told row by row: what stands now, which marks move, what that does beside.

The list is whole: what has no row did not change. A mark at an edge of a box that stands has none, since
nobody will set anything to it again.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from setline.lengths import Units, show
from setline.result import Edge, ItemKind, ItemPlace, Mark, Plan, Rank, RunPin, RunPlan
from setline.wording import say

__all__ = ["ChangeKind", "PlanChange", "changes", "edge_said", "item_said"]


class ChangeKind(StrEnum):
    """What a row of changes is about."""

    SET = "set"  # a box came to stand
    TAKEN_OUT = "taken out"  # a box stands no longer
    RUN = "run"  # a run fits no more, or fits again
    MARK = "mark"
    OPENING = "opening"
    FILLER = "filler"
    PIN = "pin"  # how far something stands off the place it is pinned or wished at
    LINE = "line"
    SHIM = "shim"


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanChange:
    """One row of what differs between two plans.

    Attributes:
        kind: What it is about.
        name: The mark, shim, run or item by its name.
        said: What to call it in a table, such as ``box 3 left edge``.
        was: The number before, or None where there was none.
        now: The number now, or None where there is none.
        on_wall: Whether the mark that was struck says another number: to be struck out and written anew.
        text: A sentence, or what to do.
        agreed: The number that was said yes to, where that is neither the one before nor the one now.
    """

    kind: ChangeKind
    name: str
    said: str
    was: int | None
    now: int | None
    on_wall: bool = False
    text: str = ""
    agreed: int | None = None


def changes(before: Plan, after: Plan) -> tuple[PlanChange, ...]:
    """Return all that differs between two plans of one job, row by row; nothing else moved.

    Args:
        before: The plan as it was.
        after: The plan as it is now.

    Returns:
        Boxes that came to stand first, then runs, marks, openings, fillers and pins run by run, then the line
        and the shims.
    """
    was = {run.name: run for run in before.runs}
    pairs = [(was.get(run.name), run) for run in after.runs]
    units = Units(after.units)
    rows = [row for old, new in pairs if old is not None for row in _stood(old, new, units)]
    found = {(row.kind, row.name): row for row in reversed(rows)}  # a tall box stands in two runs
    listed = list(found.values())[::-1]
    for old, new in pairs:
        listed += _run(old, new, after, units)
    return (*listed, *_line(before, after), *_shims(before, after))


def _stood(old: RunPlan, new: RunPlan, units: Units) -> Iterator[PlanChange]:
    """Yield the boxes of a run that came to stand, and those that stand no longer."""
    before = {item.number: (place, item) for place, item in enumerate(old.items)}
    for place, item in enumerate(new.items):
        if item.number not in before:
            continue
        was_at, was = before[item.number]
        if was.is_set == item.is_set:
            continue
        planned, stands = old.marks[was_at + 1].printed, new.marks[place + 1].printed
        if stands is None and item.as_set is not None and item.as_set.right is not None:
            stands = item.as_set.right.value  # the run fits no more; the box stands all the same
        text = _set_text(item, planned, stands, units) if item.is_set else say("came-out", number=item.number)
        yield PlanChange(
            kind=ChangeKind.SET if item.is_set else ChangeKind.TAKEN_OUT,
            name=str(item.number),
            said=item_said(item),
            was=planned,
            now=stands,
            text=text,
        )


def _set_text(item: ItemPlace, planned: int | None, stands: int | None, units: Units) -> str:
    """Return how a box came to stand, as a sentence."""
    assert item.as_set is not None, "this box stands"
    now = "?" if stands is None else show(stands, units)
    if stands == planned and not item.as_set.growth:
        return say("set-on-its-marks", number=item.number)
    facts = {"number": item.number, "now": now, "plan": "?" if planned is None else show(planned, units)}
    if item.as_set.growth:
        width = show(item.wished + item.as_set.growth, units)
        return say("set-at-width", width=width, **facts)
    return say("set-at", **facts)


def _run(old: RunPlan | None, new: RunPlan, after: Plan, units: Units) -> Iterator[PlanChange]:
    """Yield what changed in one run."""
    if old is None:
        return
    if old.solved != new.solved:
        yield _fits(new, after)
    if not new.solved:
        return
    marks = {mark.name: mark for mark in old.marks}
    for place, mark in enumerate(new.marks):
        row = _mark(marks.get(mark.name), new, place, units)
        if row is not None:
            yield row
    items = {item.number: item for item in old.items}
    for item in new.items:
        if item.number in items:
            yield from _width(items[item.number], item, units)
    yield from _pins(old, new, units)


def _fits(run: RunPlan, after: Plan) -> PlanChange:
    """Return the row of a run that fits no more, or that fits again."""
    stops = [found.text for found in after.findings if found.rank is Rank.STOP and found.where == run.name]
    text = say("run-fits-again", run=run.name) if run.solved else " ".join(stops[:1])
    return PlanChange(kind=ChangeKind.RUN, name=run.name, said=run.name, was=None, now=run.overrun, text=text)


def _mark(old: Mark | None, run: RunPlan, place: int, units: Units) -> PlanChange | None:
    """Return the row of a mark whose text differs, unless a box stands there."""
    mark = run.marks[place]
    was = None if old is None else old.printed
    beside = (*run.items[max(0, place - 1) : place], *run.items[place : place + 1])
    if was == mark.printed or any(item.is_set for item in beside):
        return None
    on_wall = mark.struck is not None and mark.struck != mark.printed
    if mark.struck is None:
        text = say("mark-not-struck")
    elif on_wall:
        text = say("mark-strike-anew", was=show(mark.struck, units), write=mark.write)
    else:
        text = say("mark-as-struck")
    return PlanChange(
        kind=ChangeKind.MARK,
        name=mark.name,
        said=edge_said(run, place),
        was=was,
        now=mark.printed,
        on_wall=on_wall,
        text=text,
        agreed=None if mark.agreed in (was, mark.printed) else mark.agreed,
    )


def _width(old: ItemPlace, new: ItemPlace, units: Units) -> Iterator[PlanChange]:
    """Yield the row of an opening or a filler whose width differs, with what it may be."""
    if new.kind not in (ItemKind.OPENING, ItemKind.FILLER):
        return
    was, now = _wide(old), _wide(new)
    if was == now or now is None:
        return
    is_opening = new.kind is ItemKind.OPENING
    least = show(new.least, units)
    window = (
        say("window-from", least=least)
        if new.most is None
        else say("window-from-to", least=least, most=show(new.most, units))
    )
    yield PlanChange(
        kind=ChangeKind.OPENING if is_opening else ChangeKind.FILLER,
        name=str(new.number),
        said=item_said(new),
        was=was,
        now=now,
        text=say("opening-now" if is_opening else "filler-now", window=window),
    )


def _wide(item: ItemPlace) -> int | None:
    """Return an item's width where it stands."""
    return None if item.left is None or item.right is None else item.right - item.left


def _pins(old: RunPlan, new: RunPlan, units: Units) -> Iterator[PlanChange]:
    """Yield the pins that are missed by another amount than before."""
    missed: Mapping[tuple[int, str, str], RunPin] = {
        (pin.of_item, pin.edge, pin.said): pin for pin in old.pins
    }
    items = {item.number: item for item in new.items}
    for pin in new.pins:
        before = missed.get((pin.of_item, pin.edge, pin.said))
        if before is None or before.missed == pin.missed:
            continue
        way = say("to-the-right" if pin.missed > 0 else "to-the-left")
        text = say("pin-met") if not pin.missed else say("pin-off", by=show(abs(pin.missed), units), way=way)
        yield PlanChange(
            kind=ChangeKind.PIN,
            name=f"{pin.of_item} {pin.edge}",
            said=say("pin-off-place", what=item_said(items[pin.of_item]), edge=pin.edge, place=pin.said),
            was=abs(before.missed),
            now=abs(pin.missed),
            text=text,
        )


def _line(before: Plan, after: Plan) -> Iterator[PlanChange]:
    """Yield the struck line from each set-up, where it is measured otherwise than before."""
    old = {line.set_up: line for line in before.level_line.set_ups}
    for line in after.level_line.set_ups:
        was = old[line.set_up].printed_strike if line.set_up in old else None
        if was != line.printed_strike and line.in_use:
            said = say("struck-line-from", set_up=line.set_up)
            yield PlanChange(
                kind=ChangeKind.LINE, name=line.set_up, said=said, was=was, now=line.printed_strike
            )


def _shims(before: Plan, after: Plan) -> Iterator[PlanChange]:
    """Yield what goes under boxes that do not stand yet, where it differs."""
    old = {shim.name: shim.printed for shim in before.shims}
    for shim in after.shims:
        was = old.get(shim.name)
        if was != shim.printed and not shim.is_done:
            said = say("shim-under", name=shim.name)
            yield PlanChange(kind=ChangeKind.SHIM, name=shim.name, said=said, was=was, now=shim.printed)


def item_said(item: ItemPlace) -> str:
    """Return what to call an item in a row: ``box 3``, ``filler 42``, ``dishwasher``."""
    if item.kind is ItemKind.BOX:
        return say("box-said", number=item.number)
    if item.kind is ItemKind.FILLER:
        return say("plain-filler", number=item.number)
    return item.name


def edge_said(run: RunPlan, place: int) -> str:
    """Return what to call the edge that a mark names: ``box 3 left edge``.

    Args:
        run: The run.
        place: The mark's place in it.
    """
    mark = run.marks[place]
    left = run.items[place - 1] if place else None
    right = run.items[place] if place < len(run.items) else None
    is_left_body = mark.edge is Edge.BODY and left is not None and left.number == mark.of_item
    if right is None or is_left_body:
        assert left is not None, "a run has an item"
        return say("edge-of-item", what=item_said(left), side="right")
    return say("edge-of-item", what=item_said(right), side="left")
