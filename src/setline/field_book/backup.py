"""All of a store in one file, and a store made again from it, whichever database either is.

The file is a zip: ``manifest.json`` (what it is, the schema's step, how many rows, a checksum of every other
member), ``tables/<name>.jsonl`` (a row a line, as JSON), ``photos/<id>.jpg``. It is written beside its place
and moved there when it is whole. It holds hashes of what paired phones carry, nothing that lets anybody in.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
import zipfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import IO, Any

from sqlalchemy import Connection, MetaData, Table, inspect, select

from setline.field_book.database import HEAD, Database
from setline.field_book.faults import BackupUnusable, StoreFull
from setline.field_book.tables import METADATA
from setline.version import VERSION
from setline.wording import say

__all__ = ["FORM", "MANIFEST", "Held", "Manifest", "read_manifest", "write_backup"]

FORM = "setline backup 1"
MANIFEST = "manifest.json"
_LONGEST_MANIFEST = 20_000_000
_TABLES = tuple(table.name for table in METADATA.sorted_tables)


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """How much a backup holds.

    Attributes:
        jobs: Jobs that are not deleted.
        entries: Entries.
        photos: Photos with their files.
    """

    jobs: int
    entries: int
    photos: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Manifest:
    """What a backup says of itself.

    Attributes:
        version: The Setline that wrote it.
        schema: The step of the schema its rows are of.
        made_at: When.
        rows: Table -> how many rows.
        checksums: Member -> SHA-256, in hex.
    """

    version: str
    schema: str
    made_at: str
    rows: Mapping[str, int]
    checksums: Mapping[str, str]


# --- writing --------------------------------------------------------------------------------------------


def write_backup(
    database: Database, photos: Path | None, out: Path, *, schema: str = HEAD, over: bool = False
) -> Held:
    """Write all of a store into one file, as it stands at one moment, whoever is writing to it meanwhile.

    Args:
        database: The store's database.
        photos: The folder of its photos; None where there are none.
        out: The file to write.
        schema: The step that the database stands at.
        over: Whether a file that is there already may be replaced.

    Returns:
        What was written.

    Raises:
        StoreFull: It could not be written; no half file stays.
        FileExistsError: There is a file of that name.
    """
    if out.exists() and not over:
        raise FileExistsError(17, os.strerror(17), str(out))
    try:
        with _whole_file(out) as file, zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
            return _write(database, photos, archive, schema)
    except OSError as trouble:
        why = (trouble.strerror or str(trouble)).lower()
        raise StoreFull(say("backup-not-written", file=out, why=why)) from trouble


@contextmanager
def _whole_file(out: Path) -> Iterator[IO[bytes]]:
    """Give a file that takes its name when the block ends well, and is gone otherwise."""
    handle, name = tempfile.mkstemp(dir=out.absolute().parent, prefix=f"{out.name}.", suffix=".part")
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            yield file
            file.flush()
            os.fsync(file.fileno())
        part.replace(out)
    except BaseException:
        part.unlink(missing_ok=True)
        raise


def _write(database: Database, photos: Path | None, archive: zipfile.ZipFile, schema: str) -> Held:
    """Write every table, then the photos that the rows name, then the manifest."""
    checksums: dict[str, str] = {}
    rows: dict[str, int] = {}
    held: list[str] = []
    jobs = 0
    with database.reading() as connection:
        for table in tables_of(connection):
            member = f"tables/{table.name}.jsonl"
            rows[table.name] = 0
            with _summed(archive, member, checksums) as write:
                for row in _rows(connection, table):
                    write(json.dumps(row, ensure_ascii=False, sort_keys=True).encode() + b"\n")
                    rows[table.name] += 1
                    held += [row["id"]] if table.name == "photos" else []
                    jobs += table.name == "jobs" and not row["is_deleted"]
    kept = _write_photos(archive, photos, held, checksums)
    manifest = {
        "form": FORM,
        "version": VERSION,
        "schema": schema,
        "made_at": datetime.now(UTC).isoformat(timespec="seconds"),
        "rows": rows,
        "checksums": checksums,
    }
    archive.writestr(MANIFEST, json.dumps(manifest, indent=1))
    return Held(jobs=jobs, entries=rows.get("entries", 0), photos=kept)


def tables_of(connection: Connection) -> list[Table]:
    """Return the store's tables as the database has them, those first that others point to."""
    there = [name for name in _TABLES if inspect(connection).has_table(name)]
    found = MetaData()
    found.reflect(connection, only=there)
    return [table for table in found.sorted_tables if table.name in there]


def _rows(connection: Connection, table: Table) -> Iterator[dict[str, Any]]:
    """Yield the rows of a table as JSON has them, in the order of its key."""
    query = select(table).order_by(*table.primary_key.columns)
    for row in connection.execution_options(yield_per=500).execute(query).mappings():
        yield {
            field: {"hex": bytes(value).hex()} if isinstance(value, bytes | memoryview) else value
            for field, value in row.items()
        }


@contextmanager
def _summed(archive: zipfile.ZipFile, member: str, checksums: dict[str, str]) -> Iterator[Any]:
    """Give a way to write into a member, whose checksum is noted at the end."""
    digest = hashlib.sha256()
    with archive.open(member, "w", force_zip64=True) as file:

        def write(content: bytes) -> None:
            digest.update(content)
            file.write(content)

        yield write
    checksums[member] = digest.hexdigest()


def _write_photos(
    archive: zipfile.ZipFile, folder: Path | None, ids: list[str], checksums: dict[str, str]
) -> int:
    """Write the photos' files; one that is gone (deleted a moment ago) is left out."""
    if folder is None:
        return 0
    kept = 0
    for photo in ids:
        try:
            content = (folder / f"{photo}.jpg").read_bytes()
        except FileNotFoundError:
            continue
        with _summed(archive, f"photos/{photo}.jpg", checksums) as write:
            write(content)
        kept += 1
    return kept


# --- reading --------------------------------------------------------------------------------------------


def read_manifest(archive: zipfile.ZipFile) -> Manifest:
    """Return what a backup says of itself.

    Raises:
        BackupUnusable: It is no backup, or was made by a newer Setline.
    """
    try:
        if archive.getinfo(MANIFEST).file_size > _LONGEST_MANIFEST:
            raise BackupUnusable(say("backup-none"))
        given = json.loads(archive.read(MANIFEST))
        form = given["form"]
        manifest = Manifest(
            version=str(given["version"]),
            schema=str(given["schema"]),
            made_at=str(given["made_at"]),
            rows={str(name): int(count) for name, count in given["rows"].items()},
            checksums={str(name): str(checksum) for name, checksum in given["checksums"].items()},
        )
    except (KeyError, TypeError, ValueError, AttributeError):
        raise BackupUnusable(say("backup-none")) from None
    if form != FORM or manifest.schema > HEAD:
        raise BackupUnusable(say("backup-newer", version=manifest.version))
    return manifest
