"""What each press in the run editor writes into the job: place -> value, worked out from the document.

A run's items and its pins are each one value of one place; so a press writes one list anew.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from setline.errors import InputError
from setline.field_book.places import pointer
from setline.job.document import rows, section
from setline.wording import say

__all__ = [
    "Values",
    "box_of",
    "ends",
    "let_go",
    "moved",
    "named_runs",
    "pinned",
    "place_of",
    "put_in",
    "run_key",
    "run_table",
    "started",
    "swapped",
    "taken_out",
]

Values = dict[str, Any]
Document = Mapping[str, Any]

_COUNTED = re.compile(r"(?P<row>[A-Z] \w+) (?P<count>\d+)$")


def run_key(name: str) -> str:
    """Return the step of a run's place for its name in the plan.

    Example:
        >>> run_key("A base"), run_key("A base 2")
        ('A base', 'A base (2)')
    """
    found = _COUNTED.match(name)
    return name if found is None else f"{found['row']} ({found['count']})"


def run_table(document: Document, name: str) -> dict[str, Any]:
    """Return the table of a run.

    Raises:
        InputError: There is no such run.
    """
    for known, run in named_runs(document):
        if known == name:
            return run
    raise InputError(say("no-such-run", run=name[:40]))


def named_runs(document: Document) -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield the runs by the names that the plan gives them."""
    seen: dict[str, int] = {}
    for _, run in rows(document, "runs"):
        row = f"{run.get('wall')} {run.get('row', 'base')}"
        seen[row] = seen.get(row, 0) + 1
        yield (row if seen[row] == 1 else f"{row} {seen[row]}"), dict(run)


def _place(name: str, field: str) -> str:
    return pointer(("runs", run_key(name), field))


def _items(document: Document, name: str, number: int) -> list[int]:
    """Return the items of a run that one stands in.

    Raises:
        InputError: It stands in no such run.
    """
    items = _numbers(run_table(document, name))
    if number not in items:
        raise InputError(say("not-in-run", item=number, run=name))
    return items


def _numbers(table: Mapping[str, Any]) -> list[Any]:
    """Return the items of a run's table."""
    items = table.get("items")
    return list(items) if isinstance(items, list | tuple) else []


def _pins(table: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Return the pins of a run's table."""
    return [dict(pin) for _, pin in rows(table, "pins")]


def place_of(document: Document, name: str, number: int) -> int:
    """Return how many items of a run stand left of one."""
    return _items(document, name, number).index(number)


def moved(document: Document, name: str, number: int, to: int) -> Values:
    """Return a run with an item at another place of its order.

    Args:
        document: The job's document.
        name: The run's name.
        number: The item.
        to: How many items stand left of it then; what is beyond an end is that end.
    """
    items = _items(document, name, number)
    rest = [each for each in items if each != number]
    to = min(max(to, 0), len(rest))
    changed = [*rest[:to], number, *rest[to:]]
    return {} if changed == items else {_place(name, "items"): changed}


def swapped(document: Document, name: str, number: int, other: int) -> Values:
    """Return a run with two of its items in each other's place."""
    items = _items(document, name, number)
    if other not in items:
        raise InputError(say("not-in-run", item=other, run=name))
    turned = {number: other, other: number}
    return {_place(name, "items"): [turned.get(each, each) for each in items]}


def taken_out(document: Document, name: str, number: int) -> Values:
    """Return a run without an item, and without what was pinned of it; a run of nothing is no run."""
    rest = [each for each in _items(document, name, number) if each != number]
    table = run_table(document, name)
    if not rest:
        return {_place(name, field): None for field in table}
    pins = [pin for pin in _pins(table) if number not in (pin.get("item"), pin.get("beside"))]
    values: Values = {_place(name, "items"): rest}
    if pins != _pins(table):
        values[_place(name, "pins")] = pins or None
    return values


def put_in(document: Document, name: str, number: int) -> Values:
    """Return a run with one more item, at its right end."""
    items = _numbers(run_table(document, name))
    if number in items:
        raise InputError(say("in-run-already", item=number, run=name))
    return {_place(name, "items"): [*items, number]}


def started(wall: str, row: str, numbers: Sequence[int]) -> Values:
    """Return a new run with some items in their order.

    Raises:
        InputError: There is none.
    """
    if not numbers:
        raise InputError(say("run-needs-items"))
    step = f"{wall} {row}"
    return {pointer(("runs", step, "items")): list(numbers)}


def pinned(document: Document, name: str, pin: Mapping[str, Any]) -> Values:
    """Return a run with a pin; it stands over another of the same edge of the same item."""
    pins = [
        each
        for each in _pins(run_table(document, name))
        if (each.get("item"), each.get("edge")) != (pin["item"], pin["edge"])
    ]
    return {_place(name, "pins"): [*pins, dict(pin)]}


def let_go(document: Document, name: str, number: int, edge: str) -> Values:
    """Return a run without the pin of one edge of an item."""
    pins = _pins(run_table(document, name))
    rest = [each for each in pins if (each.get("item"), each.get("edge")) != (number, edge)]
    if rest == pins:
        raise InputError(say("no-such-pin", item=number))
    return {_place(name, "pins"): rest or None}


def ends(name: str, side: str, kind: str, at: str, run: str) -> Values:
    """Return a run with another end: a wall, a corner with the run round it, or open up to a place."""
    end: dict[str, str] = {"kind": kind}
    if kind == "open" and at:
        end["at"] = at
    if kind == "corner":
        end["run"] = run
    return {_place(name, side): end}


def box_of(document: Document, number: int) -> dict[str, Any] | None:
    """Return the table of a box, or None if the number is no box's."""
    boxes = rows(section(document, "order"), "boxes")
    return next((dict(box) for _, box in boxes if box.get("number") == number), None)
