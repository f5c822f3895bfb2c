"""A job as a document: tables, lists and plain values, before anything in it has a meaning.

A *place* is the way to a value from the top: ``("order", "boxes", 3, "width")``. What is wrong at a place is
a ``Wrong``; the reader turns all of them into faults with lines and sentences. The walk here lets nothing
through that a later stage could stumble over: endless nesting, signs that no file can hold, numbers that
are none.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from math import isfinite
from unicodedata import category

from setline.lengths import Tape, length_from_number, read_length
from setline.wording import say

__all__ = [
    "NOTHING",
    "Place",
    "Table",
    "Wrong",
    "clean",
    "rows",
    "section",
    "text_at",
    "ticks_at",
    "value_at",
    "whole_at",
]

Place = tuple[str | int, ...]
Table = Mapping[str, object]

NOTHING = object()
"""What was read at a place that holds nothing."""

_DEEPEST = 12
_MOST_VALUES = 60_000


@dataclass(frozen=True, slots=True)
class Wrong:
    """Something wrong at a place.

    Attributes:
        place: The way to it from the top of the document.
        given: What was read there, or ``NOTHING``.
        allowed: What may stand there, as a part of a sentence.
        example: Something that may, as it is written in a TOML file; empty where none would help.
    """

    place: Place
    given: object
    allowed: str
    example: str = ""


def clean(data: object) -> tuple[object, list[Wrong]]:
    """Return a document with dates as texts and tuples as lists, and what can be in no job.

    Nothing is recursive without a limit, so no document is deep or large enough to break the reader; one that
    is too deep or too large comes back as ``NOTHING``.
    """
    walk = _Walk()
    cleaned = walk.through(data, ())
    if walk.count > _MOST_VALUES:
        return NOTHING, [Wrong((), NOTHING, say("fault-too-many-values", most=_MOST_VALUES))]
    return (NOTHING if walk.is_too_deep else cleaned), walk.wrong


class _Walk:
    """A walk through a document that counts its values and copies it."""

    def __init__(self) -> None:
        self.count = 0
        self.is_too_deep = False
        self.wrong: list[Wrong] = []

    def through(self, value: object, place: Place) -> object:
        """Return a copy of a value, and note what is wrong inside it."""
        self.count += 1
        if self.count > _MOST_VALUES or self.is_too_deep:
            return None
        if len(place) > _DEEPEST:
            self.is_too_deep = True
            self.wrong.append(Wrong(place, NOTHING, say("fault-too-deep", most=_DEEPEST)))
            return None
        if isinstance(value, Mapping):
            named = {key: each for key, each in value.items() if self._can_be_key(key, place)}
            return {str(key): self.through(each, (*place, str(key))) for key, each in named.items()}
        if isinstance(value, list | tuple):
            return [self.through(each, (*place, index)) for index, each in enumerate(value)]
        return _plain(value, place, self.wrong)

    def _can_be_key(self, key: object, place: Place) -> bool:
        """Tell whether a key can be printed; one that cannot is noted and left out."""
        if _is_printable(str(key)):
            return True
        self.wrong.append(Wrong((*place, "?"), ascii(key), say("fault-odd-signs")))
        return False


def _plain(value: object, place: Place, wrong: list[Wrong]) -> object:
    """Return a single value, a date as the text that was written."""
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    if isinstance(value, str) and not _is_printable(value):
        wrong.append(Wrong(place, ascii(value), say("fault-odd-signs")))
    if isinstance(value, float) and not isfinite(value):
        wrong.append(Wrong(place, str(value), say("fault-not-finite")))
    return value


def _is_printable(text: str) -> bool:
    """Tell whether a file can hold a text: no control signs but a new line, no halves of signs."""
    return text.isprintable() or all(
        sign in "\n\t" or category(sign) not in ("Cc", "Cs") for sign in text if not sign.isprintable()
    )


def section(data: object, *keys: str) -> Table:
    """Return the table at the end of some keys, empty if anything on the way is no table."""
    for key in keys:
        data = data.get(key) if isinstance(data, Mapping) else None
    return data if isinstance(data, Mapping) else {}


def rows(table: Table, key: str, place: Place = ()) -> Iterator[tuple[Place, Table]]:
    """Yield the tables of a list with their places; what is no table was refused elsewhere."""
    listed = table.get(key)
    if isinstance(listed, Sequence) and not isinstance(listed, str):
        for index, row in enumerate(listed):
            if isinstance(row, Mapping):
                yield (*place, key, index), row


def text_at(table: Table, key: str, default: str | None = None) -> str | None:
    """Return a text of a table, or the default if something else stands there."""
    value = table.get(key, default)
    return value if isinstance(value, str) else default


def whole_at(table: Table, key: str) -> int | None:
    """Return a whole number of a table, or None if something else stands there."""
    value = table.get(key)
    return value if isinstance(value, int) and not isinstance(value, bool) else None


def ticks_at(value: object, tape: Tape | None) -> int | None:
    """Return a raw length in ticks, or None if it is none or the tape is not known."""
    if tape is None:
        return None
    try:
        if isinstance(value, str):
            return read_length(value, tape).ticks
        return length_from_number(value, tape).ticks
    except ValueError:
        return None


def value_at(data: object, place: Place) -> object:
    """Return what stands at a place, or ``NOTHING``."""
    for step in place:
        if isinstance(step, str) and isinstance(data, Mapping):
            data = data.get(step, NOTHING)
        elif isinstance(step, int) and isinstance(data, list | tuple) and step < len(data):
            data = data[step]
        else:
            return NOTHING
    return data
