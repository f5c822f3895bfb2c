"""Places: addresses in the job document, so that each reading and each field is an entry of its own.

A place is a JSON Pointer (RFC 6901) in which a list of named things is stepped into by name or number
instead of by index: ``/order/boxes/3/width``, ``/runs/A base/items``,
``/floor/set_ups/S1/readings/A/toe/48/1``. What is one thing is one value: the items of a run, its pins, a
height with its zero, a span.

Readings have places by where they were taken, and a last step that counts takes: the same spot read again is
another take, not a correction.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any

from setline.errors import InputError
from setline.wording import say

__all__ = ["from_places", "in_book_order", "pointer", "steps_of", "to_places"]

Document = dict[str, Any]

# Where a mapping is stepped into, field by field; a star stands for any one step. All else is one value.
CONTAINERS = frozenset(
    {
        "", "job", "room", "floor", "order", "tools", "tools/laser", "truck", "rules", "record",
        "room/walls/*", "room/walls/*/windows/*", "room/walls/*/doors/*",
        "floor/set_ups/*", "floor/set_ups/*/marks/*", "floor/coverings/*",
        "order/boxes/*", "order/fillers/*", "order/panels/*", "order/appliances/*",
        "order/existing/*", "order/tops",
        "runs/*", "record/struck_lines/*", "record/agreed/*", "record/struck/*", "record/set/*",
        "record/decisions/*",
    }
)  # fmt: skip

# Lists of things with a name or number of their own: the list, and the fields that make up the name.
KEYED: Mapping[str, tuple[str, ...]] = {
    "room/walls": ("name",),
    "room/walls/*/windows": ("name",),
    "room/walls/*/doors": ("name",),
    "floor/set_ups": ("name",),
    "floor/set_ups/*/marks": ("name",),
    "floor/coverings": ("name",),
    "order/boxes": ("number",),
    "order/fillers": ("number",),
    "order/panels": ("number",),
    "order/appliances": ("number",),
    "order/existing": ("number",),
    "runs": ("wall", "row"),
    "record/struck_lines": ("name",),
    "record/agreed": ("name",),
    "record/struck": ("name",),
    "record/set": ("box",),
    "record/decisions": ("about",),
}


def pointer(steps: tuple[str, ...]) -> str:
    """Return the JSON Pointer of some steps.

    Example:
        >>> pointer(("order", "boxes", "3", "width"))
        '/order/boxes/3/width'
        >>> pointer(("readings", "48 1/4"))
        '/readings/48 1~14'
    """
    return "".join("/" + step.replace("~", "~0").replace("/", "~1") for step in steps)


def steps_of(place: str) -> tuple[str, ...]:
    """Return the steps of a JSON Pointer.

    Raises:
        InputError: It does not start with a slash.
    """
    if not place.startswith("/"):
        raise InputError(say("place-not-a-pointer", place=place))
    return tuple(step.replace("~1", "/").replace("~0", "~") for step in place[1:].split("/"))


def in_book_order(text: str) -> tuple[tuple[int, int, str], ...]:
    """Return a key that sorts names as people do: B before C, 3 before 12, S2 before S10."""
    parts = re.findall(r"\d+|\D+", text)
    return tuple((0, int(part), "") if part.isascii() and part.isdigit() else (1, 0, part) for part in parts)


# --- document to places ---------------------------------------------------------------------------


def to_places(document: Document) -> dict[str, Any]:
    """Return place -> value for a whole job document.

    Args:
        document: The job document, as ``job.write`` gives it.
    """
    return {pointer(steps): value for steps, value in _walk(document, ())}


def _walk(value: Any, steps: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Yield every place under one node of the document."""
    shape = _shape(steps)
    if shape in READINGS:
        yield from (
            ((*steps[:-1], READINGS[shape][0], *more), reading) for more, reading in READINGS[shape][1](value)
        )
    elif shape in KEYED:
        for item in value:
            named = {
                **{field: FIELD_DEFAULTS[field] for field in KEYED[shape] if field in FIELD_DEFAULTS},
                **item,
            }
            key = " ".join(str(named.get(field, "")) for field in KEYED[shape])
            yield from _walk(named, (*steps, key))
    elif shape in CONTAINERS:
        for field, inner in value.items():
            yield from _walk(inner, (*steps, field))
    else:
        yield steps, value


FIELD_DEFAULTS = {"row": "base", "name": "line 1"}


def _shape(steps: tuple[str, ...]) -> str:
    """Return the steps with names and numbers of things starred, as the tables above have them."""
    shape: list[str] = []
    for step in steps:
        inside = "/".join(shape)
        shape.append("*" if inside in KEYED else step)
    return "/".join(shape)


def _takes(pairs: Iterator[tuple[tuple[str, ...], Any]]) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Count readings of the same spot: the first is take 1, the next take 2."""
    seen: dict[tuple[str, ...], int] = {}
    for spot, reading in pairs:
        seen[spot] = seen.get(spot, 0) + 1
        yield (*spot, str(seen[spot])), reading


def _floor_lines(lines: list[Document]) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Yield wall, line, u of every floor reading, and what it was."""
    return _takes(
        ((line["wall"], _line_step(line), str(u)), down) for line in lines for u, down in line["readings"]
    )


def _line_step(line: Document) -> str:
    """Return the step for a line: ``toe``, or ``toe, bare`` where it was said what was read on."""
    at = str(line.get("at", "wall"))
    return f"{at}, {line['on']}" if line.get("on") else at


def _wall_lengths(lengths: list[Document]) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Yield where each length of a wall was read, and what it was."""
    return _takes(
        ((item.get("at", "wall"), _height_step(item.get("height"))), item["length"]) for item in lengths
    )


def _plumb_offsets(plumbs: list[Document]) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Yield end, plumb line, height and out of each plumb offset, and what it was."""
    count: dict[str, int] = {}
    spots: list[tuple[tuple[str, ...], Any]] = []
    for plumb in plumbs:
        end = plumb["end"]
        count[end] = count.get(end, 0) + 1
        spots += [
            (
                (end, str(count[end]), _height_step(offset["height"]), str(offset.get("out", "wall"))),
                offset["back"],
            )
            for offset in plumb["offsets"]
        ]
    return _takes(iter(spots))


def _ceiling(readings: list[Document]) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Yield set-up, wall, u and out of each ceiling reading, and what it was."""
    return _takes(
        ((item["set_up"], item["wall"], str(item["u"]), str(item.get("out", "wall"))), item["up"])
        for item in readings
    )


def _height_step(height: Document | None) -> str:
    """Return a height as one step: ``up 34 1/2 from subfloor``; ``line`` where none was given."""
    if height is None:
        return "line"
    way = "up" if height.get("up") is not None else "down"
    return f"{way} {height[way]} from {height['from']}"


READINGS: Mapping[str, tuple[str, Callable[[Any], Iterator[tuple[tuple[str, ...], Any]]]]] = {
    "floor/set_ups/*/lines": ("readings", _floor_lines),
    "room/walls/*/lengths": ("lengths", _wall_lengths),
    "room/walls/*/plumb": ("plumb", _plumb_offsets),
    "room/ceiling": ("ceiling", _ceiling),
}


# --- places to document ---------------------------------------------------------------------------


def from_places(values: Mapping[str, Any]) -> Document:
    """Return the job document that some places make up, lists in the order people expect.

    What a place does not fit is left standing where it says, so that reading the document names it.
    """
    tree: Document = {}
    for place in sorted(values, key=in_book_order):
        node = tree
        *path, last = steps_of(place)
        for step in path:
            inner = node.setdefault(step, {})
            if not isinstance(inner, dict):  # a value already stands where this place steps through
                inner = node[step] = {"": inner}
            node = inner
        node[last] = values[place]
    built = _build(tree, ())
    assert isinstance(built, dict)
    return built


def _build(node: Any, steps: tuple[str, ...]) -> Any:
    """Turn one node of the tree of steps back into the document's form."""
    shape = _shape(steps)
    if not isinstance(node, dict):
        return node
    if shape in KEYED:
        keys = sorted(node, key=in_book_order)
        return [_with_key(_build(node[key], (*steps, key)), key, KEYED[shape]) for key in keys]
    if shape in REBUILD:
        return REBUILD[shape](node)
    if shape in CONTAINERS:
        built = {field: _build(inner, (*steps, field)) for field, inner in node.items()}
        if "readings" in built and shape == "floor/set_ups/*":
            built["lines"] = built.pop("readings")
        return built
    return node


def _with_key(item: Any, key: str, fields: tuple[str, ...]) -> Any:
    """Put the name or number back into a thing that was stepped into by it."""
    if not isinstance(item, dict):
        return item
    words = key.split(" ", len(fields) - 1) if len(fields) > 1 else [key]
    found = {
        field: int(word) if field in {"number", "box"} and word.isascii() and word.isdigit() else word
        for field, word in zip(fields, words, strict=False)
    }
    return {**found, **item}


def _leaves(node: Any, depth: int) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Yield the steps and value of every leaf ``depth`` steps down, in book order."""
    if depth == 0 or not isinstance(node, dict):
        yield (), node
        return
    for step in sorted(node, key=in_book_order):
        yield from (((step, *more), value) for more, value in _leaves(node[step], depth - 1))


def _rebuild_lines(node: Document) -> list[Document]:
    """Group floor readings back into lines."""
    lines: dict[tuple[str, ...], Document] = {}
    for steps, down in _leaves(node, 4):
        wall, line, u = (*steps, "", "", "")[:3]
        at, _, on = line.partition(", ")
        document = lines.setdefault(
            (wall, line), {"wall": wall, "at": at, **({"on": on} if on else {}), "readings": []}
        )
        document["readings"].append([u, down])
    return list(lines.values())


def _rebuild_lengths(node: Document) -> list[Document]:
    """Return the lengths of a wall as the document has them."""
    readings: list[Document] = []
    for steps, length in _leaves(node, 3):
        at, height = (*steps, "", "")[:2]
        readings.append({"length": length, **_height_field(height), "at": at})
    return readings


def _rebuild_plumb(node: Document) -> list[Document]:
    """Group plumb offsets back into plumb lines."""
    plumbs: dict[tuple[str, str], Document] = {}
    for steps, back in _leaves(node, 5):
        end, line, height, out = (*steps, "", "", "", "")[:4]
        plumb = plumbs.setdefault((end, line), {"end": end, "offsets": []})
        plumb["offsets"].append(
            {**_height_field(height), "back": back, **({} if out == "wall" else {"out": out})}
        )
    return list(plumbs.values())


def _rebuild_ceiling(node: Document) -> list[Document]:
    """Return ceiling readings as the document has them."""
    return [
        {"set_up": set_up, "wall": wall, "u": u, "up": up, **({} if out == "wall" else {"out": out})}
        for (set_up, wall, u, out), up in (
            ((*steps, "", "", "", "")[:4], value) for steps, value in _leaves(node, 5)
        )
    ]


def _height_field(step: str) -> Document:
    """Return the height that a step spells, as a field."""
    if step == "line":
        return {}
    way, _, rest = step.partition(" ")
    length, _, zero = rest.partition(" from ")
    return {"height": {way: length, "from": zero}}


REBUILD: Mapping[str, Callable[[Document], list[Document]]] = {
    "floor/set_ups/*/readings": _rebuild_lines,
    "room/walls/*/lengths": _rebuild_lengths,
    "room/walls/*/plumb": _rebuild_plumb,
    "room/ceiling": _rebuild_ceiling,
}
