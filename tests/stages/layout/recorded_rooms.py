"""Kitchens made up at random that fit: two rows, often tied; marks on record, and boxes set off them."""

from __future__ import annotations

from random import Random
from typing import Any

from tests.stages.layout.invented import SIXTEENTH, text
from tests.stages.layout.kitchens import (
    Table,
    box,
    filler,
    kitchen,
    laid_out,
    opening,
    run,
    tall,
    wall,
    wall_box,
)
from tests.stages.layout.recorded import as_set, printed_marks, with_record
from tests.tape import inch

from setline.job.job import Job
from setline.lengths import Units, show
from setline.result import ItemKind
from setline.stages.layout import Layout

__all__ = ["recorded_room"]

LEAST, MOST = 12, 96
"""What every filler may be, in sixteenths."""


class _Room:
    """Lays two rows of items of known widths side by side, so that there is one layout at least."""

    def __init__(self, random: Random) -> None:
        self.random = random
        self.parts: dict[str, Any] = {"boxes": [], "fillers": [], "openings": []}
        self.pins: dict[str, list[Table]] = {"base": [], "wall": []}
        self.number = 0
        self.overhang = text(random.choice((0, 4)))

    def next_number(self) -> int:
        self.number += 1
        return self.number

    def filler(self) -> tuple[int, int]:
        """Take a filler; return its number and a width it may have."""
        number = self.next_number()
        self.parts["fillers"].append(filler(number, text(LEAST), text(MOST), scribed=number % 2 == 0))
        return number, self.random.randint(LEAST + 6, MOST - 30)

    def thing(self, row: str) -> tuple[int, int]:
        """Take a box, an opening or a filler; return its number and a width it may have."""
        kind = self.random.random()
        if kind < 0.15:
            return self.filler()
        number = self.next_number()
        if kind < 0.3:
            self.parts["openings"].append(opening(number, "other", text(384), text(384 + 6)))
            return number, 384 + self.random.randint(0, 6)
        width = self.random.choice((144, 192, 240, 288, 385, 480))
        frame = {"overhang_left": self.overhang, "overhang_right": self.overhang}
        make = wall_box if row == "wall" else box
        self.parts["boxes"].append(make(number, text(width), **frame))
        return number, width

    def row(self, name: str, tall_one: tuple[int, int] | None) -> list[tuple[int, int]]:
        """Return the items of a row with their widths, a filler at each end."""
        things = [self.thing(name) for _ in range(self.random.randint(2, 5))]
        if tall_one is not None:
            things.append(tall_one)
        return [self.filler(), *things, self.filler()]

    def pin(self, row: str, items: list[tuple[int, int]], beside: list[tuple[int, int]]) -> None:
        """Pin something near to where it comes, or in line with something of the other row."""
        place = self.random.randrange(1, len(items) - 1)
        number, width = items[place]
        edge = self.random.choice(("left", "right"))
        at = sum(each for _, each in items[:place]) + (width if edge == "right" else 0)
        strength = self.random.choice(("must", "wish", "wish"))
        pin: Table = {"item": number, "edge": edge, "strength": strength, "rank": self.random.randint(1, 3)}
        near = [
            each
            for count, (each, _) in enumerate(beside)
            if 0 < count < len(beside) - 1
            and abs(sum(wide for _, wide in beside[:count]) - at) <= 24
            and each != number
        ]
        if near and edge == "left":
            self.pins[row].append({**pin, "beside": near[0]})
        else:
            self.pins[row].append({**pin, "at": text(max(0, at + self.random.randint(-4, 4)))})

    def job(self) -> Job:
        """Return the room as a job."""
        tall_one = None
        if self.random.random() < 0.5:
            tall_one = (self.next_number(), 384)
            self.parts["boxes"].append(tall(tall_one[0], text(384)))
        base, upper = self.row("base", tall_one), self.row("wall", tall_one)
        length = sum(width for _, width in base)
        gap = length - sum(width for _, width in upper)
        upper.insert(1, self.gap(gap)) if gap > 0 else base.insert(1, self.gap(-gap))
        length = max(sum(width for _, width in row) for row in (base, upper))
        for row, items, other in (("base", base, upper), ("wall", upper, base)):
            for _ in range(self.random.choice((0, 1, 1))):
                self.pin(row, items, other)
        runs = [
            run("A", [number for number, _ in items], row=row, pins=self.pins[row])
            for row, items in (("base", base), ("wall", upper))
        ]
        return kitchen([wall("A", text(length))], runs, **self.parts)

    def gap(self, width: int) -> tuple[int, int]:
        """Take a filler as wide as it must be, give or take an inch."""
        number = self.next_number()
        least, most = max(0, width - 16), width + 16
        self.parts["fillers"].append(filler(number, text(least), text(most)))
        return number, width


def recorded_room(seed: int) -> Job:
    """Return a kitchen from a seed, with marks struck and agreed, some of them elsewhere, and boxes set."""
    random = Random(seed)
    job = _Room(random).job()
    layout = laid_out(job)
    listed: dict[str, list[dict[str, str]]] = {"struck": [], "agreed": []}
    for name, at in printed_marks(layout).items():
        where = random.choice(("struck", "struck", "agreed", "agreed", "neither"))
        off = random.choice((0, 0, 0, 0, 1, -2, 3)) * SIXTEENTH
        if where != "neither":
            listed[where].append({"name": name, "at": show(max(0, inch(at) + off), Units.INCH)})
    return with_record(job, **listed, set=_set(layout, random))


def _set(layout: Layout, random: Random) -> list[dict[str, Any]]:
    """Return some boxes set a little off where they were planned."""
    tables = {}
    for plan in layout.runs:
        for item in plan.items:
            if item.kind is ItemKind.BOX and item.left is not None and random.random() < 0.15:
                off = random.randint(-2, 2) * SIXTEENTH
                at = [show(max(0, (edge or 0) + off), Units.INCH) for edge in (item.left, item.right)]
                if not any("~" in each for each in at):
                    tables[item.number] = as_set(item.number, *at)
    return list(tables.values())
