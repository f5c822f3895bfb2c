"""Planning clearances that the layout itself can tell.

A dishwasher from the corner and from the sink, and the counter beside the range, the refrigerator and the
sink. They are guidelines for comfort and makers' least distances; what the local code says stands over
them. Counter runs on over base boxes, fillers, panels and whatever stands under the tops; it ends at a
range, at a refrigerator, at a tall box and at a wall. Round a corner it goes on, and how far is not asked.
A sink is taken to be as wide as its box, since nobody has said where in it the bowl sits.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from setline.job.order import Appliance, Box
from setline.lengths import Units, show
from setline.result import Finding, ItemKind, ItemPlace, Rank, RunPlan
from setline.rules import RuleBook
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.ends import EndPlace
from setline.stages.layout.items import Item
from setline.wording import say

__all__ = ["check_clearances"]


def check_clearances(
    runs: Iterable[tuple[RunAsked, RunPlan]], book: RuleBook, units: Units
) -> Iterator[Finding]:
    """Yield a *watch* for every planning clearance that a layout misses.

    Args:
        runs: Runs as asked for and as laid out; those without places are passed over.
        book: The rules.
        units: The job's tape.
    """
    for asked, plan in runs:
        if plan.solved and plan.row == "base":
            yield from _Row(asked, plan, book, units).findings()


class _Row:
    """One base row in its places."""

    def __init__(self, asked: RunAsked, plan: RunPlan, book: RuleBook, units: Units) -> None:
        self.asked, self.plan, self.book, self.units = asked, plan, book, units
        self.items = asked.items
        self.spans = [_span(place) for place in plan.items]

    def findings(self) -> Iterator[Finding]:
        """Yield what this row misses."""
        sinks = [place for place, item in enumerate(self.items) if _is_sink(item)]
        for place, item in enumerate(self.items):
            kind = item.order.kind if isinstance(item.order, Appliance) else ""
            if kind == "dishwasher":
                yield from self._dishwasher_at_corner(place)
                yield from self._dishwasher_at_sink(place, sinks)
            elif kind == "range":
                yield from self._landings(place, "range-landing-wide", "range-landing-narrow")
            elif kind == "refrigerator":
                yield from self._one_landing(place, "refrigerator-landing")
            elif place in sinks:
                yield from self._landings(place, "sink-landing-wide", "sink-landing-narrow")

    def _dishwasher_at_corner(self, place: int) -> Iterator[Finding]:
        """Yield a dishwasher nearer to a corner than its door allows."""
        least = self.book.length("dishwasher-to-corner")
        left, right = self.spans[place]
        for end in (self.asked.ends.left, self.asked.ends.right):
            stands = _square_to_it(end)
            if stands is None:
                continue
            away = left - stands if end.side == "left" else stands - right
            if away < least:
                yield self._missed(
                    "dishwasher-to-corner", place, least - away, have=away, want=least, other=end.said
                )

    def _dishwasher_at_sink(self, place: int, sinks: Iterable[int]) -> Iterator[Finding]:
        """Yield a dishwasher farther than recommended from the nearest sink of its row."""
        most = self.book.length("dishwasher-to-sink")
        left, right = self.spans[place]
        away = [
            (max(self.spans[sink][0] - right, left - self.spans[sink][1]), self.items[sink]) for sink in sinks
        ]
        if not away:
            return
        nearest, sink_box = min(away, key=lambda each: each[0])
        if nearest > most:
            yield self._missed(
                "dishwasher-to-sink", place, nearest - most, have=nearest, want=most, other=sink_box.said
            )

    def _landings(self, place: int, wide: str, narrow: str) -> Iterator[Finding]:
        """Yield the side or sides of an item with less counter than recommended, the larger one first."""
        counters = [(self._counter(place, side), side) for side in ("left", "right")]
        counters.sort(key=lambda each: (each[0] is not None, -(each[0] or 0)))
        for (have, side), rule in zip(counters, (wide, narrow), strict=True):
            least = self.book.length(rule)
            if have is not None and have < least:
                yield self._missed(rule, place, least - have, have=have, want=least, side=side)

    def _one_landing(self, place: int, rule: str) -> Iterator[Finding]:
        """Yield an item without enough counter on either side."""
        counters = [self._counter(place, side) for side in ("left", "right")]
        least = self.book.length(rule)
        known = [have for have in counters if have is not None]
        if len(known) == len(counters) and max(known) < least:
            yield self._missed(rule, place, least - max(known), have=max(known), want=least)

    def _counter(self, place: int, side: str) -> int | None:
        """Return how much counter lies on one side of an item, or None if it goes on round a corner.

        A filler or a panel alone carries none.
        """
        step = -1 if side == "left" else 1
        start = self.spans[place][0 if step < 0 else 1]
        at = start
        beside = place + step
        stands = False
        while 0 <= beside < len(self.items):
            item = self.items[beside]
            if not _carries_counter(item):
                return abs(at - start) if stands else 0
            stands = stands or item.kind in (ItemKind.BOX, ItemKind.OPENING)
            at = self.spans[beside][0 if step < 0 else 1]
            beside += step
        end = self.asked.ends.left if step < 0 else self.asked.ends.right
        last = self.items[0 if step < 0 else -1].order
        goes_on = end.kind == "corner" or (isinstance(last, Box) and bool(last.corner or last.blind))
        if goes_on:
            return None
        return abs(at - start) if stands else 0

    def _missed(
        self, rule: str, place: int, by: int, *, have: int, want: int, other: str = "", side: str = ""
    ) -> Finding:
        """Return a clearance that is missed."""
        text = say(
            f"clearance-{rule}",
            what=self.items[place].said,
            have=show(have, self.units),
            want=show(want, self.units),
            other=other,
            side=side,
        )
        return Finding(
            code=rule,
            rank=Rank.WATCH,
            where=self.plan.name,
            text=text[:1].upper() + text[1:],
            by_how_much=by,
            rule=rule,
        )


def _span(place: ItemPlace) -> tuple[int, int]:
    """Return the joints of an item that has its place."""
    assert place.left is not None, "a solved run has places"
    assert place.right is not None, "a solved run has places"
    return place.left, place.right


def _is_sink(item: Item) -> bool:
    """Return whether an item is the box of a sink, by its name."""
    return isinstance(item.order, Box) and "sink" in item.order.name.lower()


def _carries_counter(item: Item) -> bool:
    """Return whether counter runs on over an item."""
    if isinstance(item.order, Appliance):
        return item.order.kind not in ("range", "refrigerator", "oven") and item.top <= 0
    return item.kind is not ItemKind.EXISTING and not item.is_tall


def _square_to_it(end: EndPlace) -> int | None:
    """Return u of what stands square to a run at its end, faces or a wall; None at an open end."""
    return end.at if end.kind in ("corner", "wall") else None
