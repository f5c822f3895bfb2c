"""Boxes that are set, as facts of the layout: where both edges of each frame stand.

An edge was read at the frame or at the body; the overhang is added here. Two boxes set side by side share a
joint, so what was read at either tells of both, and half-way between where both were read. A box of which one
edge is known reaches its own width from there. One with both edges known is as wide as that; its nominal
width is not asked again. Boxes between two known edges share that stretch in proportion to their widths. A
box set without a reading stands where its marks were struck or agreed; one of which nothing is known at all
is planned like any other.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from setline.job.job import Job
from setline.job.order import Existing
from setline.job.record import AsSet, SetBox
from setline.lengths import fine_step, show
from setline.result import Figure
from setline.stages.layout.asked import RunAsked
from setline.stages.layout.items import Item
from setline.stages.layout.mark_places import mark_places
from setline.stages.layout.stands import Stands
from setline.stages.layout.walls import half_width
from setline.wording import say

__all__ = ["with_set_boxes"]

_Edge = tuple[int, str]
"""Number of a set box and one of its sides."""


def with_set_boxes(runs: Sequence[RunAsked], job: Job) -> tuple[RunAsked, ...]:
    """Return runs whose set boxes stand where they were set, as wide as they came to be.

    Args:
        runs: The runs as they are asked for.
        job: The job, for its record.
    """
    recorded = {each.box: each for each in job.record.set}
    if not any(item.is_box and item.number in recorded for run in runs for item in run.items):
        return tuple(runs)
    stands = _Edges(runs, recorded, job).stands()

    def stood(item: Item) -> Item:
        at = stands.get(item.number) if item.is_box else None
        if at is None:
            return item
        width = at.right_at - at.left_at
        return replace(item, stands=at, least=width, most=width, wished=width)

    return tuple(replace(run, items=tuple(stood(item) for item in run.items)) for run in runs)


class _Edges:
    """The edges of all set boxes; those that share a joint are one."""

    def __init__(self, runs: Sequence[RunAsked], recorded: dict[int, SetBox], job: Job) -> None:
        self._units = job.job.tape
        self._recorded = recorded
        self._items: dict[int, Item] = {}
        self._lead: dict[_Edge, _Edge] = {}
        self._read: dict[_Edge, Figure] = {}
        self._at: dict[_Edge, Figure] = {}
        for run in runs:
            for item in run.items:
                if self._is_set(item):
                    self._enter(run, item)
        for run in runs:
            for one, other in pairwise(run.items):
                if self._is_set(one) and self._is_set(other):
                    self._lead[self._joint(other.number, "left")] = self._joint(one.number, "right")
        self._meet()
        self._beside_existing(runs)
        for run in runs:
            self._fill(run)
        for run in runs:
            self._assume(run)
            self._fill(run)

    def stands(self) -> dict[int, Stands]:
        """Return where every set box stands of which anything is known."""
        found = {}
        for number, item in self._items.items():
            left = self._at.get(self._joint(number, "left"))
            right = self._at.get(self._joint(number, "right"))
            if left is not None and right is not None:
                found[number] = Stands(
                    left=left,
                    right=right,
                    read_left=self._read.get((number, "left")),
                    read_right=self._read.get((number, "right")),
                    asked=item.least,
                    record=self._recorded[number],
                )
        return found

    def _is_set(self, item: Item) -> bool:
        return item.is_box and item.number in self._recorded

    def _joint(self, number: int, side: str) -> _Edge:
        """Return the edge that stands for all that share a joint."""
        edge = (number, side)
        while self._lead.get(edge, edge) != edge:
            edge = self._lead[edge]
        return edge

    def _enter(self, run: RunAsked, item: Item) -> None:
        """Take a set box and the edges read at it; of two readings of one edge the last."""
        self._items[item.number] = item
        for read in self._recorded[item.number].edges:
            self._read[item.number, read.edge] = self._as_read(run, item, read)

    def _as_read(self, run: RunAsked, item: Item, read: AsSet) -> Figure:
        """Return the edge of a frame from what was read at the box."""
        overhang = item.overhang_left if read.edge == "left" else item.overhang_right
        outward = 0 if read.of == "frame" else -overhang if read.edge == "left" else overhang
        at = read.at.ticks + outward
        shown = show(read.at.ticks, self._units)
        key = "as-set-on-mark" if read.how == "on the mark" else "as-set-read"
        working = [say(key, what=item.said, edge=read.edge, of=read.of, at=shown)]
        if outward:
            working.append(
                say(
                    "as-set-overhang",
                    start=shown,
                    sign="+" if outward > 0 else "-",
                    overhang=show(overhang, self._units),
                    end=show(at, self._units),
                )
            )
        return Figure(
            value=at,
            within=fine_step(self._units) if read.how == "on the mark" else half_width([run.wall.doubt]),
            readings=(f"box {item.number} as set, {read.edge} {read.of}: {read.at.typed}",),
            working=tuple(working),
        )

    def _meet(self) -> None:
        """Give every joint what was read at it: half-way between two readings."""
        for edge, figure in self._read.items():
            joint = self._joint(*edge)
            before = self._at.get(joint)
            self._at[joint] = figure if before is None else self._half_way(before, figure)

    def _half_way(self, one: Figure, other: Figure) -> Figure:
        at = (_value(one) + _value(other)) // 2
        line = say(
            "as-set-half-way",
            one=show(_value(one), self._units),
            other=show(_value(other), self._units),
            at=show(at, self._units),
        )
        return Figure(
            value=at,
            within=max(one.within or 0, other.within or 0),
            readings=(*one.readings, *other.readings),
            working=(*one.working, *other.working, line),
        )

    def _beside_existing(self, runs: Iterable[RunAsked]) -> None:
        """Give the joint beside something that stands there already its own edge, as read."""
        for run in runs:
            for one, other in pairwise(run.items):
                if self._is_set(other) and isinstance(one.order, Existing):
                    read, joint = one.order.right, self._joint(other.number, "left")
                elif self._is_set(one) and isinstance(other.order, Existing):
                    read, joint = other.order.left, self._joint(one.number, "right")
                else:
                    continue
                name = (one if isinstance(one.order, Existing) else other).said
                self._at[joint] = Figure(
                    value=read.ticks,
                    within=half_width([run.wall.doubt]),
                    readings=(f"{name}: {read.typed}",),
                    working=(say("end-as-read", what=name, at=show(read.ticks, self._units)),),
                )

    def _stretches(self, run: RunAsked) -> Iterator[tuple[int, list[Item]]]:
        """Yield the set boxes that stand side by side in a run, and the place of the first in it."""
        stretch: list[Item] = []
        for place, item in enumerate((*run.items, None)):
            if item is not None and self._is_set(item):
                stretch.append(item)
            elif stretch:
                yield place - len(stretch), stretch
                stretch = []

    def _joints(self, stretch: Sequence[Item]) -> list[_Edge]:
        """Return the joints of boxes side by side, one more than they are."""
        first = self._joint(stretch[0].number, "left")
        return [first, *(self._joint(item.number, "right") for item in stretch)]

    def _fill(self, run: RunAsked) -> None:
        """Give every joint of a stretch its place, where one of them has it."""
        for _, stretch in self._stretches(run):
            joints = self._joints(stretch)
            known = self._in_order(joints)
            if not known:
                continue
            for place in range(known[0] - 1, -1, -1):
                self._at[joints[place]] = self._beyond(self._at[joints[place + 1]], stretch[place], -1)
            for place in range(known[-1] + 1, len(joints)):
                self._at[joints[place]] = self._beyond(self._at[joints[place - 1]], stretch[place - 1], 1)
            for first, last in pairwise(known):
                self._share(stretch[first:last], joints[first : last + 1])

    def _in_order(self, joints: Sequence[_Edge]) -> list[int]:
        """Return the joints that have a place, but any that leaves no box between it and the one before."""
        known: list[int] = []
        for place, joint in enumerate(joints):
            if joint not in self._at:
                continue
            if known and _value(self._at[joint]) <= _value(self._at[joints[known[-1]]]):
                del self._at[joint]
            else:
                known.append(place)
        return known

    def _beyond(self, start: Figure, item: Item, step: int) -> Figure:
        """Return the joint one box beyond another."""
        at = _value(start) + step * item.least
        line = say(
            "one-item-on",
            what=item.said,
            width=show(item.least, self._units),
            start=show(_value(start), self._units),
            sign="+" if step > 0 else "-",
            end=show(at, self._units),
        )
        return replace(start, value=at, working=(*start.working, line))

    def _share(self, stretch: Sequence[Item], joints: Sequence[_Edge]) -> None:
        """Place the joints between two known ones in proportion to the boxes' widths."""
        one, other = self._at[joints[0]], self._at[joints[-1]]
        start, room = _value(one), _value(other) - _value(one)
        whole = sum(item.least for item in stretch)
        passed = 0
        for item, joint in zip(stretch, joints[1:-1], strict=False):
            passed += item.least
            at = start + room * passed // whole
            line = say(
                "as-set-shared",
                start=show(start, self._units),
                end=show(start + room, self._units),
                at=show(at, self._units),
            )
            self._at[joint] = Figure(
                value=at,
                within=max(one.within or 0, other.within or 0),
                readings=(*one.readings, *other.readings),
                working=(*one.working, *other.working, line),
            )

    def _assume(self, run: RunAsked) -> None:
        """Let boxes that nobody read stand on their marks."""
        places = mark_places(run.items, ())
        for first, stretch in self._stretches(run):
            joints = self._joints(stretch)
            if any(joint in self._at for joint in joints):
                continue
            for place, joint in enumerate(joints, start=first):
                struck, agreed = run.struck[place], run.agreed[place]
                at = agreed if struck is None else struck
                if at is None:
                    continue
                key = "as-set-by-struck" if struck is not None else "as-set-by-agreed"
                self._at[joint] = Figure(
                    value=at - places[place].offset,
                    within=2 * half_width([run.wall.doubt]),
                    working=(say(key, at=show(at, self._units)),),
                )


def _value(figure: Figure) -> int:
    assert figure.value is not None, "a known edge has a place"
    return figure.value
