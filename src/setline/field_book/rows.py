"""Entries as rows of their table, and back."""

from __future__ import annotations

import json
from typing import Any

from sqlalchemy import RowMapping

from setline.field_book.entry import Entry, entry_to_dict

__all__ = ["to_entry", "to_row"]


def to_row(entry: Entry) -> dict[str, Any]:
    """Return an entry as the table has it."""
    return {
        **entry_to_dict(entry),
        "n": str(entry.n),
        "over": json.dumps(list(entry.over)),
        "value": json.dumps(entry.value, ensure_ascii=False, sort_keys=True),
    }


def to_entry(row: RowMapping) -> Entry:
    """Return a row of the table as an entry."""
    return Entry(
        id=row["id"],
        job=row["job"],
        device=row["device"],
        n=int(row["n"]),
        over=tuple(json.loads(row["over"])),
        by=row["by"],
        at=row["at"],
        place=row["place"],
        value=json.loads(row["value"]),
        taken_back=row["taken_back"],
    )
