"""Readings as places: the steps of each one say where it was taken, the last one which take it is.

A list of readings in the job document (the lines of a set-up, the lengths and plumb lines of a wall, the
ceiling) is grouped for reading; here each reading stands by itself, so that a correction names just one.
Every list has a way there and a way back, and the way back asks for nothing but the steps.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from setline.field_book.book_order import in_book_order

__all__ = ["LISTS_OF_READINGS", "Reading", "ReadingList", "as_people_walk"]

Document = dict[str, Any]
Steps = tuple[str, ...]
Reading = tuple[Steps, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingList:
    """How one kind of list is taken apart and put together.

    Attributes:
        step: The step that its readings stand under.
        field: The field that the list is in the document.
        depth: How many steps a reading has below that.
        apart: From the list to its readings, in the order of the list.
        together: From readings to the list.
    """

    step: str
    field: str
    depth: int
    apart: Callable[[list[Document]], Iterator[Reading]]
    together: Callable[[list[Reading]], list[Document]]

    def readings(self, listed: list[Document]) -> list[Reading]:
        """Return every reading of a list; the same spot read again is take 2."""
        taken: dict[Steps, int] = {}
        found: list[Reading] = []
        for spot, value in self.apart(listed):
            taken[spot] = taken.get(spot, 0) + 1
            found.append(((*spot, str(taken[spot])), value))
        return found


def as_people_walk(steps: Steps) -> tuple[Any, ...]:
    """Return a key that sorts readings: wall by wall, at the wall before the toe line, from left to right."""
    return tuple((_AT.get(step.partition(", ")[0], 1), in_book_order(step)) for step in steps)


_AT = {"wall": 0, "toe": 2}  # a line so far out from the wall lies between the two


def _padded(steps: Steps, count: int) -> Steps:
    """Return as many steps as a spot has; a place that stops short has none for the rest."""
    return (*steps, *[""] * count)[:count]


# --- the floor ------------------------------------------------------------------------------------------


def _lines_apart(lines: list[Document]) -> Iterator[Reading]:
    """Yield wall, line and u of every floor reading, and what it was."""
    for line in lines:
        at = str(line.get("at", "wall"))
        step = f"{at}, {line['on']}" if line.get("on") else at
        yield from (((line["wall"], step, str(u)), down) for u, down in line["readings"])


def _lines_together(readings: list[Reading]) -> list[Document]:
    """Group floor readings into lines."""
    lines: dict[Steps, Document] = {}
    for steps, down in readings:
        wall, line, u = _padded(steps, 3)
        at, _, on = line.partition(", ")
        document = lines.setdefault(
            (wall, line), {"wall": wall, "at": at, **({"on": on} if on else {}), "readings": []}
        )
        document["readings"].append([u, down])
    return list(lines.values())


# --- the walls ------------------------------------------------------------------------------------------


def _lengths_apart(lengths: list[Document]) -> Iterator[Reading]:
    """Yield where each length of a wall was read, and what it was."""
    for item in lengths:
        yield (item.get("at", "wall"), _height_step(item.get("height"))), item["length"]


def _lengths_together(readings: list[Reading]) -> list[Document]:
    """Return the lengths of a wall."""
    spots = ((_padded(steps, 2), length) for steps, length in readings)
    return [{"length": length, **_height_field(height), "at": at} for (at, height), length in spots]


def _plumb_apart(plumbs: list[Document]) -> Iterator[Reading]:
    """Yield end, plumb line, height and out of each plumb offset, and what it was."""
    count: dict[str, int] = {}
    for plumb in plumbs:
        end = plumb["end"]
        count[end] = count.get(end, 0) + 1
        for offset in plumb["offsets"]:
            height, out = _height_step(offset["height"]), str(offset.get("out", "wall"))
            yield (end, str(count[end]), height, out), offset["back"]


def _plumb_together(readings: list[Reading]) -> list[Document]:
    """Group plumb offsets into plumb lines."""
    plumbs: dict[Steps, Document] = {}
    for steps, back in readings:
        end, line, height, out = _padded(steps, 4)
        plumb = plumbs.setdefault((end, line), {"end": end, "offsets": []})
        plumb["offsets"].append({**_height_field(height), "back": back, **_out_field(out)})
    return list(plumbs.values())


def _height_step(height: Document | None) -> str:
    """Return a height as one step: ``up 34 1/2 from subfloor``; ``line`` where none was given."""
    if height is None:
        return "line"
    way = "up" if height.get("up") is not None else "down"
    return f"{way} {height[way]} from {height['from']}"


def _height_field(step: str) -> Document:
    """Return the height that a step spells, as a field."""
    if step == "line":
        return {}
    way, _, rest = step.partition(" ")
    length, _, zero = rest.partition(" from ")
    return {"height": {way: length, "from": zero}}


def _out_field(out: str) -> Document:
    """Return how far out a reading was taken, as a field; at the wall it is not said."""
    return {} if out == "wall" else {"out": out}


# --- the ceiling ----------------------------------------------------------------------------------------


def _ceiling_apart(readings: list[Document]) -> Iterator[Reading]:
    """Yield set-up, wall, u and out of each ceiling reading, and what it was."""
    for item in readings:
        yield (item["set_up"], item["wall"], str(item["u"]), str(item.get("out", "wall"))), item["up"]


def _ceiling_together(readings: list[Reading]) -> list[Document]:
    """Return ceiling readings."""
    spots = ((_padded(steps, 4), up) for steps, up in readings)
    return [
        {"set_up": set_up, "wall": wall, "u": u, "up": up, **_out_field(out)}
        for (set_up, wall, u, out), up in spots
    ]


LISTS_OF_READINGS: Mapping[str, ReadingList] = {
    "floor/set_ups/*/lines": ReadingList(
        step="readings", field="lines", depth=4, apart=_lines_apart, together=_lines_together
    ),
    "room/walls/*/lengths": ReadingList(
        step="lengths", field="lengths", depth=3, apart=_lengths_apart, together=_lengths_together
    ),
    "room/walls/*/plumb": ReadingList(
        step="plumb", field="plumb", depth=5, apart=_plumb_apart, together=_plumb_together
    ),
    "room/ceiling": ReadingList(
        step="ceiling", field="ceiling", depth=5, apart=_ceiling_apart, together=_ceiling_together
    ),
}
"""By where the list stands in the document, names and numbers of things starred."""
