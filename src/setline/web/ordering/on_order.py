"""What is on order in the job's document: things by number, numbers that are free, where they stand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from setline.errors import InputError
from setline.field_book.order_list.fields import LISTS, flat
from setline.field_book.places import pointer, steps_of
from setline.job.document import rows, section, whole_at
from setline.lengths import Tape, read_length, show
from setline.web.arranging.edits import named_runs, run_key
from setline.web.arranging.view import set_boxes
from setline.web.planning import Standing
from setline.wording import say

__all__ = [
    "fields_shown",
    "free_number",
    "length_shown",
    "runs_with",
    "taken_off",
    "thing_of",
    "things",
    "used_numbers",
]

Document = Mapping[str, Any]
_GREATEST = 9999


def things(document: Document, listed: str) -> Iterator[tuple[int, dict[str, Any]]]:
    """Yield the things of a list with their numbers, in the order of the document."""
    for _, thing in rows(section(document, "order"), listed):
        number = whole_at(thing, "number")
        if number is not None:
            yield number, dict(thing)


def thing_of(document: Document, listed: str, number: int) -> dict[str, Any]:
    """Return one thing; the tops have no number.

    Raises:
        InputError: There is none of that number in that list.
    """
    if listed == "tops":
        return dict(section(document, "order", "tops"))
    for known, thing in things(document, listed):
        if known == number:
            return thing
    raise InputError(say("order-no-such", number=number))


def used_numbers(standing: Standing) -> frozenset[int]:
    """Return every number that ever stood for something: a number is kept for life."""
    found: set[int] = set()
    for entry in standing.entries:
        steps = steps_of(entry.place)
        if len(steps) > 3 and steps[0] == "order" and steps[1] in LISTS and steps[2].isdecimal():
            found.add(int(steps[2][:5]))
    return frozenset(found)


def free_number(standing: Standing) -> int:
    """Return the next number that was never used, or 0 where none is left."""
    last = max(used_numbers(standing), default=0)
    return last + 1 if last < _GREATEST else 0


def runs_with(document: Document, number: int) -> list[str]:
    """Return the names of the runs that something stands in."""
    return [name for name, run in named_runs(document) if number in _items(run)]


def taken_off(document: Document, listed: str, number: int) -> dict[str, Any]:
    """Return what takes a thing off the order: out of its runs, its pins let go, its fields empty.

    Raises:
        InputError: It is set, or there is none of that number.
    """
    thing = thing_of(document, listed, number)
    if number in set_boxes(document):
        raise InputError(say("set-stays", item=number))
    values: dict[str, Any] = {}
    for name, run in named_runs(document):
        items = [each for each in _items(run) if each != number]
        pins = [dict(pin) for _, pin in rows(run, "pins")]
        kept = [pin for pin in pins if number not in (pin.get("item"), pin.get("beside"))]
        if not items:  # a run of nothing is no run
            values |= {pointer(("runs", run_key(name), field)): None for field in run}
            continue
        if items != _items(run):
            values[pointer(("runs", run_key(name), "items"))] = items
        if kept != pins:
            values[pointer(("runs", run_key(name), "pins"))] = kept or None
    return {**values, **{pointer(("order", listed, str(number), field)): None for field in thing}}


def _items(run: Mapping[str, Any]) -> list[Any]:
    items = run.get("items")
    return list(items) if isinstance(items, list | tuple) else []


def length_shown(value: object, tape: Tape) -> str:
    """Return a length as the tape shows it, or the text where it is none."""
    try:
        return show(read_length(str(value), tape).ticks, tape.units)
    except InputError:
        return str(value)


def fields_shown(listed: str, thing: Mapping[str, Any]) -> dict[str, str]:
    """Return the fields of a thing as their forms show them."""
    return {key: field_text(value) for key, value in flat(listed, thing).items()}


def field_text(value: object) -> str:
    """Return a value as the text that reads back as it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list | tuple):
        ends = {str(each) for each in value}
        return "both" if {"left", "right"} <= ends else next(iter(ends), "none")
    return str(value)
