"""What the run editor shows: the list that is the control, and what can be done with the item chosen."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from setline.drawings.strip_facts import joint_number, play_words
from setline.drawings.wall_facts import item_words
from setline.job.document import rows, section, whole_at
from setline.lengths import Units, show
from setline.result import ItemKind, ItemPlace, Joint, Mark, Plan, RunPin, RunPlan
from setline.web.arranging.edits import named_runs
from setline.web.planning import Standing
from setline.wording import say

__all__ = [
    "Chosen",
    "ItemRow",
    "Loose",
    "Nail",
    "RunList",
    "chosen_item",
    "loose_items",
    "run_lists",
    "set_boxes",
]

_KINDS = ("boxes", "fillers", "panels", "appliances", "existing")


@dataclass(frozen=True, slots=True, kw_only=True)
class Nail:
    """A pin of an item in words.

    Attributes:
        edge: Which edge it holds.
        words: The whole of it, such as ``WISH 1st: centre on the window centre 48``.
        is_must: Whether it holds or only ought to.
    """

    edge: str
    words: str
    is_must: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemRow:
    """One line of the list.

    Attributes:
        number: The item's number.
        words: What it is called, with its width.
        left: Where its left joint is, as it is printed.
        right: Where its right joint is.
        left_ticks: The same exactly, or None.
        right_ticks: The same exactly, or None.
        may_be: What its width may be.
        play: How far its right joint can still go.
        nails: What is pinned of it.
        struck: Whether the mark at its left is on the wall: ``on the wall``, ``at <number>`` or nothing.
        here: Whether it is here, for a box.
        is_set: Whether it stands.
    """

    number: int
    words: str
    left: str
    right: str
    left_ticks: int | None
    right_ticks: int | None
    may_be: str
    play: str
    nails: tuple[Nail, ...]
    struck: str
    here: str
    is_set: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class RunList:
    """A run as a list.

    Attributes:
        name: Its name.
        row: Base or wall.
        solved: Whether it fits.
        overrun: By how much it is short (or, below 0, what is left over); empty if it fits.
        state: FITS, SHORT, LEFT OVER or WAITS.
        items: Its items, left to right.
    """

    name: str
    row: str
    solved: bool
    overrun: str
    state: str
    items: tuple[ItemRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """The item that is chosen.

    Attributes:
        run: Its run.
        item: Its line.
        place: How many items stand left of it.
        kind: Box, opening, filler, panel or existing.
        real: For a box its width as measured, as typed; empty if it was not.
        ordered: For a box its width as ordered.
    """

    run: RunList
    item: ItemRow
    place: int
    kind: str
    real: str = ""
    ordered: str = ""

    @property
    def is_first(self) -> bool:
        """Whether nothing stands left of it."""
        return self.place == 0

    @property
    def is_last(self) -> bool:
        """Whether nothing stands right of it."""
        return self.place == len(self.run.items) - 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Loose:
    """Something on order that stands in no run.

    Attributes:
        number: Its number.
        words: What it is called.
        rows: The rows it may stand in.
    """

    number: int
    words: str
    rows: tuple[str, ...]


def run_lists(standing: Standing, plan: Plan, wall: str) -> tuple[RunList, ...]:
    """Return the runs of a wall as lists, wall row over base row as on the strip."""
    runs = sorted((run for run in plan.runs if run.wall == wall), key=lambda run: run.row == "base")
    things, units = _things(standing.folded.document), Units(plan.units)
    stand = set_boxes(standing.folded.document)
    return tuple(_list(run, things, stand, units) for run in runs)


def set_boxes(document: Mapping[str, Any]) -> frozenset[int]:
    """Return the numbers of the boxes that are set, whether or not an edge of them was read."""
    record = section(document, "record")
    return frozenset(
        number for _, each in rows(record, "set") if (number := whole_at(each, "box")) is not None
    )


def _list(
    run: RunPlan, things: Mapping[int, Mapping[str, Any]], stand: frozenset[int], units: Units
) -> RunList:
    """Return one run as a list."""
    overrun = "" if run.overrun is None else show(abs(run.overrun), units)
    state = "run-fits" if run.solved else "run-waits-for" if run.overrun is None else "run-short"
    if run.overrun is not None and run.overrun < 0:
        state = "run-left-over"
    return RunList(
        name=run.name,
        row=run.row,
        solved=run.solved,
        overrun=overrun,
        state=say(state),
        items=tuple(
            replace(
                _row(item, left, right, mark, run.pins, things.get(item.number, {}), units),
                is_set=item.number in stand,
            )
            for item, left, right, mark in zip(run.items, run.joints, run.joints[1:], run.marks, strict=False)
        ),
    )


def _row(
    item: ItemPlace,
    left: Joint,
    right: Joint,
    mark: Mark,
    pins: Iterable[RunPin],
    thing: Mapping[str, Any],
    units: Units,
) -> ItemRow:
    """Return one item as a line."""
    delivery = str(thing.get("delivery", "here")) if item.kind is ItemKind.BOX else ""
    return ItemRow(
        number=item.number,
        words=item_words(item),
        left=joint_number(left, units),
        right=joint_number(right, units),
        left_ticks=left.chosen,
        right_ticks=right.chosen,
        may_be=_may_be(item, units),
        play=play_words(right, units),
        nails=tuple(_nail(pin, units) for pin in pins if pin.of_item == item.number),
        struck=_struck(mark, units),
        here=delivery,
    )


def _may_be(item: ItemPlace, units: Units) -> str:
    """Return what an item's width is, or may be."""
    width = None if item.left is None or item.right is None else item.right - item.left
    is_now = "?" if width is None else show(width, units).removeprefix("~")
    if item.least == item.most:
        return show(item.least, units)
    if item.most is None:
        return say("may-be-from", now=is_now, least=show(item.least, units))
    return say("may-be", now=is_now, least=show(item.least, units), most=show(item.most, units))


def _nail(pin: RunPin, units: Units) -> Nail:
    """Return a pin in words."""
    at = "" if pin.at is None or show(pin.at, units) == pin.said else show(pin.at, units).removeprefix("~")
    place = say("pin-place", said=pin.said, at=at) if at else pin.said
    edge = say(f"edge-{pin.edge}")
    if pin.wish_rank is None:
        words = say("pin-must", edge=edge, place=place)
    else:
        rank = say(f"rank-{min(pin.wish_rank, 4)}")
        words = say("pin-wish", rank=rank, edge=edge, place=place)
    if pin.missed:
        way = say("to-the-right" if pin.missed > 0 else "to-the-left")
        words = say("pin-missed", pin=words, by=show(abs(pin.missed), units), way=way)
    return Nail(edge=pin.edge, words=words, is_must=pin.wish_rank is None)


def _struck(mark: Mark, units: Units) -> str:
    """Return whether a mark is on the wall, and where if it is not where it ought to be."""
    if mark.struck is None:
        return ""
    if mark.printed is not None and mark.struck == mark.printed:
        return say("struck-here")
    return say("struck-elsewhere", at=show(mark.struck, units))


def chosen_item(
    standing: Standing, runs: Iterable[RunList], plan: Plan, name: str, number: int
) -> Chosen | None:
    """Return the item that was chosen, or None if it stands in none of these runs."""
    for run in runs:
        for place, item in enumerate(run.items):
            if (run.name, item.number) == (name, number):
                planned = next(each for each in plan.runs if each.name == name).items[place]
                thing = _things(standing.folded.document).get(number, {})
                return Chosen(
                    run=run,
                    item=item,
                    place=place,
                    kind=planned.kind.value,
                    real=str(thing.get("measured", "")),
                    ordered=str(thing.get("width", "")) if planned.kind is ItemKind.BOX else "",
                )
    return None


def loose_items(document: Mapping[str, Any]) -> tuple[Loose, ...]:
    """Return what is on order and stands in no run."""
    placed = {str(number) for _, run in named_runs(document) for number in _listed(run.get("items"))}
    return tuple(loose for loose in _loose(document) if str(loose.number) not in placed)


def _listed(value: Any) -> list[Any]:
    """Return a list, or an empty one where there is something else."""
    return list(value) if isinstance(value, list | tuple) else []


def _loose(document: Mapping[str, Any]) -> Iterator[Loose]:
    for kind in _KINDS:
        for _, thing in rows(section(document, "order"), kind):
            number = whole_at(thing, "number")
            if number is None:
                continue
            stands: tuple[str, ...] = ("base", "wall")
            if kind == "boxes" and thing.get("kind") != "tall":
                stands = (str(thing.get("kind", "base")),)
            elif kind == "existing":
                stands = (str(thing.get("row", "base")),)
            elif thing.get("kind") in ("hood", "microwave"):
                stands = ("wall",)
            name = str(thing.get("name") or (thing.get("kind", "") if kind == "appliances" else ""))
            said = say(f"loose-{kind}", number=number)
            yield Loose(number=number, words=f"{said} {name}".strip(), rows=stands)


def _things(document: Mapping[str, Any]) -> dict[int, Mapping[str, Any]]:
    """Return everything on order by its number."""
    return {
        number: thing
        for kind in _KINDS
        for _, thing in rows(section(document, "order"), kind)
        if (number := whole_at(thing, "number")) is not None
    }
