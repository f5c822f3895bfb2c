"""Pins of boxes that are set: what was wished of one is past wishing, and a *must* that it meets holds.

A *must* that a set box misses by more than two readings differ by stays: it is a conflict, and somebody has
to choose. So does a pin that ties a set box to one that is not set yet.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from setline.lengths import Units, show
from setline.result import Finding, Rank
from setline.rules import RuleBook
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.items import Item
from setline.stages.layout.pins import Edge3, PinPlace, Tie
from setline.stages.layout.settle import Missed
from setline.wording import say

__all__ = ["missed_as_set", "open_pins"]


def open_pins(
    runs: Sequence[RunAsked], placed: Iterable[PinPlace], ties: Iterable[Tie], book: RuleBook
) -> tuple[list[PinPlace], list[Tie], list[Missed]]:
    """Return the pins that still bind or wish for something, and by how much the others came out.

    Args:
        runs: The runs, set boxes standing.
        placed: Pins at a place.
        ties: Pins in line with another item.
        book: The rules, for how near a *must* is met.
    """
    items = {(run.name, item.number): item for run in runs for item in run.items}
    left_places: list[PinPlace] = []
    left_ties: list[Tie] = []
    came_out: list[Missed] = []
    for pin in placed:
        here = _twice(items[pin.run, pin.pin.item], pin.pin.edge)
        if here is None or _binds(pin, here - 2 * pin.at, book):
            left_places.append(pin)
        else:
            came_out.append(Missed(pin=pin, by=(here - 2 * pin.at) // 2))
    for tie in ties:
        here, there = _twice(tie.item, tie.edge), _twice(tie.other, tie.other_edge)
        if here is None or there is None or _binds(tie, here - there, book):
            left_ties.append(tie)
        else:
            came_out.append(Missed(pin=tie, by=(here - there) // 2))
    return left_places, left_ties, came_out


def _twice(item: Item, edge: Edge3) -> int | None:
    """Return twice the place of a set box's edge or centre, or None of what is not set."""
    if item.stands is None:
        return None
    left, right = item.stands.left_at, item.stands.right_at
    return {"left": 2 * left, "right": 2 * right, "centre": left + right}[edge]


def _binds(pin: PinPlace | Tie, twice_off: int, book: RuleBook) -> bool:
    """Return whether a *must* of set boxes is missed by more than is let pass."""
    return pin.pin.strength == "must" and abs(twice_off) > 2 * book.length("as-set-pin")


def missed_as_set(missed: Iterable[Missed], units: Units) -> Iterator[Finding]:
    """Yield by how much set boxes came to stand off the places they were pinned or wished at."""
    for each in missed:
        if each.by:
            pin = each.pin
            yield Finding(
                code="wish-missed",
                rank=Rank.NOTE,
                where=pin.run,
                text=say(
                    "pin-missed-as-set",
                    run=pin.run,
                    number=pin.pin.item,
                    edge=pin.pin.edge,
                    by=show(abs(each.by), units),
                    way=say("to-the-right" if each.by > 0 else "to-the-left"),
                    place=pin.said,
                ),
                by_how_much=abs(each.by),
            )
