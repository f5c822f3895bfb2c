"""Prints: which numbers stand on paper, and under which letter.

A revision letter steps when a packet is made and any printed number differs from the packet before. A sheet
that was put right by hand keeps its letter and counts as printed with the new numbers.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass

from sqlalchemy import insert, select, update

from setline.field_book.database import Database
from setline.field_book.tables import prints

__all__ = ["Print", "Prints", "next_letter"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Print:
    """A packet that was made.

    Attributes:
        revision: Its letter.
        check_code: The check code on its feet.
        numbers: Every printed number by its name.
        at: When, by this machine's clock.
    """

    revision: str
    check_code: str
    numbers: Mapping[str, str]
    at: str


def next_letter(letter: str) -> str:
    """Return the revision letter after one: B after A, AA after Z.

    Example:
        >>> next_letter("C"), next_letter("Z"), next_letter("AZ")
        ('D', 'AA', 'BA')
    """
    head, last = letter[:-1], letter[-1:]
    if last != "Z":
        return head + chr(ord(last or "@") + 1)
    return (next_letter(head) if head else "A") + "A"


class Prints:
    """The packets that were made of each job.

    Args:
        database: The store's database.
    """

    def __init__(self, database: Database) -> None:
        self._database = database

    def latest(self, job: str) -> Print | None:
        """Return the packet of a job that was made last, or None."""
        query = select(prints).where(prints.c.job == job)
        with self._database.reading() as connection:
            rows = connection.execute(query).mappings().all()
        if not rows:
            return None
        row = max(rows, key=lambda each: (len(each["revision"]), each["revision"]))
        return Print(
            revision=row["revision"],
            check_code=row["check_code"],
            numbers=json.loads(row["numbers"]),
            at=row["at"],
        )

    def note(self, job: str, numbers: Mapping[str, str], *, first: str, check_code: str, at: str) -> Print:
        """Note that a packet is made, and return it with its letter: the last one's while no number differs.

        Args:
            job: The job's id.
            numbers: Every printed number by its name.
            first: The letter of the first packet.
            check_code: The code on its feet.
            at: When.
        """
        before = self.latest(job)
        if before is not None and dict(before.numbers) == dict(numbers):
            return before
        letter = first if before is None else next_letter(before.revision)
        made = Print(revision=letter, check_code=check_code, numbers=dict(numbers), at=at)
        with self._database.writing() as connection:
            connection.execute(insert(prints), [{"job": job, **_row(made)}])
        return made

    def put_right(self, job: str, numbers: Mapping[str, str]) -> None:
        """Note that the last packet was put right by hand: its sheets say these numbers now."""
        before = self.latest(job)
        if before is None:
            return
        where = (prints.c.job == job) & (prints.c.revision == before.revision)
        with self._database.writing() as connection:
            connection.execute(update(prints).where(where).values(numbers=_text(numbers)))


def _row(made: Print) -> dict[str, str]:
    """Return a print as the table has it."""
    return {
        "revision": made.revision,
        "check_code": made.check_code,
        "numbers": _text(made.numbers),
        "at": made.at,
    }


def _text(numbers: Mapping[str, str]) -> str:
    """Return numbers as the table has them: the same text for the same numbers."""
    return json.dumps(dict(numbers), ensure_ascii=False, sort_keys=True)
