"""A table read as a list of what was ordered: what to keep, and what is wrong by row. Nothing is guessed.

Any table comes back as rows, faults, or both; no table, however odd, ends in anything else. A row without a
number takes the next that was never used; a row with the number of something on order changes that thing in
the columns where it says something, and leaves the rest as it is.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from setline.field_book.order_list.cells import GREATEST_NUMBER, NotRead, read_cell, whole
from setline.field_book.order_list.columns import COLUMNS, KINDS, Column, Head, near_words
from setline.field_book.order_list.fields import LISTS, as_thing, fields_of, flat
from setline.field_book.order_list.table import Table, find_head, text_of_table
from setline.field_book.order_list.things import faults_of_thing
from setline.field_book.places import pointer
from setline.job.document import rows, section, whole_at
from setline.lengths import Tape
from setline.wording import SENTENCES, say

__all__ = ["MOST_FAULTS", "ListRead", "ListRow", "RowFault", "read_list", "values_of"]

MOST_FAULTS = 200
MOST_ITEMS = 500
_KEPT_WORDS = ("number", "what", "count")

Order = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class RowFault:
    """Something wrong in a row.

    Attributes:
        row: The row, from 1; 0 where it is about the whole table.
        column: The column's word, or empty where it is about the whole row.
        read: What was read there, or empty.
        allowed: What is allowed, as a sentence.
    """

    row: int
    column: str
    read: str
    allowed: str

    def __str__(self) -> str:
        """Return the fault on one line."""
        where = [say("order-row", row=self.row)] * bool(self.row) + [self.column] * bool(self.column)
        read = [say("order-read", read=self.read)] * bool(
            self.read and not self.allowed.startswith(self.read)
        )
        return ": ".join([", ".join(where), *read, self.allowed] if where else [*read, self.allowed])


@dataclass(frozen=True, slots=True, kw_only=True)
class ListRow:
    """One thing to keep.

    Attributes:
        row: The row it was read in.
        listed: The list of the order it belongs to.
        number: Its number; 0 for the tops, which have none.
        thing: All of it, with what stood before.
        stood: What stood before; empty where it was not on order.
        changes: Its fields that are not as they were: field -> value.
    """

    row: int
    listed: str
    number: int
    thing: Mapping[str, Any]
    stood: Mapping[str, Any]
    changes: Mapping[str, Any]

    @property
    def is_new(self) -> bool:
        """Whether it was not on order before."""
        return not self.stood


@dataclass(frozen=True, slots=True, kw_only=True)
class ListRead:
    """A list as it was read.

    Attributes:
        rows: What can be kept, in the order of the list.
        faults: What is wrong, in the order of the list, at most 200 of them.
        more_faults: How many more there are.
        columns: Words of the columns that were read.
        not_read: Heads of columns that were not, each with a word that is near or nothing.
        rest: The head and the rows that have faults, as text to mend.
        missing: Numbers on order that the list does not have; they stay.
    """

    rows: tuple[ListRow, ...] = ()
    faults: tuple[RowFault, ...] = ()
    more_faults: int = 0
    columns: tuple[str, ...] = ()
    not_read: tuple[tuple[str, str], ...] = ()
    rest: str = ""
    missing: tuple[int, ...] = ()


def read_list(table: Table, tape: Tape, order: Order, *, used: Iterable[int] = ()) -> ListRead:
    """Return what a table says was ordered.

    Args:
        table: The table.
        tape: The crew's tape.
        order: The order as the job's document has it now.
        used: Numbers that once stood for something and are not used again.
    """
    head = find_head(table.cells, tape)
    wrong = _wrong_head(head)
    if wrong:
        return ListRead(faults=wrong, rest=text_of_table(table.cells), not_read=_not_read(head))
    reader = _Reader(head, tape, order, used, _numbers_said(table, head))
    for number, cells in enumerate(table.cells[head.row :], start=head.row + 1):
        if any(cells):
            reader.read(number, cells)
    faulty = {fault.row for fault in reader.faults}
    rest = tuple(cells for at, cells in enumerate(table.cells, start=1) if at == head.row or at in faulty)
    kept = tuple(each for each in reader.rows if each.row not in faulty)
    listed = {each.number for each in reader.rows}
    return ListRead(
        rows=kept,
        faults=tuple(reader.faults[:MOST_FAULTS]),
        more_faults=max(0, len(reader.faults) - MOST_FAULTS),
        columns=tuple(column.name for column in head.columns.values()),
        not_read=_not_read(head),
        rest=text_of_table(rest) if faulty else "",
        missing=tuple(sorted(number for number in reader.stands if number not in listed)),
    )


def values_of(found: Iterable[ListRow]) -> dict[str, Any]:
    """Return place -> value of what is to be kept."""
    return {
        pointer(("order", each.listed, *([str(each.number)] if each.number else []), field)): value
        for each in found
        for field, value in each.changes.items()
    }


# --- the head -------------------------------------------------------------------------------------------


def _wrong_head(head: Head) -> tuple[RowFault, ...]:
    """Return why no row can be read."""
    known = ", ".join(column.name for column in COLUMNS)
    if not head.columns:
        return (RowFault(row=0, column="", read="", allowed=say("order-no-head", known=known)),)
    if head.twice:
        return tuple(
            RowFault(row=head.row, column=word, read="", allowed=say("order-column-twice"))
            for word in dict.fromkeys(head.twice)
        )
    if "what" not in {column.name for column in head.columns.values()}:
        return (RowFault(row=head.row, column="what", read="", allowed=say("order-no-what")),)
    return ()


def _not_read(head: Head) -> tuple[tuple[str, str], ...]:
    return tuple((word, near_words(word)) for word in dict.fromkeys(head.unknown))


def _numbers_said(table: Table, head: Head) -> set[int]:
    """Return the numbers that the rows say themselves, so that no other row is given one of them."""
    place = next((place for place, column in head.columns.items() if column.name == "number"), None)
    found: set[int] = set()
    for cells in table.cells[head.row :] if place is not None else ():
        try:
            found.add(whole(_at(cells, place or 0)))
        except NotRead:
            continue
    return found


def _at(cells: tuple[str, ...], place: int) -> str:
    return cells[place] if place < len(cells) else ""


# --- the rows -------------------------------------------------------------------------------------------


class _Reader:
    """Reads row after row, and knows which numbers are taken."""

    def __init__(self, head: Head, tape: Tape, order: Order, used: Iterable[int], said: set[int]) -> None:
        self._head = head
        self._tape = tape
        self._order = order
        self.stands: dict[int, tuple[str, Mapping[str, Any]]] = {
            number: (listed, thing)
            for listed in LISTS
            for _, thing in rows(order, listed)
            if (number := whole_at(thing, "number")) is not None
        }
        self._last = max((*self.stands, *used, *said), default=0)
        self._seen: dict[int, int] = {}
        self.rows: list[ListRow] = []
        self.faults: list[RowFault] = []

    def read(self, row: int, cells: tuple[str, ...]) -> None:
        """Read one row: into rows, or into faults."""
        said = {column.name: _at(cells, place) for place, column in self._head.columns.items()}
        found = KINDS.get(" ".join(said["what"].casefold().split()))
        if found is None:
            self._fault(row, "what", said["what"], say("order-what", known=say("order-kinds")))
            return
        listed, kind = found
        before = len(self.faults)
        values = self._values(row, cells, listed)
        number, count = self._number(row, said, listed), self._count(row, said, listed)
        if kind:
            values = {"kind": kind, **values}
        if len(self.faults) > before:
            refused = {_key(fault.column, listed) for fault in self.faults[before:]}
            self._whole(row, listed, number, values, told=refused)
            return
        if not number and listed != "tops" and self._out_of_numbers(row, count):
            return
        for _ in range(count):
            if len(self.faults) == before:  # what is wrong with one is wrong with all of them
                self._take(row, listed, number or self._next(listed), values)

    def _fault(self, row: int, column: str, read: str, allowed: str) -> None:
        self.faults.append(RowFault(row=row, column=column, read=read[:80], allowed=allowed))

    def _values(self, row: int, cells: tuple[str, ...], listed: str) -> dict[str, object]:
        """Return the fields that a row says; what stands in a column of another kind of thing is a fault."""
        known = fields_of(listed)
        values: dict[str, object] = {}
        for place, column in self._head.columns.items():
            text = _at(cells, place)
            if not text or column.name in _KEPT_WORDS:
                continue
            key = column.keys.get(listed)
            if key is None:
                self._fault(row, column.name, text, _elsewhere(column, listed))
                continue
            try:
                values[key] = read_cell(known[key], text, self._tape, unit=self._head.units.get(place, ""))
            except NotRead as why:
                self._fault(row, column.name, text, str(why))
        return values

    def _number(self, row: int, said: Mapping[str, str], listed: str) -> int:
        """Return the number that a row says, or 0 where it says none."""
        text = said.get("number", "")
        if not text:
            return 0
        try:
            number = whole(text)
        except NotRead as why:
            self._fault(row, "number", text, str(why))
            return 0
        first = self._seen.setdefault(number, row)
        stands = self.stands.get(number)
        if listed == "tops":
            self._fault(row, "number", text, say("order-tops-number"))
        elif first != row:
            self._fault(row, "number", text, say("order-number-twice", row=first))
        elif stands is not None and stands[0] != listed:
            self._fault(row, "number", text, say("order-number-other", other=say(f"order-one-{stands[0]}")))
        return number

    def _count(self, row: int, said: Mapping[str, str], listed: str) -> int:
        """Return how many of a thing a row says; several cannot have one number."""
        text = said.get("count", "")
        if not text:
            return 1
        try:
            count = whole(text)
        except NotRead as why:
            self._fault(row, "count", text, str(why))
            return 1
        if count > 1 and (said.get("number") or listed == "tops"):
            self._fault(row, "count", text, say("order-count-number"))
        elif count + len(self.rows) > MOST_ITEMS:
            self._fault(row, "count", text, say("order-count-most", most=MOST_ITEMS))
        return count

    def _out_of_numbers(self, row: int, count: int) -> bool:
        """Say so where no number is left for a row."""
        if self._last + count <= GREATEST_NUMBER:
            return False
        self._fault(row, "number", "", say("order-no-number", most=GREATEST_NUMBER))
        return True

    def _next(self, listed: str) -> int:
        """Return a number that was never used; the tops have none."""
        if listed == "tops":
            return 0
        self._last += 1
        return self._last

    def _take(self, row: int, listed: str, number: int, values: Mapping[str, object]) -> None:
        """Keep one thing if it is whole."""
        stood = self._stood(listed, number)
        before = len(self.faults)
        thing = self._whole(row, listed, number, values)
        if len(self.faults) > before:
            return
        heads = {key.partition(".")[0] for key in values}
        changes = {
            field: thing[field] for field in thing if field in heads and thing[field] != stood.get(field)
        }
        self.rows.append(
            ListRow(row=row, listed=listed, number=number, thing=thing, stood=stood, changes=changes)
        )

    def _stood(self, listed: str, number: int) -> Mapping[str, Any]:
        """Return what stands under a number, or nothing."""
        return section(self._order, "tops") if listed == "tops" else self.stands.get(number, ("", {}))[1]

    def _whole(
        self,
        row: int,
        listed: str,
        number: int,
        values: Mapping[str, object],
        *,
        told: Collection[str] = (),
    ) -> dict[str, Any]:
        """Return a thing with what stood before, and say what is missing or does not go together."""
        stood = self._stood(listed, number)
        merged = as_thing({**flat(listed, stood), **values})
        thing = {**stood, **merged, **({"number": number or 1} if listed != "tops" else {})}
        for key, allowed in faults_of_thing(listed, thing, self._tape, told=told):
            self._fault(row, _word(listed, key), str(values.get(key, "")), allowed)
        return thing


def _word(listed: str, key: str) -> str:
    """Return the word of the column that a field stands in."""
    if key == "kind":
        return "what"
    return next((column.name for column in COLUMNS if column.keys.get(listed) == key), key.replace("_", " "))


def _key(word: str, listed: str) -> str:
    """Return the field that a column's word stands for; the word itself where it is none."""
    if word == "what":
        return "kind"
    return next(
        (column.keys[listed] for column in COLUMNS if column.name == word and listed in column.keys), word
    )


def _elsewhere(column: Column, listed: str) -> str:
    """Return why a column says nothing of this kind of thing."""
    hint = f"order-no-{column.name}-{listed}"
    if hint in SENTENCES:
        return say(hint)
    return say("order-not-of-kind", column=column.name, kind=say(f"order-one-{listed}"))
