"""Invented kitchens for the laws of the layout: one wall, a base row, often a wall row tied to it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from hypothesis import strategies as st
from tests.stages.layout.kitchens import Table, box, filler, kitchen, opening, run, tall, wall, wall_box

from setline.job.job import Job
from setline.lengths import TICKS_PER_INCH, Units, show

SIXTEENTH = TICKS_PER_INCH // 16


def text(sixteenths: int) -> str:
    """Return a length in tape notation."""
    return show(sixteenths * SIXTEENTH, Units.INCH)


@dataclass(frozen=True)
class Invented:
    """A kitchen as its parts; lengths in sixteenths.

    Attributes:
        length: Of the wall.
        rows: Items of the base row and of the wall row, left to right, as (sort, number, least, most).
        pins: As (row, number, edge, place, strength, rank); a place in words is the number beside it.
        open_ends: Whether the left and the right end of the base row are open.
        overhang: Of every box's frame.
    """

    length: int
    rows: tuple[tuple[tuple[str, int, int, int], ...], ...]
    pins: tuple[tuple[int, int, str, int | str, str, int], ...]
    open_ends: tuple[bool, bool]
    overhang: int

    def job(self) -> Job:
        """Return it as a job."""
        things: dict[int, tuple[str, Table]] = {}
        for place, row in enumerate(self.rows):
            for sort, number, least, most in row:
                things[number] = self._thing(sort, number, least, most, is_wall=place == 1)
        runs = []
        for place, (name, row) in enumerate(zip(("base", "wall"), self.rows, strict=False)):
            ends = {}
            if place == 0:
                sides = zip(("left", "right"), self.open_ends, strict=True)
                ends = {side: {"kind": "open"} for side, is_open in sides if is_open}
            pins = [self._pin(pin) for pin in self.pins if pin[0] == place]
            runs.append(run("A", [item[1] for item in row], row=name, pins=pins, **ends))
        parts: dict[str, Any] = {"boxes": [], "fillers": [], "openings": []}
        for kind, thing in things.values():
            parts[kind].append(thing)
        return kitchen([wall("A", text(self.length))], runs, **parts)

    def _thing(self, sort: str, number: int, least: int, most: int, *, is_wall: bool) -> tuple[str, Table]:
        if sort == "filler":
            return "fillers", filler(number, text(least), text(most), scribed=number % 2 == 0)
        if sort == "opening":
            return "openings", opening(number, "other", text(least), text(most))
        frame = {"overhang_left": text(self.overhang), "overhang_right": text(self.overhang)}
        make = tall if sort == "tall" else wall_box if is_wall else box
        return "boxes", make(number, text(least), **frame)

    def _pin(self, pin: tuple[int, int, str, int | str, str, int]) -> Table:
        _, number, edge, place, strength, rank = pin
        where = {"at": text(place)} if isinstance(place, int) else {"beside": int(place)}
        return {"item": number, "edge": edge, **where, "strength": strength, "rank": rank}

    def mirrored(self) -> Invented:
        """Return it as seen in a mirror."""
        turned = {"left": "right", "right": "left", "centre": "centre"}
        return replace(
            self,
            rows=tuple(row[::-1] for row in self.rows),
            pins=tuple(
                (row, number, turned[edge], self.length - place if isinstance(place, int) else place, *rest)
                for row, number, edge, place, *rest in self.pins
            ),
            open_ends=self.open_ends[::-1],
        )

    def with_width(self, number: int, sixteenths: int) -> Invented:
        """Return it with one box of another width."""
        return replace(
            self,
            rows=tuple(
                tuple((s, n, sixteenths, sixteenths) if n == number else (s, n, a, b) for s, n, a, b in row)
                for row in self.rows
            ),
        )

    def with_fillers(self, least: int, more: int) -> Invented:
        """Return it with fillers that may be as narrow as ``least`` and wider by ``more``."""
        return replace(
            self,
            rows=tuple(
                tuple(
                    (s, n, min(a, least), b + more) if s == "filler" else (s, n, a, b) for s, n, a, b in row
                )
                for row in self.rows
            ),
        )

    def without_must(self) -> Invented:
        """Return it with every pin a wish."""
        return replace(self, pins=tuple((*pin[:4], "wish", pin[5]) for pin in self.pins))


@st.composite
def _row(draw: st.DrawFn, first: int, shared: tuple[str, int, int, int] | None) -> tuple[Any, ...]:
    """Return the items of one row, numbered from ``first``; a shared tall box stands among them."""
    sorts = draw(st.lists(st.sampled_from(("box", "box", "filler", "opening")), min_size=2, max_size=5))
    items = []
    for number, sort in enumerate(sorts, start=first):
        if sort == "box":
            width = draw(st.sampled_from((192, 240, 288, 384, 480, 481, 575)))
            items.append((sort, number, width, width))
        elif sort == "filler":
            least = draw(st.integers(4, 30))
            items.append((sort, number, least, least + draw(st.integers(0, 40))))
        else:
            items.append((sort, number, 384, 384 + draw(st.integers(0, 12))))
    if shared is not None:
        items.insert(draw(st.integers(0, len(items))), shared)
    return tuple(items)


@st.composite
def invented(draw: st.DrawFn) -> Invented:
    """Return an invented kitchen; about half of them can be solved."""
    shared = draw(st.sampled_from((None, ("tall", 9, 384, 384))))
    base = draw(_row(11, shared))
    rows = (base, draw(_row(31, shared))) if draw(st.booleans()) else (base,)
    least = max(sum(item[2] for item in row) for row in rows)
    most = min(sum(item[3] for item in row) for row in rows)
    length = draw(st.integers(least - 8, max(least + 8, most + 8)))
    pins = []
    for place, row in enumerate(rows):
        for _, number, width, _ in row:
            kind = draw(st.sampled_from(("none", "none", "none", "at", "beside")))
            edge = draw(st.sampled_from(("left", "centre", "right")))
            strength, rank = draw(st.sampled_from(("must", "wish"))), draw(st.integers(1, 3))
            if kind == "at":
                lead = sum(item[2] for item in row[: [item[1] for item in row].index(number)])
                beyond = {"left": 0, "centre": width // 2, "right": width}[edge]
                at = lead + beyond + draw(st.integers(-4, 12))
                pins.append((place, number, edge, min(max(0, at), length), strength, rank))
            elif kind == "beside" and place == 1 and number != 9:
                other = draw(st.sampled_from([item[1] for item in base]))
                if other != 9:
                    pins.append((place, number, edge, str(other), strength, rank))
    ends = draw(st.tuples(st.booleans(), st.booleans())) if len(rows) == 1 else (False, False)
    overhang = draw(st.sampled_from((0, 4, 3)))
    return Invented(length=length, rows=rows, pins=tuple(pins), open_ends=ends, overhang=overhang)
