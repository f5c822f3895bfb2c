"""Places: addresses in the job document, so that each reading and each field is an entry of its own.

A place is a JSON Pointer (RFC 6901) in which a list of named things is stepped into by name or number
instead of by index: ``/order/boxes/3/width``, ``/runs/A base/items``,
``/floor/set_ups/S1/readings/A/toe/48/1``. What is one thing is one value: the items of a run, its pins, a
height with its zero, a span.

Readings have places by where they were taken (``readings``), and a last step that counts takes: the same spot
read again is another take, not a correction.

Lists stand in the order that people expect. Where somebody wrote one in another order, the list's own place
holds that order; what it does not name comes after.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from copy import deepcopy
from functools import lru_cache
from typing import Any

from setline.errors import InputError
from setline.field_book.book_order import in_book_order
from setline.field_book.readings import LISTS_OF_READINGS, Reading, as_people_walk
from setline.wording import say

__all__ = ["CONTAINERS", "KEYED", "READINGS", "from_places", "pointer", "shape_of", "steps_of", "to_places"]

Document = dict[str, Any]
Steps = tuple[str, ...]

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
KEYED: Mapping[str, Steps] = {
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

# The same lists of readings, by where their places stand.
READINGS = {
    "/".join((*where.split("/")[:-1], listed.step)): listed for where, listed in LISTS_OF_READINGS.items()
}

FIELD_DEFAULTS = {"row": "base", "name": "line 1"}
_LONGEST_NAME = 60
_KEPT = 8192  # the same places come up at every fold


def pointer(steps: Steps) -> str:
    """Return the JSON Pointer of some steps.

    Example:
        >>> pointer(("order", "boxes", "3", "width"))
        '/order/boxes/3/width'
        >>> pointer(("readings", "48 1/4"))
        '/readings/48 1~14'
    """
    return "".join("/" + step.replace("~", "~0").replace("/", "~1") for step in steps)


@lru_cache(maxsize=_KEPT)
def steps_of(place: str) -> Steps:
    """Return the steps of a JSON Pointer.

    Raises:
        InputError: It does not start with a slash.
    """
    if not place.startswith("/"):
        raise InputError(say("place-not-a-pointer", place=place))
    return tuple(step.replace("~1", "/").replace("~0", "~") for step in place[1:].split("/"))


@lru_cache(maxsize=_KEPT)
def shape_of(steps: Steps) -> str:
    """Return the steps with names and numbers of things starred, as the tables above have them."""
    shape: list[str] = []
    for step in steps:
        shape.append("*" if "/".join(shape) in KEYED else step)
    return "/".join(shape)


# --- document to places ---------------------------------------------------------------------------------


def to_places(document: Document) -> dict[str, Any]:
    """Return place -> value for a whole job document.

    Args:
        document: The job document, as ``job.write`` gives it.
    """
    return {pointer(steps): value for steps, value in _walk(document, ())}


def _walk(value: Any, steps: Steps) -> Iterator[Reading]:
    """Yield every place under one node of the document."""
    shape = shape_of(steps)
    if shape in LISTS_OF_READINGS:
        yield from _walk_readings(value, (*steps[:-1], LISTS_OF_READINGS[shape].step), shape)
    elif shape in KEYED:
        yield from _walk_things(value, steps, KEYED[shape])
    elif shape in CONTAINERS and value:
        for field, inner in value.items():
            yield from _walk(inner, (*steps, field))
    else:
        yield steps, value


def _walk_readings(listed: list[Document], steps: Steps, shape: str) -> Iterator[Reading]:
    """Yield every reading of a list, and the list's order where it is not the usual one."""
    readings = LISTS_OF_READINGS[shape].readings(listed)
    order = [more for more, _ in readings]
    if order != sorted(order, key=as_people_walk):
        yield steps, [pointer(more) for more in order]
    yield from (((*steps, *more), value) for more, value in readings)


def _walk_things(things: list[Document], steps: Steps, fields: Steps) -> Iterator[Reading]:
    """Yield the places of named things, and the list's order where it is not the usual one."""
    named: dict[str, Document] = {}
    for thing in things:
        defaults = {field: FIELD_DEFAULTS[field] for field in fields if field in FIELD_DEFAULTS}
        whole = {**defaults, **thing}
        name = " ".join(str(whole.get(field, "")) for field in fields)[:_LONGEST_NAME]
        count, key = 1, name
        while key in named:  # two things of one name: the second is told apart by its count
            count += 1
            key = f"{name} ({count})"
        named[key] = whole
    if list(named) != sorted(named, key=in_book_order):
        yield steps, list(named)
    for key, whole in named.items():
        yield from _walk(whole, (*steps, key))


# --- places to document ---------------------------------------------------------------------------------


def from_places(values: Mapping[str, Any]) -> Document:
    """Return the job document that some places make up, lists in the order people expect.

    What a place does not fit is left standing where it says, so that reading the document names it.
    """
    tree: Document = {}
    orders: dict[Steps, list[str]] = {}
    for steps, place in sorted((steps_of(place), place) for place in values):
        value = values[place]
        if _is_order(steps, value):
            orders[steps] = value
            continue
        node = tree
        for step in steps[:-1]:
            inner = node.setdefault(step, {})
            if not isinstance(inner, dict):  # a value already stands where this place steps through
                inner = node[step] = {"": inner}
            node = inner
        node[steps[-1]] = deepcopy(value)
    built = _build(tree, (), orders)
    assert isinstance(built, dict)
    return built


def _is_order(steps: Steps, value: Any) -> bool:
    """Return whether a place holds the order of the list that stands there."""
    shape = shape_of(steps)
    return (
        (shape in KEYED or shape in READINGS)
        and isinstance(value, list)
        and all(isinstance(each, str) for each in value)
    )


def _build(node: Any, steps: Steps, orders: Mapping[Steps, list[str]]) -> Any:
    """Turn one node of the tree of steps back into the document's form."""
    shape = shape_of(steps)
    if not isinstance(node, dict):
        return node
    if shape in KEYED:
        rank = _ranks(orders.get(steps, ()))
        keys = sorted(node, key=lambda key: (rank.get(key, len(rank)), in_book_order(key)))
        return [_with_key(_build(node[key], (*steps, key), orders), key, KEYED[shape]) for key in keys]
    if shape in READINGS:
        rank = _ranks(orders.get(steps, ()))
        readings = list(_leaves(node, READINGS[shape].depth))
        readings.sort(key=lambda each: (rank.get(pointer(each[0]), len(rank)), as_people_walk(each[0])))
        return READINGS[shape].together(readings)
    if shape in CONTAINERS:
        return {
            _field(shape, step, node): _build(inner, (*steps, step), orders) for step, inner in node.items()
        }
    return node


def _ranks(order: list[str] | tuple[()]) -> dict[str, int]:
    """Return where each name stands in an order; what it does not name comes after all of them."""
    return {name: rank for rank, name in reversed(list(enumerate(order)))}


def _field(shape: str, step: str, node: Document) -> str:
    """Return the document's field for a step; floor readings are lines there, unless some stand already."""
    listed = READINGS.get(f"{shape}/{step}")
    return step if listed is None or (listed.field != step and listed.field in node) else listed.field


def _with_key(item: Any, key: str, fields: Steps) -> Any:
    """Put the name or number back into a thing that was stepped into by it."""
    if not isinstance(item, dict):
        return item
    words = key.split(" ", len(fields) - 1) if len(fields) > 1 else [key]
    found = {
        field: int(word) if field in {"number", "box"} and word.isascii() and word.isdigit() else word
        for field, word in zip(fields, words, strict=False)
    }
    return {**found, **item}


def _leaves(node: Any, depth: int) -> Iterator[Reading]:
    """Yield the steps and value of every leaf ``depth`` steps down."""
    if depth == 0 or not isinstance(node, dict):
        yield (), node
        return
    for step, inner in node.items():
        yield from (((step, *more), value) for more, value in _leaves(inner, depth - 1))
