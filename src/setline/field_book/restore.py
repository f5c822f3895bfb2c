"""A store made again from a backup: all of it, or nothing of it.

The file is read through and checked before anything is touched. A backup of an older schema is laid into
tables of that schema, which are then brought up to date as any older store is.
"""

from __future__ import annotations

import hashlib
import json
import lzma
import re
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, LargeBinary, Table, func, insert, select, text
from sqlalchemy.exc import SQLAlchemyError

from setline.field_book.backup import Held, Manifest, read_manifest, tables_of
from setline.field_book.database import Database
from setline.field_book.faults import BackupUnusable, StoreError, StoreNotEmpty
from setline.field_book.migrations import upgrade
from setline.field_book.photos import Photos
from setline.field_book.tables import METADATA, devices, entries, jobs, photos
from setline.wording import say

__all__ = ["restore_backup"]

_AT_A_TIME = 500
_LONGEST_LINE = 2_000_000
_PHOTO = re.compile(r"photos/([0-9a-f]{1,64})\.jpg")
_DAMAGED = (zipfile.BadZipFile, zlib.error, lzma.LZMAError, EOFError, NotImplementedError, RuntimeError)


def restore_backup(file: Path, database: Database, pictures: Photos, *, replace: bool = False) -> Held:
    """Lay a backup into a store.

    Args:
        file: The backup.
        database: The store's database, open.
        pictures: Its photos.
        replace: Whether all that the store holds may go; without it, only an empty store takes a backup.

    Returns:
        What was restored.

    Raises:
        BackupUnusable: The file is no backup, is damaged, or of a newer Setline; nothing was touched.
        StoreNotEmpty: The store holds something, and ``replace`` was not said.
        StoreFull: There is no room; the store is as it was.
    """
    with _opened(file) as archive:
        manifest = read_manifest(archive)
        _check(archive, manifest)
        held = [found[1] for member in manifest.checksums if (found := _PHOTO.fullmatch(member))]
        if not replace and not _is_empty(database):
            raise StoreNotEmpty(say("restore-not-empty"))
        for photo in held:
            pictures.write_file(photo, archive.read(f"photos/{photo}.jpg"))
        try:
            with database.writing() as connection:
                if not replace and not _is_empty_in(connection):  # somebody wrote to it a moment ago
                    raise StoreNotEmpty(say("restore-not-empty"))
                _lay_in(connection, archive, manifest)
                count = select(func.count()).select_from(jobs).where(~jobs.c.is_deleted)
                kept = int(connection.execute(count).scalar_one())
        except (SQLAlchemyError, StoreError, KeyError, TypeError, ValueError) as trouble:
            pictures.sweep()
            if isinstance(trouble, StoreError):
                raise
            raise BackupUnusable(say("backup-damaged", member="tables")) from trouble
    pictures.sweep()
    return Held(jobs=kept, entries=manifest.rows.get("entries", 0), photos=len(held))


def _is_empty(database: Database) -> bool:
    """Return whether a store holds nothing that could be lost."""
    with database.reading() as connection:
        return _is_empty_in(connection)


def _is_empty_in(connection: Connection) -> bool:
    """Return whether a store holds no entry, photo or device."""
    return all(
        connection.execute(select(func.count()).select_from(table)).scalar_one() == 0
        for table in (jobs, entries, photos, devices)
    )


@contextmanager
def _opened(file: Path) -> Iterator[zipfile.ZipFile]:
    """Give a backup file, whatever is wrong with it told in a sentence."""
    try:
        with zipfile.ZipFile(file) as archive:
            yield archive
    except _DAMAGED:
        raise BackupUnusable(say("backup-none")) from None
    except OSError as trouble:
        why = (trouble.strerror or str(trouble)).lower()
        raise BackupUnusable(say("backup-not-opened", file=file, why=why)) from trouble


def _check(archive: zipfile.ZipFile, manifest: Manifest) -> None:
    """Read every member through and hold it against its checksum."""
    known = {f"tables/{name}.jsonl" for name in METADATA.tables}
    for member, checksum in manifest.checksums.items():
        if member not in known and not _PHOTO.fullmatch(member):
            raise BackupUnusable(say("backup-damaged", member=member[:60]))
        digest = hashlib.sha256()
        try:
            with archive.open(member) as stream:
                while piece := stream.read(1 << 20):
                    digest.update(piece)
        except (KeyError, *_DAMAGED):
            raise BackupUnusable(say("backup-damaged", member=member)) from None
        if digest.hexdigest() != checksum:
            raise BackupUnusable(say("backup-damaged", member=member))


def _lay_in(connection: Connection, archive: zipfile.ZipFile, manifest: Manifest) -> None:
    """Make the tables of the backup's schema anew, fill them, and bring them up to date."""
    for table in reversed(tables_of(connection)):
        table.drop(connection)
    connection.execute(text("DROP TABLE alembic_version"))
    upgrade(connection, manifest.schema)
    for table in tables_of(connection):
        if f"tables/{table.name}.jsonl" in manifest.checksums:
            count = _fill(connection, table, archive)
            if count != manifest.rows.get(table.name):
                raise BackupUnusable(say("backup-damaged", member=table.name))
    upgrade(connection)


def _fill(connection: Connection, table: Table, archive: zipfile.ZipFile) -> int:
    """Put the rows of one member into its table; entries arrive in their order and are numbered anew."""
    count = 0
    waiting: list[dict[str, Any]] = []
    with archive.open(f"tables/{table.name}.jsonl") as stream:
        while line := stream.readline(_LONGEST_LINE):
            row = json.loads(line)
            if table.name == "entries":
                del row["seq"]
            for column in table.columns:
                if isinstance(column.type, LargeBinary):
                    row[column.name] = bytes.fromhex(row[column.name]["hex"])
            waiting.append(row)
            count += 1
            if len(waiting) == _AT_A_TIME:
                connection.execute(insert(table), waiting)
                waiting = []
    if waiting:
        connection.execute(insert(table), waiting)
    return count
