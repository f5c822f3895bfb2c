"""The database under the store: SQLite by default, PostgreSQL by URL; opened, set up and brought up to date.

SQLite runs in WAL mode with ``synchronous=FULL``: an entry that was acknowledged is on the disk. Writers take
``BEGIN IMMEDIATE``, since a reader that turns writer half-way can lose another's write.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, inspect, text
from sqlalchemy.exc import DBAPIError, OperationalError
from sqlalchemy.pool import QueuePool

from setline.field_book.faults import StoreBusy, StoreFull, StoreUnusable
from setline.wording import say

__all__ = ["HEAD", "Database"]

HEAD = "0001"  # the newest migration; a test holds it against the folder

_PRAGMAS = ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "busy_timeout=8000")


class Database:
    """An open database.

    Args:
        url: An SQLAlchemy URL, ``sqlite:///...`` or ``postgresql+psycopg://...``.
        most_pages: For tests: SQLite's limit on pages, to fill the disk without filling it.
    """

    def __init__(self, url: str, *, most_pages: int | None = None) -> None:
        self.is_sqlite = url.startswith("sqlite")
        self._most_pages = most_pages
        try:
            self.engine = self._open(url)
            self._bring_up_to_date()
        except DBAPIError as refused:
            raise StoreUnusable(say("store-unusable", reason=str(refused.orig).strip())) from refused

    def _open(self, url: str) -> Engine:
        """Return an engine for the URL, with this store's settings."""
        if not self.is_sqlite:
            return create_engine(url, pool_pre_ping=True, pool_size=10, max_overflow=20)
        engine = create_engine(url, poolclass=QueuePool, pool_size=8, max_overflow=24, pool_timeout=20)
        event.listen(engine, "connect", self._set_up_sqlite)
        event.listen(engine, "begin", _begin_immediate)
        return engine

    def _set_up_sqlite(self, connection: Any, _record: Any) -> None:
        """Set up one connection; transactions are begun by ``_begin_immediate`` alone."""
        connection.isolation_level = None
        for pragma in _PRAGMAS:
            connection.execute(f"PRAGMA {pragma}")
        if self._most_pages is not None:
            connection.execute(f"PRAGMA max_page_count={self._most_pages}")

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give a connection that writes nothing."""
        options = {"isolation_level": "AUTOCOMMIT"}
        with _told(), self.engine.connect().execution_options(**options) as connection:
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Give a connection inside a transaction, kept when the block ends well.

        Raises:
            StoreFull: The disk has no room; nothing of the block was kept.
            StoreBusy: Others held the store too long; nothing of the block was kept.
        """
        with _told(), self.engine.begin() as connection:
            yield connection

    def revision(self) -> str | None:
        """Return the migration the database stands at, or None for an empty one."""
        with self.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
            if not inspect(connection).has_table("alembic_version"):
                return None
            found = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
            return None if found is None else str(found)

    def _bring_up_to_date(self) -> None:
        """Run the migrations that are missing. Alembic is slow to import, so it is only when one is."""
        stands_at = self.revision()
        if stands_at == HEAD:
            return
        if stands_at is not None and stands_at > HEAD:
            raise StoreUnusable(say("store-newer", stands_at=stands_at, head=HEAD))
        from setline.field_book.migrations import upgrade

        upgrade(self.engine)

    def close(self) -> None:
        """Close every connection."""
        self.engine.dispose()


def _begin_immediate(connection: Connection) -> None:
    """Begin as a writer from the start."""
    if connection.get_isolation_level() != "AUTOCOMMIT":
        connection.exec_driver_sql("BEGIN IMMEDIATE")


@contextmanager
def _told() -> Iterator[None]:
    """Turn the database's own words for *full* and *busy* into ours."""
    try:
        yield
    except OperationalError as refused:
        words = str(refused.orig).lower()
        if "full" in words or "disk" in words or "no space" in words:
            raise StoreFull(say("store-full")) from refused
        if "locked" in words or "busy" in words:
            raise StoreBusy(say("store-busy")) from refused
        raise
