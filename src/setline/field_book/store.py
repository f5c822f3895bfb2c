"""The store: entries kept for good, and jobs as sets of them.

Adding is safe to repeat: an entry that the store holds is acknowledged again. What was acknowledged is on the
disk, whatever happens next. Nothing here knows what an entry means; that is ``fold``'s.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any

from sqlalchemy import Connection, RowMapping, bindparam, delete, func, insert, select, update
from sqlalchemy.exc import IntegrityError

from setline.field_book.database import Database
from setline.field_book.entry import Entry, entry_to_dict
from setline.field_book.faults import EntryRefused, NotInStore, StoreBusy
from setline.field_book.photos import Photos
from setline.field_book.tables import devices, jobs, links, photos, prints
from setline.field_book.tables import entries as entry_table
from setline.wording import say

__all__ = ["Store"]

_AT_A_TIME = 200  # names in one query; SQLite's own limit is far above
_TRIES = 4

# Put together once, since a crew asks for these all day.
_HELD_JOB = select(jobs.c.is_deleted).where(jobs.c.id == bindparam("job")).with_for_update()
_BY_ID = select(entry_table).where(entry_table.c.id.in_(bindparam("ids", expanding=True)))
_ADD = insert(entry_table)


class Store:
    """Entries by job, on top of a database.

    Args:
        database: An open database.
        photos: The photos that go with it; without them, a job is deleted without any.
    """

    def __init__(self, database: Database, photos: Photos | None = None) -> None:
        self.database = database
        self.photos = photos

    def add(self, entries: Sequence[Entry], *, made_at: str = "") -> int:
        """Keep some entries; those that are kept already are left as they are.

        Args:
            entries: Entries of any jobs; a job that is not there is made.
            made_at: When, for a job that is made.

        Returns:
            How many were new.

        Raises:
            EntryRefused: An id is in the store with another content; none of the entries was kept.
            NotInStore: The job was deleted; none was kept.
            StoreFull: No room on the disk; none was kept.
        """
        unique = {entry.id: entry for entry in entries}
        if any(unique[entry.id] != entry for entry in entries):
            raise EntryRefused(say("entry-id-twice"))
        for _ in range(_TRIES):
            try:
                return self._add(unique, made_at)
            except IntegrityError:  # another writer made the job, or kept some of these, a moment ago
                continue
        raise StoreBusy(say("store-busy"))

    def _add(self, unique: dict[str, Entry], made_at: str) -> int:
        """Keep what is not there yet, in one transaction."""
        with self.database.writing() as connection:
            for job in sorted({entry.job for entry in unique.values()}):
                _need_job(connection, job, made_at)
            kept = {entry.id: entry for entry in _by_id(connection, list(unique))}
            for entry_id, entry in kept.items():
                if entry != unique[entry_id]:
                    raise EntryRefused(say("entry-id-taken", id=entry_id))
            new = [_to_row(entry) for entry_id, entry in unique.items() if entry_id not in kept]
            if new:
                connection.execute(_ADD, new)
            return len(new)

    def entries(self, job: str, *, since: int = 0) -> tuple[Entry, ...]:
        """Return a job's entries in the order they arrived, those after ``since`` if given.

        Raises:
            NotInStore: There is no such job.
        """
        query = select(entry_table).where(entry_table.c.job == job, entry_table.c.seq > since)
        with self.database.reading() as connection:
            _check_job(connection, job)
            return tuple(
                _to_entry(row) for row in connection.execute(query.order_by(entry_table.c.seq)).mappings()
            )

    def revision(self, job: str) -> int:
        """Return how many entries a job has: it grows with every one that is kept.

        Raises:
            NotInStore: There is no such job.
        """
        with self.database.reading() as connection:
            _check_job(connection, job)
            query = select(func.count()).select_from(entry_table).where(entry_table.c.job == job)
            return int(connection.execute(query).scalar_one())

    def history(self, job: str, place: str) -> tuple[Entry, ...]:
        """Return every entry at one place, as they arrived: who wrote what, and what was taken back.

        Raises:
            NotInStore: There is no such job.
        """
        query = select(entry_table).where(entry_table.c.job == job, entry_table.c.place == place)
        with self.database.reading() as connection:
            _check_job(connection, job)
            return tuple(
                _to_entry(row) for row in connection.execute(query.order_by(entry_table.c.seq)).mappings()
            )

    def job_ids(self) -> tuple[str, ...]:
        """Return the jobs that are not deleted, by when they were made."""
        query = select(jobs.c.id).where(~jobs.c.is_deleted).order_by(jobs.c.made_at, jobs.c.id)
        with self.database.reading() as connection:
            return tuple(connection.execute(query).scalars())

    def delete_job(self, job: str) -> None:
        """Delete a job with everything of it, its photos too, but its id: a late entry cannot raise it again.

        Raises:
            NotInStore: There is no such job.
        """
        with self.database.writing() as connection:
            _check_job(connection, job)
            held = connection.execute(select(photos.c.id).where(photos.c.job == job)).scalars().all()
            for table in (entry_table, photos, prints, links):
                connection.execute(delete(table).where(table.c.job == job))
            connection.execute(delete(devices).where(devices.c.job == job))  # guests of this job alone
            connection.execute(update(jobs).where(jobs.c.id == job).values(is_deleted=True))
        if self.photos is not None:
            self.photos.remove_files(held)

    def close(self) -> None:
        """Close the database."""
        self.database.close()


def _check_job(connection: Connection, job: str) -> None:
    """Refuse a job that is not there or was deleted."""
    row = connection.execute(select(jobs.c.is_deleted).where(jobs.c.id == job)).scalar()
    if row is None:
        raise NotInStore(say("no-such-job", job=job))
    if row:
        raise NotInStore(say("job-deleted", job=job))


def _need_job(connection: Connection, job: str, made_at: str) -> None:
    """Make a job that is not there and hold it until the transaction ends; refuse one that was deleted.

    Holding it lets writers of one job in one by one, so that ``seq`` grows in the order in which entries can
    be seen. SQLite has one writer at a time anyhow.
    """
    is_deleted = connection.execute(_HELD_JOB, {"job": job}).scalar()
    if is_deleted is None:
        connection.execute(insert(jobs), [{"id": job, "made_at": made_at, "is_deleted": False}])
    if is_deleted:
        raise NotInStore(say("job-deleted", job=job))


def _by_id(connection: Connection, ids: Sequence[str]) -> Iterable[Entry]:
    """Yield the entries that are kept, of some ids."""
    for start in range(0, len(ids), _AT_A_TIME):
        found = connection.execute(_BY_ID, {"ids": ids[start : start + _AT_A_TIME]})
        yield from map(_to_entry, found.mappings())


def _to_row(entry: Entry) -> dict[str, Any]:
    """Return an entry as the table has it."""
    return {
        **entry_to_dict(entry),
        "n": str(entry.n),
        "over": json.dumps(list(entry.over)),
        "value": json.dumps(entry.value, ensure_ascii=False, sort_keys=True),
    }


def _to_entry(row: RowMapping) -> Entry:
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
