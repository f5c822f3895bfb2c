"""What to know of boxes that are set: how wide they came, how they meet the ends, what was not read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from setline.lengths import Units, fine_step, mark_step, show
from setline.result import Finding, Rank, Remedy
from setline.rules import RuleBook
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.ends import EndPlace
from setline.stages.layout.items import Item
from setline.stages.layout.stands import Stands
from setline.wording import say

__all__ = ["watch_set_boxes"]


def watch_set_boxes(runs: Sequence[RunAsked], book: RuleBook, units: Units) -> Iterator[Finding]:
    """Yield what is to be known of set boxes, each once."""
    seen: set[int] = set()
    for run in runs:
        for item in run.items:
            if item.stands is not None and item.number not in seen:
                seen.add(item.number)
                yield from _width(run, item, item.stands, book, units)
                yield from _unread(run, item, item.stands)
        for item, end in ((run.items[0], run.ends.left), (run.items[-1], run.ends.right)):
            if item.stands is not None:
                yield from _end(run, item, item.stands, end, units)


def _width(run: RunAsked, item: Item, stands: Stands, book: RuleBook, units: Units) -> Iterator[Finding]:
    """Yield by how much a box came to stand wider or narrower than it is."""
    over = item.least - stands.asked
    if abs(over) < fine_step(units):
        return
    is_odd = abs(over) > book.length("as-set-asks")
    code = "set-width-odd" if is_odd else "set-width-differs"
    text = say(
        code,
        what=item.said,
        width=show(item.least, units),
        asked=show(stands.asked, units),
        by=show(abs(over), units),
        way=say("over" if over > 0 else "under"),
    )
    cost = book.remedy("read-again")
    again = say("read-edges-again", what=item.said)
    yield Finding(
        code=code,
        rank=Rank.DECIDE if is_odd else Rank.NOTE,
        where=f"{run.name} {item.number}",
        text=text[:1].upper() + text[1:],
        by_how_much=abs(over),
        readings=tuple(dict.fromkeys((*stands.left.readings, *stands.right.readings))),
        rule="as-set-asks" if is_odd else None,
        remedies=(Remedy(kind=cost.key, text=again, hours=cost.hours, days=cost.days),) if is_odd else (),
    )


def _unread(run: RunAsked, item: Item, stands: Stands) -> Iterator[Finding]:
    """Yield a box that was set and of which nothing was read."""
    if stands.read_left is None and stands.read_right is None:
        text = say("set-not-read", what=item.said)
        yield Finding(
            code="set-not-read",
            rank=Rank.NOTE,
            where=f"{run.name} {item.number}",
            text=text[:1].upper() + text[1:],
        )


def _end(run: RunAsked, item: Item, stands: Stands, end: EndPlace, units: Units) -> Iterator[Finding]:
    """Yield how far a set box at the end of a run stands off what closes it, or past it."""
    if end.kind not in ("wall", "corner") or end.at is None:
        return
    off = stands.left_at - end.at if end.side == "left" else end.at - stands.right_at
    if abs(off) <= mark_step(units):
        return
    text = say(
        "set-off-end" if off > 0 else "set-past-end",
        what=item.said,
        by=show(abs(off), units),
        end=end.said,
    )
    yield Finding(
        code="set-off-end",
        rank=Rank.WATCH,
        where=f"{run.name} {item.number}",
        text=text[:1].upper() + text[1:],
        by_how_much=abs(off),
        readings=(*stands.left.readings, *end.figure.readings),
    )
