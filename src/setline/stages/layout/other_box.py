"""Ways out by another box, by the steps that boxes are sold in: the runs are built and solved anew."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from setline.job.order import Box
from setline.lengths import Units, show
from setline.result import Change, ItemKind, Remedy
from setline.rules import RuleBook
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.built import Built, Demand
from setline.stages.layout.changes import other_box_changes
from setline.stages.layout.conflict import Trouble
from setline.stages.layout.items import Item
from setline.stages.layout.pins import Tie
from setline.stages.layout.settle import hold_centres, pinned_items
from setline.stages.layout.solve import Stuck
from setline.wording import say

__all__ = ["can_stand", "other_boxes", "priced", "with_width"]


def priced(book: RuleBook, kind: str, text: str, amount: int, change: Iterable[Change] = ()) -> Remedy:
    """Return a remedy with what its kind costs."""
    cost = book.remedy(kind)
    return Remedy(kind=kind, text=text, amount=amount, hours=cost.hours, days=cost.days, change=tuple(change))


@dataclass(frozen=True, slots=True)
class _Swap:
    """A box to be had in another width."""

    item: Item
    width: int
    steps: int


def other_boxes(stuck: Stuck, book: RuleBook, units: Units) -> Iterator[Remedy]:
    """Yield the one box that cures all in a narrower width, and the one in a wider."""
    built = stuck.built
    pinned = pinned_items(built)
    for trouble, kind in ((Trouble.SHORT, "smaller-box"), (Trouble.OVER, "next-stock-size")):
        swaps = list(_swaps(stuck, trouble, book.length("stock-step")))
        swaps.sort(key=lambda swap: (swap.steps, swap.item.number in pinned, -swap.item.wished))
        for swap in swaps:
            if can_stand(built, {swap.item.number: swap.width}, units):
                text = say(
                    f"remedy-{kind}",
                    what=swap.item.said,
                    width=show(swap.width, units),
                    instead=show(swap.item.wished, units),
                )
                yield priced(
                    book,
                    kind,
                    text[:1].upper() + text[1:],
                    abs(swap.width - swap.item.wished),
                    other_box_changes(swap.item, swap.width, units),
                )
                break


def _swaps(stuck: Stuck, trouble: Trouble, step: int) -> Iterator[_Swap]:
    """Yield the boxes of conflicts of one kind in the widths that could cure them."""
    seen: set[int] = set()
    for reason in stuck.reasons:
        conflict = reason.conflict
        if conflict.trouble is not trouble:
            continue
        for name in conflict.pieces:
            piece = reason.built.pieces[name]
            item = piece.item
            if item is None or piece.demand is not Demand.WIDTH or item.number in seen:
                continue
            if not isinstance(item.order, Box) or item.order.corner or item.order.blind:
                continue
            seen.add(item.number)
            sign = -1 if trouble is Trouble.SHORT else 1
            for steps in (1, 2, 3, 4):
                width = item.order.width.ticks + sign * steps * step
                enough = abs(width - item.wished) >= conflict.shortfall
                if enough and 3 * step <= width <= 16 * step:
                    yield _Swap(item, width, steps)


def can_stand(built: Built, widths: Mapping[int, int], units: Units) -> bool:
    """Return whether the runs can be solved with some boxes in other widths."""
    runs, ties = built.runs, built.ties
    for number, width in widths.items():
        runs, ties = with_width(runs, ties, number, width)
    return hold_centres(runs, built.placed, ties, units)[1] is not None


def with_width(
    runs: Iterable[RunAsked], ties: Iterable[Tie], number: int, width: int
) -> tuple[tuple[RunAsked, ...], tuple[Tie, ...]]:
    """Return runs and ties with one item of another width."""

    def changed(item: Item) -> Item:
        if item.number != number or item.kind is not ItemKind.BOX:
            return item
        return replace(item, least=width, most=width, wished=width)

    return (
        tuple(replace(run, items=tuple(changed(item) for item in run.items)) for run in runs),
        tuple(replace(tie, item=changed(tie.item), other=changed(tie.other)) for tie in ties),
    )
