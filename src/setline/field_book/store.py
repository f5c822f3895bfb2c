"""The store: entries kept for good, and jobs as sets of them.

Adding is safe to repeat: an entry that the store holds is acknowledged again. What was acknowledged is on the
disk, whatever happens next; posts that wait for the disk at the same time share one commit (``posts``).
Nothing here knows what an entry means; that is ``fold``'s.
"""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import Connection, delete, func, select, update

from setline.field_book.database import Database
from setline.field_book.entry import Entry
from setline.field_book.faults import NotInStore
from setline.field_book.photos import Photos
from setline.field_book.posts import Kept, Posts
from setline.field_book.rows import to_entry
from setline.field_book.tables import devices, jobs, links, photos, prints
from setline.field_book.tables import entries as entry_table
from setline.wording import say

__all__ = ["Store"]


class Store:
    """Entries by job, on top of a database.

    Args:
        database: An open database.
        photos: The photos that go with it; without them, a job is deleted without any.
    """

    def __init__(self, database: Database, photos: Photos | None = None) -> None:
        self.database = database
        self.photos = photos
        self._posts = Posts(database)

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
        return self.keep(entries, made_at=made_at).new

    def keep(self, entries: Sequence[Entry], *, made_at: str = "") -> Kept:
        """Keep some entries as ``add`` does, and return also how far their jobs have come with them.

        Raises:
            EntryRefused: As in ``add``.
            NotInStore: As in ``add``.
            StoreFull: As in ``add``.
        """
        return self._posts.keep(entries, made_at)

    def entries(self, job: str, *, since: int = 0) -> tuple[Entry, ...]:
        """Return a job's entries in the order they arrived, those after ``since`` if given.

        Raises:
            NotInStore: There is no such job.
        """
        query = select(entry_table).where(entry_table.c.job == job, entry_table.c.seq > since)
        with self.database.reading() as connection:
            _check_job(connection, job)
            return tuple(
                to_entry(row) for row in connection.execute(query.order_by(entry_table.c.seq)).mappings()
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
                to_entry(row) for row in connection.execute(query.order_by(entry_table.c.seq)).mappings()
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
