"""Other ways to go on once a box has come to stand otherwise than planned, each planned again.

What the plan does by itself changes the fewest marks. Somebody may rather plane a stile so that the marks
stay, or move more marks so that a wish is met, or take the box out again. Each of these is one change of the
job; it is offered with what it keeps, and only if every run that fits still fits.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from setline.job.job import Job, tape_of
from setline.job.order import Box
from setline.job.runs import Run
from setline.lengths import Length, Units, show
from setline.result import Change, ItemKind, ItemPlace, Plan, RunPin, RunPlan
from setline.rules import RuleBook, rule_book
from setline.stages import plan as plan_of
from setline.stages.changes import ChangeKind, changes, item_said
from setline.stages.layout import Layout, lay_out
from setline.stages.layout.take_out import take_out_changes
from setline.wording import say

__all__ = ["OtherWay", "other_ways"]


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherWay:
    """Another way to go on: a change of the job, planned again.

    Attributes:
        kind: Key of its kind of remedy, or ``keep-wish``.
        text: What to do.
        keeps: What it keeps, a sentence each.
        change: What it changes in the job.
        plan: The plan that follows.
        hours: Working hours it takes.
        days: Days it makes the job wait.
    """

    kind: str
    text: str
    keeps: tuple[str, ...]
    change: tuple[Change, ...]
    plan: Plan
    hours: float = 0.0
    days: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Try:
    """A change of the job that might be another way."""

    kind: str
    text: str
    job: Job
    change: tuple[Change, ...]


def other_ways(job: Job, before: Plan, after: Plan) -> tuple[OtherWay, ...]:
    """Return up to three other ways to go on than the plan's own; none where nothing moved.

    Args:
        job: The job as it is now.
        before: The plan as it was.
        after: The plan as it is now.

    Returns:
        At most one planed stile and one wish kept, each the one that leaves most marks as they are. Last, if
        a box came to stand, taking it out again.
    """
    rows = changes(before, after)
    if not any(row.kind in (ChangeKind.MARK, ChangeKind.PIN, ChangeKind.RUN) for row in rows):
        return ()
    book = rule_book(job.rules, tape=tape_of(job))
    ways: list[OtherWay] = []
    for tries in (_stiles(job, before, after), _wishes(job, before, after)):
        best = _best(list(tries), book, before, after)
        if best is not None:
            ways.append(_way(best, book, before, after))
    ways += [
        _way(each, book, before, after)
        for row in rows
        if row.kind is ChangeKind.SET
        for each in (_out(job, int(row.name)),)
    ]
    return tuple(ways[:2] + ways[-1:] if len(ways) > 3 else ways)


# --- what might be done ---------------------------------------------------------------------------------


def _stiles(job: Job, before: Plan, after: Plan) -> Iterator[_Try]:
    """Yield boxes that were pushed along and could be planed by as much, as far as their frames overhang."""
    units = job.job.tape
    orders = {box.number: box for box in job.order.boxes}
    for old, new in _pairs(before, after):
        was = {item.number: item for item in old.items}
        for item in new.items:
            if item.kind is not ItemKind.BOX or item.is_set or item.number not in was:
                continue
            box, by = orders[item.number], _pushed(was[item.number], item)
            if 0 < by <= _overhang(box):
                width = Length(item.wished - by, show(item.wished - by, units))
                text = say("way-stile", by=show(by, units), what=item_said(item))
                change = Change(place=("order", "boxes", str(box.number), "measured"), value=width.typed)
                changed = _with_box(job, box.model_copy(update={"measured": width}))
                yield _Try(kind="scribe-stile", text=text, job=changed, change=(change,))


def _pairs(before: Plan, after: Plan) -> Iterator[tuple[RunPlan, RunPlan]]:
    """Yield each run as it was and as it is."""
    was = {run.name: run for run in before.runs}
    for run in after.runs:
        if run.name in was:
            yield was[run.name], run


def _pushed(old: ItemPlace, new: ItemPlace) -> int:
    """Return how far a box was pushed, whichever way."""
    if old.left is None or new.left is None:
        return 0
    return abs(new.left - old.left)


def _overhang(box: Box) -> int:
    """Return how far a frame stands past its body on both sides together."""
    return sum(side.ticks for side in (box.overhang_left, box.overhang_right) if side is not None)


def _with_box(job: Job, box: Box) -> Job:
    """Return a job with another state of one box."""
    boxes = tuple(box if each.number == box.number else each for each in job.order.boxes)
    return job.model_copy(update={"order": job.order.model_copy(update={"boxes": boxes})})


def _wishes(job: Job, before: Plan, after: Plan) -> Iterator[_Try]:
    """Yield the wishes that are missed by more than before, each as a *must*."""
    runs = {run.name: asked for run, asked in zip(after.runs, job.runs, strict=True)}
    for old, new in _pairs(before, after):
        met = {(pin.of_item, pin.edge, pin.said): abs(pin.missed) for pin in old.pins}
        set_boxes = {item.number for item in new.items if item.is_set}
        for pin in new.pins:
            known = met.get((pin.of_item, pin.edge, pin.said))
            is_worse = known is not None and abs(pin.missed) > known
            if pin.wish_rank is not None and is_worse and pin.of_item not in set_boxes:
                yield _must(job, new, runs[new.name], pin)


def _must(job: Job, new: RunPlan, run: Run, pin: RunPin) -> _Try:
    """Return a wish made a *must*."""
    item = next(item for item in new.items if item.number == pin.of_item)
    at = next(place for place, each in enumerate(new.pins) if each is pin)
    pins = tuple(
        each.model_copy(update={"strength": "must"}) if place == at else each
        for place, each in enumerate(run.pins)
    )
    runs = tuple(each.model_copy(update={"pins": pins}) if each is run else each for each in job.runs)
    written = [
        each.model_dump(mode="json", by_alias=True, exclude_none=True, exclude_defaults=True) for each in pins
    ]
    return _Try(
        kind="keep-wish",
        text=say("way-wish", what=item_said(item), edge=pin.edge, place=pin.said),
        job=job.model_copy(update={"runs": runs}),
        change=(Change(place=("runs", new.name, "pins"), value=written),),
    )


def _out(job: Job, number: int) -> _Try:
    """Return the box taken out again."""
    still = tuple(each for each in job.record.set if each.box != number)
    return _Try(
        kind="take-out-box",
        text=say("way-take-out", number=number),
        job=job.model_copy(update={"record": job.record.model_copy(update={"set": still})}),
        change=take_out_changes(number),
    )


# --- which of it helps ----------------------------------------------------------------------------------


def _best(tries: Sequence[_Try], book: RuleBook, before: Plan, after: Plan) -> _Try | None:
    """Return the change after which fewest marks differ, if every run that fits fits still."""
    tops = after.level_line.tops.value
    if tops is None:
        tops = 0
    found: list[tuple[int, int, int, _Try]] = []
    for number, each in enumerate(tries):
        layout = lay_out(each.job, book, tops=tops)
        fits = {run.name for run in layout.runs if run.solved}
        if all(run.name in fits for run in after.runs if run.solved):
            found.append((*_moved(layout, before), number, each))
    return min(found, key=lambda each: each[:3])[3] if found else None


def _moved(layout: Layout, before: Plan) -> tuple[int, int]:
    """Return how many struck marks and how many others differ from what they were."""
    was = {mark.name: mark.printed for run in before.runs for mark in run.marks}
    marks = [mark for run in layout.runs for mark in run.marks]
    moved = [mark for mark in marks if was.get(mark.name) != mark.printed]
    struck = [mark for mark in moved if mark.struck is not None]
    return len(struck), len(moved) - len(struck)


def _way(tried: _Try, book: RuleBook, before: Plan, after: Plan) -> OtherWay:
    """Return a change planned again, with what it keeps."""
    follows = plan_of(tried.job)
    cost = None if tried.kind == "keep-wish" else book.remedy(tried.kind)
    return OtherWay(
        kind=tried.kind,
        text=tried.text,
        keeps=tuple(_keeps(before, after, follows)),
        change=tried.change,
        plan=follows,
        hours=0.0 if cost is None else cost.hours,
        days=0.0 if cost is None else cost.days,
    )


def _keeps(before: Plan, after: Plan, follows: Plan) -> Iterator[str]:
    """Yield what a way keeps: marks, and pins that the plan's own way misses; and what it misses itself."""
    rows = changes(before, follows)
    marks = [row for row in rows if row.kind is ChangeKind.MARK]
    on_wall = sum(row.on_wall for row in marks)
    if not marks:
        yield say("keeps-every-mark")
    elif on_wall:
        yield say("moves-struck-marks", count=on_wall)
    else:
        yield say("moves-marks", count=len(marks))
    missed = {(pin.of_item, pin.edge, pin.said) for run in after.runs for pin in run.pins if pin.missed}
    for run in follows.runs:
        items = {item.number: item for item in run.items}
        for pin in run.pins:
            if not pin.missed and (pin.of_item, pin.edge, pin.said) in missed:
                yield say("keeps-pin", what=item_said(items[pin.of_item]), edge=pin.edge, place=pin.said)
    for row in rows:
        if row.kind is ChangeKind.PIN and row.now:
            yield say("misses-pin", what=row.said, by=show(row.now, Units(follows.units)))
