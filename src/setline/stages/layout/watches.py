"""What else somebody must know of a layout: readings to take, wishes missed, pieces to look at.

Nothing here stops a run; each sentence says what was seen, by how much, and where it would be mended.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from setline.job.order import Appliance, Box
from setline.lengths import Units, mark_step, show
from setline.result import Finding, ItemKind, Rank, Remedy, RunPlan
from setline.rules import RuleBook
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.items import Item
from setline.stages.layout.lean import Side
from setline.stages.layout.pins import PinPlace
from setline.stages.layout.settle import Settled, in_the_way
from setline.wording import say

__all__ = ["missed_wishes", "watch_items", "watch_run", "watch_walls"]


def _capital(text: str) -> str:
    """Return a sentence with a capital at its start."""
    return text[:1].upper() + text[1:]


def _remedy(book: RuleBook, kind: str, text: str) -> Remedy:
    """Return a remedy with what its kind costs."""
    cost = book.remedy(kind)
    return Remedy(kind=kind, text=text, hours=cost.hours, days=cost.days)


def watch_walls(runs: Sequence[RunAsked], book: RuleBook, units: Units) -> Iterator[Finding]:
    """Yield what the walls' readings leave open: once a wall, whatever runs stand along it."""
    for letter in dict.fromkeys(run.run.wall for run in runs):
        yield from _unread(letter, [run for run in runs if run.run.wall == letter], book, units)
    for run in runs:
        for side in run.ends.usable.far:
            if _meets_wall(run, side):
                near = show(book.length("nearest-reading"), units)
                yield Finding(
                    code="plumb-far",
                    rank=Rank.WATCH,
                    where=run.name,
                    text=say("plumb-far", run=run.name, side=side, near=near),
                    rule="nearest-reading",
                )
        yield from _misfits(run, units)


def _unread(letter: str, runs: Sequence[RunAsked], book: RuleBook, units: Units) -> Iterator[Finding]:
    """Yield the ends of a wall that boxes meet and nobody read from a plumb line."""
    sides = [
        side
        for side in ("left", "right")
        if any(side in run.ends.usable.unread and _meets_wall(run, side) for run in runs)
    ]
    if not sides:
        return
    ends = say("both-ends") if len(sides) == 2 else say("one-end", side=sides[0])
    length = min(run.ends.usable.right.value or 0 for run in runs)
    yield Finding(
        code="no-plumb",
        rank=Rank.WATCH,
        where=f"wall {letter}",
        text=say("no-plumb", wall=letter, ends=ends, length=show(length, units)),
        readings=tuple(dict.fromkeys(each for run in runs for each in run.ends.usable.right.readings)),
        remedies=(_remedy(book, "more-readings", say("read-plumb", wall=letter, ends=ends)),),
    )


def _meets_wall(run: RunAsked, side: Side | str) -> bool:
    """Return whether a run's end is counted from the wall's own end."""
    end = run.ends.left if side == "left" else run.ends.right
    return end.kind in ("wall", "corner")


def _misfits(run: RunAsked, units: Units) -> Iterator[Finding]:
    """Yield lengths that do not agree with the offsets."""
    usable = run.ends.usable
    for code, by in (("lengths-disagree", usable.disagrees), ("faces-narrower", usable.narrower)):
        if by:
            yield Finding(
                code=code,
                rank=Rank.WATCH,
                where=run.name,
                text=say(code, run=run.name, by=show(by, units)),
                by_how_much=by,
                readings=usable.right.readings,
            )


def missed_wishes(settled: Settled, book: RuleBook, units: Units) -> Iterator[Finding]:
    """Yield every wish that could not be met: within a mark's step a note, else a watch with its ways out."""
    for each in settled.missed:
        pin = each.pin
        small = abs(each.by) <= mark_step(units)
        others = [] if small else in_the_way(settled, each)
        yield Finding(
            code="wish-missed",
            rank=Rank.NOTE if small else Rank.WATCH,
            where=pin.run,
            text=say(
                "wish-missed",
                run=pin.run,
                number=pin.pin.item,
                edge=pin.pin.edge,
                by=show(abs(each.by), units),
                way=say("to-the-right" if each.by > 0 else "to-the-left"),
                place=pin.said,
            ),
            by_how_much=abs(each.by),
            readings=pin.figure.readings if isinstance(pin, PinPlace) else (),
            remedies=tuple(
                _remedy(
                    book,
                    "drop-wish",
                    say(
                        "remedy-drop-wish",
                        run=other.run,
                        edge=other.pin.edge,
                        number=other.pin.item,
                        place=other.said,
                    ),
                )
                for other in others
            ),
        )


def watch_items(runs: Iterable[RunAsked], book: RuleBook, units: Units) -> Iterator[Finding]:
    """Yield what is to be known of single items, each once: sheets, delivery, measured widths."""
    seen: set[int] = set()
    for run in runs:
        for item in run.items:
            if item.number not in seen:
                seen.add(item.number)
                yield from _of_item(run, item, book, units)


def _of_item(run: RunAsked, item: Item, book: RuleBook, units: Units) -> Iterator[Finding]:
    """Yield what is to be known of one item."""
    thing = item.order
    if isinstance(thing, Appliance) and thing.kind != "other" and thing.sheet != "from the sheet":
        yield Finding(
            code="sheet-general",
            rank=Rank.WATCH,
            where=f"{run.name} {item.number}",
            text=_capital(say("sheet-general", what=item.said, width=_window(item, units))),
            remedies=(_remedy(book, "check-sheet", say("get-the-sheet", what=item.said)),),
        )
    if not isinstance(thing, Box):
        return
    if thing.delivery != "here":
        is_damaged = thing.delivery == "damaged"
        code = "box-damaged" if is_damaged else "box-not-here"
        width = show(item.wished, units)
        yield Finding(
            code=code,
            rank=Rank.DECIDE if is_damaged else Rank.WATCH,
            where=f"{run.name} {item.number}",
            text=_capital(say(code, what=item.said, width=width)),
        )
    if thing.measured is not None and thing.measured.ticks != thing.width.ticks:
        over = thing.measured.ticks - thing.width.ticks
        yield Finding(
            code="box-measured-differs",
            rank=Rank.NOTE,
            where=f"{run.name} {item.number}",
            text=_capital(
                say(
                    "box-measured-differs",
                    what=item.said,
                    measured=thing.measured.typed,
                    ordered=thing.width.typed,
                    by=show(abs(over), units),
                    way=say("over" if over > 0 else "under"),
                )
            ),
            by_how_much=abs(over),
            readings=(f"box {item.number} measured: {thing.measured.typed}",),
        )


def _window(item: Item, units: Units) -> str:
    """Return the window of an opening in words."""
    if item.most is None:
        return say("window-from", least=show(item.least, units))
    return say("window-from-to", least=show(item.least, units), most=show(item.most, units))


def watch_run(run: RunAsked, plan: RunPlan, book: RuleBook, units: Units) -> Iterator[Finding]:
    """Yield what is to be known of a run in its places, or of one that has none."""
    if run.bottom_by_rule:
        height = show(book.length("wall-box-bottom"), units)
        yield Finding(
            code="wall-row-no-bottom",
            rank=Rank.NOTE,
            where=run.name,
            text=say("wall-row-no-bottom", run=run.name, height=height),
            rule="wall-box-bottom",
        )
    yield from _cannot_give(run)
    if plan.solved:
        yield from _opening_widths(run, plan, units)
        yield from _filler_widths(run, plan, book, units)
        yield from _joined_marks(plan, book, units)


def _cannot_give(run: RunAsked) -> Iterator[Finding]:
    """Yield stretches between two fixed places in which nothing can take up what boxes grow."""
    pinned = {pin.item for pin in run.run.pins if pin.strength == "must"}
    fixed = ("wall", "corner", "existing")
    start = run.ends.left.said if run.ends.left.kind in fixed and not run.ends.blind_left else None
    nothing_gives = True
    boxes = 0
    for item in run.items:
        can_give = item.gives or (item.kind is ItemKind.OPENING and not item.is_fixed_width)
        if item.stands is not None:
            if start is not None and nothing_gives and boxes:
                yield _stretch(run, start, item.said)
            start, nothing_gives, boxes = item.said, True, 0
        elif item.number in pinned and not can_give:
            if start is not None and nothing_gives:
                yield _stretch(run, start, item.said)
            start, nothing_gives, boxes = item.said, True, 0
        elif can_give:
            nothing_gives = False
        else:
            boxes += 1
    end = run.ends.right
    if start is not None and nothing_gives and boxes and end.kind in fixed and not run.ends.blind_right:
        yield _stretch(run, start, end.said)


def _stretch(run: RunAsked, start: str, end: str) -> Finding:
    """Return the finding of a stretch that cannot give."""
    return Finding(
        code="nothing-gives",
        rank=Rank.WATCH,
        where=run.name,
        text=say("nothing-gives", run=run.name, start=start, end=end),
    )


def _widths(run: RunAsked, plan: RunPlan, kind: ItemKind) -> Iterator[tuple[int, Item, int]]:
    """Yield the place, the item and its width of every item of a kind."""
    for number, (item, place) in enumerate(zip(run.items, plan.items, strict=True)):
        if item.kind is kind and place.left is not None and place.right is not None:
            yield number, item, place.right - place.left


def _opening_widths(run: RunAsked, plan: RunPlan, units: Units) -> Iterator[Finding]:
    """Yield openings that could not have the width their sheet wishes."""
    for _, item, width in _widths(run, plan, ItemKind.OPENING):
        if item.has_wish and width != item.wished:
            yield Finding(
                code="opening-wish-missed",
                rank=Rank.NOTE,
                where=f"{run.name} {item.number}",
                text=_capital(
                    say(
                        "opening-wish-missed",
                        what=item.said,
                        width=show(width, units),
                        wished=show(item.wished, units),
                    )
                ),
                by_how_much=abs(width - item.wished),
            )


def _filler_widths(run: RunAsked, plan: RunPlan, book: RuleBook, units: Units) -> Iterator[Finding]:
    """Yield fillers wider than their stock, and those too narrow for what opens beside them."""
    ends = {0: run.ends.left.kind, len(run.items) - 1: run.ends.right.kind}
    for number, item, width in _widths(run, plan, ItemKind.FILLER):
        code, rule = "filler-over-stock", "filler-stock"
        if width <= book.length(rule):
            code = "filler-narrow"
            rule = "corner-filler" if ends.get(number) == "corner" else "filler-at-wall"
            if number not in ends or ends[number] == "open" or width >= book.length(rule):
                continue
        limit = book.length(rule)
        yield Finding(
            code=code,
            rank=Rank.WATCH,
            where=f"{run.name} {item.number}",
            text=_capital(say(code, what=item.said, width=show(width, units), limit=show(limit, units))),
            by_how_much=abs(width - limit),
            rule=rule,
        )


def _joined_marks(plan: RunPlan, book: RuleBook, units: Units) -> Iterator[Finding]:
    """Yield marks so near to each other that one stroke is both."""
    near = book.length("joined-marks")
    for one, other in zip(plan.marks, plan.marks[1:], strict=False):
        if one.printed is None or other.printed is None or other.printed - one.printed >= near:
            continue
        yield Finding(
            code="marks-joined",
            rank=Rank.NOTE,
            where=one.name,
            text=say(
                "marks-joined", one=one.name, other=other.name, apart=show(other.printed - one.printed, units)
            ),
            by_how_much=other.printed - one.printed,
            rule="joined-marks",
        )
