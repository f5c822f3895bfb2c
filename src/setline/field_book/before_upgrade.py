"""The copy that is kept before a schema is upgraded: a file that the older Setline opens again."""

from __future__ import annotations

import sqlite3
from pathlib import Path
from typing import TYPE_CHECKING

from setline.field_book.faults import StoreFull
from setline.field_book.folder import data_folder
from setline.wording import say

if TYPE_CHECKING:
    from setline.field_book.database import Database

__all__ = ["keep_a_copy"]


def keep_a_copy(database: Database, stands_at: str, goes_to: str, folder: Path | None) -> Path:
    """Copy a store as it stands, before it is upgraded.

    Args:
        database: The store's database, at the older step.
        stands_at: The step it stands at.
        goes_to: The step it is to be brought to.
        folder: Where the copy goes; without it, beside an SQLite store, else in the user's data folder.

    Returns:
        The copy: of an SQLite store an SQLite file, of any other a backup file for ``setline restore``.

    Raises:
        StoreFull: There is no room for it; nothing was upgraded.
    """
    store = database.file
    where = folder or (data_folder() if store is None else store.resolve().parent)
    name = "setline" if store is None else store.name
    try:
        where.mkdir(parents=True, exist_ok=True)
        if store is not None:
            copy = _free(where, f"{name}.{stands_at}-before-{goes_to}")
            _copy_sqlite(store, copy)
        else:
            from setline.field_book.backup import write_backup

            copy = _free(where, f"{name}.{stands_at}-before-{goes_to}.setline")
            write_backup(database, None, copy, schema=stands_at)
    except OSError as trouble:
        raise StoreFull(say("store-no-copy", folder=where, why=(trouble.strerror or "").lower())) from trouble
    return copy


def _free(folder: Path, name: str) -> Path:
    """Return a file in a folder that is not there yet."""
    path, count = folder / name, 1
    while path.exists():
        count += 1
        path = folder / f"{name}-{count}"
    return path


def _copy_sqlite(store: Path, copy: Path) -> None:
    """Copy an SQLite file as it stands, whoever is writing to it meanwhile; no half copy stays."""
    try:
        old, new = sqlite3.connect(store), sqlite3.connect(copy)
        try:
            old.backup(new)
        finally:
            new.close()
            old.close()
    except sqlite3.Error as trouble:
        copy.unlink(missing_ok=True)
        raise StoreFull(say("store-no-copy", folder=copy.parent, why=str(trouble))) from trouble
