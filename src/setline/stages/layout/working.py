"""What a joint's place rests on: the readings it starts from and the arithmetic that leads to it.

Every joint is reached from the nearest thing that has a place of its own (an end, a pin, an edge that lines
up with another row) over the items between: a box of one width rather than an opening, and a filler only
where there is no other way, since a filler is what is left over. Its doubt is that of the readings it
starts from and of the boxes on the way that nobody has measured, as a root sum of squares; a width that was
chosen adds none.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import ceil, sqrt

from setline.job.order import Box, Existing
from setline.lengths import Units, show
from setline.result import Figure, ItemKind
from setline.rules import RuleBook
from setline.stages.layout.ends import EndPlace
from setline.stages.layout.items import Item
from setline.stages.layout.pins import Edge3, PinPlace, Tie
from setline.stages.layout.settle import Settled
from setline.stages.layout.walls import half_width
from setline.wording import say

__all__ = ["Workings"]

_NEVER = 1 << 30


@dataclass(frozen=True, slots=True)
class _Anchor:
    """Something with a place of its own, at a joint."""

    figure: Figure
    cost: int = 0


class Workings:
    """The figures of all joints of runs that were settled together.

    Args:
        settled: The runs in their places.
        book: The rules, for the doubt of a box's width.
        units: The job's tape.
    """

    def __init__(self, settled: Settled, book: RuleBook, units: Units) -> None:
        self._settled, self._built, self._units = settled, settled.built, units
        self._box_doubt = half_width([book.length("box-width-doubt")])
        self._numbers = {run.name: place for place, run in enumerate(self._built.runs)}
        self._figures: dict[int, tuple[Figure, ...]] = {}
        missed = {id(each.pin) for each in settled.missed}
        self._pins = [pin for pin in self._built.pins if id(pin) not in missed]
        self._busy: set[int] = set()

    def of_run(self, name: str) -> tuple[Figure, ...]:
        """Return the figure of every joint of a run, left to right."""
        number = self._numbers[name]
        if number not in self._figures:
            self._busy.add(number)
            self._figures[number] = self._worked(number)
            self._busy.discard(number)
        return self._figures[number]

    def _place(self, number: int, joint: int) -> int:
        return self._settled.places[self._built.joints[number][joint]]

    def _worked(self, number: int) -> tuple[Figure, ...]:
        """Return the figures of a run: each joint from the anchor that costs least, of equals the left."""
        items = self._built.runs[number].items
        anchors = self._anchors(number)
        count = len(anchors)
        right_from = [(_NEVER, -1)] * count
        left_from = [(_NEVER, -1)] * count
        for joint, anchor in enumerate(anchors):
            own = (anchor.cost, joint) if anchor else (_NEVER, -1)
            before = _plus(right_from[joint - 1], items[joint - 1]) if joint else (_NEVER, -1)
            right_from[joint] = min(own, before, key=lambda each: each[0])
        for joint in range(count - 1, -1, -1):
            anchor = anchors[joint]
            own = (anchor.cost, joint) if anchor else (_NEVER, -1)
            after = _plus(left_from[joint + 1], items[joint]) if joint + 1 < count else (_NEVER, -1)
            left_from[joint] = min(own, after, key=lambda each: each[0])
        starts = [min(a, b, key=lambda each: each[0])[1] for a, b in zip(right_from, left_from, strict=True)]
        figures: dict[int, Figure] = {}
        for joint, start in sorted(enumerate(starts), key=lambda each: abs(each[0] - each[1])):
            figures[joint] = self._reached(number, joint, start, anchors, figures)
        return tuple(figures[joint] for joint in range(count))

    def _reached(
        self,
        number: int,
        joint: int,
        start: int,
        anchors: Sequence[_Anchor | None],
        figures: dict[int, Figure],
    ) -> Figure:
        """Return a joint's figure: its anchor's own, or one item beyond that of its neighbour."""
        place = self._place(number, joint)
        anchor = anchors[joint]
        if start == joint and anchor:
            return replace(anchor.figure, value=place)
        if start < 0:
            line = say("first-place", at=show(place, self._units))
            return Figure(value=place, within=0, working=(line,))
        step = 1 if start < joint else -1
        before = figures[joint - step]
        item = self._built.runs[number].items[joint - 1 if step > 0 else joint]
        return self._beyond(before, item, place, step)

    def _beyond(self, before: Figure, item: Item, place: int, step: int) -> Figure:
        """Return the figure one item beyond another."""
        assert before.value is not None, "a settled joint has a place"
        width = abs(place - before.value)
        line = say(
            "one-item-on" if item.is_fixed_width else "one-item-chosen",
            what=item.said,
            width=show(width, self._units),
            window=self._window(item),
            start=show(before.value, self._units),
            sign="+" if step > 0 else "-",
            end=show(place, self._units),
        )
        measured, doubt = self._width_rests_on(item)
        return Figure(
            value=place,
            within=_together(before.within, doubt),
            readings=(*before.readings, *measured),
            rule=before.rule,
            working=(*before.working, line),
        )

    def _window(self, item: Item) -> str:
        """Return what an item's width may be, in words."""
        if item.most is None:
            return say("window-from", least=show(item.least, self._units))
        return say("window-from-to", least=show(item.least, self._units), most=show(item.most, self._units))

    def _width_rests_on(self, item: Item) -> tuple[tuple[str, ...], int]:
        """Return the reading of an item's width, if it was measured, and half its 95 % range."""
        box = item.order
        if not isinstance(box, Box):
            return (), 0
        if box.measured is None:
            return (), self._box_doubt
        return (f"box {box.number} measured: {box.measured.typed}",), 0

    def _anchors(self, number: int) -> list[_Anchor | None]:
        """Return what has a place of its own at each joint of a run."""
        run = self._built.runs[number]
        anchors: list[_Anchor | None] = [None] * (len(run.items) + 1)
        for joint, end in ((0, run.ends.left), (len(run.items), run.ends.right)):
            anchors[joint] = self._end(number, joint, end)
        for place, item in enumerate(run.items):
            if item.stands is not None:
                anchors[place], anchors[place + 1] = _Anchor(item.stands.left), _Anchor(item.stands.right)
            elif item.kind is ItemKind.EXISTING:
                anchors[place], anchors[place + 1] = self._standing(item, half_width([run.wall.doubt]))
        for pin in self._pins:
            if pin.run == run.name:
                self._pinned(number, pin, anchors)
        return anchors

    def _end(self, number: int, joint: int, end: EndPlace) -> _Anchor | None:
        """Return the anchor at an end; an open one has none, a blind box stands off by its pull."""
        if end.kind == "open" or end.at is None:
            return None
        pull = abs(self._place(number, joint) - end.at)
        if not pull:
            return _Anchor(end.figure)
        place = self._place(number, joint)
        line = say(
            "pulled-from",
            pull=show(pull, self._units),
            start=show(end.at, self._units),
            sign="+" if place > end.at else "-",
            end=show(place, self._units),
        )
        return _Anchor(replace(end.figure, value=place, working=(*end.figure.working, line)))

    def _standing(self, item: Item, within: int) -> tuple[_Anchor, _Anchor]:
        """Return the anchors at both edges of something that stands there already."""
        thing = item.order
        assert isinstance(thing, Existing), "what stands there already was read at both edges"
        found = []
        for side, read in (("left", thing.left), ("right", thing.right)):
            line = say("end-as-read", what=item.name, at=show(read.ticks, self._units))
            reading = f"{item.name} {item.number} {side}: {read.typed}"
            figure = Figure(value=read.ticks, within=within, readings=(reading,), working=(line,))
            found.append(_Anchor(figure))
        return found[0], found[1]

    def _pinned(self, number: int, pin: PinPlace | Tie, anchors: list[_Anchor | None]) -> None:
        """Lay a pin's anchors at its item's joints."""
        run = self._built.runs[number]
        figure, cost = (pin.figure, 0) if isinstance(pin, PinPlace) else self._in_line(number, pin)
        if figure is None:
            return
        place = run.run.items.index(pin.pin.item)
        if pin.pin.edge != "centre":
            joint = place if pin.pin.edge == "left" else place + 1
            anchors[joint] = anchors[joint] or _Anchor(figure, cost)
            return
        for joint in (place, place + 1):
            anchors[joint] = anchors[joint] or _Anchor(
                self._half_off(figure, run.items[place], self._place(number, joint)), cost
            )

    def _half_off(self, centre: Figure, item: Item, place: int) -> Figure:
        """Return the figure of an edge half a width off a centre."""
        assert centre.value is not None, "a pin's place is known"
        half = abs(place - centre.value)
        line = say(
            "half-off",
            what=item.said,
            width=show(2 * half, self._units),
            start=show(centre.value, self._units),
            sign="-" if place < centre.value else "+",
            half=show(half, self._units),
            end=show(place, self._units),
        )
        measured, doubt = self._width_rests_on(item)
        return replace(
            centre,
            value=place,
            within=_together(centre.within, ceil(doubt / 2)),
            readings=(*centre.readings, *measured),
            working=(*centre.working, line),
        )

    def _in_line(self, number: int, tie: Tie) -> tuple[Figure | None, int]:
        """Return the place that a tie lines up with, by the other row's own figures."""
        other = self._numbers[tie.other_run]
        if other == number or other in self._busy:
            return None, 0
        left = self._built.runs[other].run.items.index(tie.other.number)
        figures = self.of_run(tie.other_run)
        basis = figures[left + 1 if tie.other_edge == "right" else left]
        place = self._edge(other, left, tie.other_edge)
        line = say("in-line-with", what=tie.said, run=tie.other_run, at=show(place, self._units))
        return replace(basis, value=place, working=(*basis.working, line)), 4

    def _edge(self, number: int, left: int, edge: Edge3) -> int:
        """Return the place of an item's edge or centre."""
        here, there = self._place(number, left), self._place(number, left + 1)
        return (here + there) // 2 if edge == "centre" else here if edge == "left" else there


def _plus(reached: tuple[int, int], item: Item) -> tuple[int, int]:
    """Return the cost of one item more."""
    cost = 1 if item.is_fixed_width else 3 if item.kind is ItemKind.OPENING else 8
    return min(_NEVER, reached[0] + cost), reached[1]


def _together(*halves: int | None) -> int:
    """Return half of a 95 % range from independent ones."""
    return ceil(sqrt(sum(half * half for half in halves if half)))
