"""The database under the store: SQLite by default, PostgreSQL by URL; opened, set up and brought up to date.

SQLite runs in WAL mode with ``synchronous=FULL``: an entry that was acknowledged is on the disk. Writers take
``BEGIN IMMEDIATE``, since a reader that turns writer half-way can lose another's write. Before a schema is
upgraded, all of the store is copied into a file that can be gone back to.
"""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, inspect, text
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, NoSuchModuleError, SQLAlchemyError
from sqlalchemy.pool import QueuePool

from setline.field_book.faults import StoreBusy, StoreUnusable
from setline.field_book.refusals import told
from setline.field_book.tables import METADATA
from setline.wording import say

__all__ = ["HEAD", "Database"]

HEAD = "0001"  # the newest migration; a test holds it against the folder

_PRAGMAS = ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "busy_timeout=8000")
_PATIENCE = "-c lock_timeout=8000 -c idle_in_transaction_session_timeout=60000"
_READING = "setline_reading"
_TRIES = 3
_LONGEST_WAIT = 20


class Database:
    """An open database.

    Args:
        url: An SQLAlchemy URL, ``sqlite:///...`` or ``postgresql+psycopg://...``.
        keep_in: Where the copy before an upgrade goes; without it, beside an SQLite store, and for any other
            in the user's data folder.
        most_pages: For tests: SQLite's limit on pages, to fill the disk without filling it.

    Raises:
        StoreUnusable: It cannot be opened, holds something else, or was made by a newer Setline.
        StoreFull: It had to be upgraded, and there is no room for the copy before.
    """

    def __init__(self, url: str, *, keep_in: Path | None = None, most_pages: int | None = None) -> None:
        self._most_pages = most_pages
        self._url = _read_url(url)
        self._keep_in = keep_in
        self._writer = threading.Lock()
        self.is_sqlite = self._url.get_backend_name() == "sqlite"
        try:
            self.engine = self._open()
        except ImportError:
            raise StoreUnusable(say("store-no-driver", driver=self._url.get_driver_name())) from None
        try:
            with told(opening=True):
                self._bring_up_to_date()
        except BaseException:
            self.close()
            raise

    @property
    def file(self) -> Path | None:
        """The SQLite file, or None."""
        return Path(str(self._url.database)) if self.is_sqlite else None

    def _open(self) -> Engine:
        """Return an engine for the URL, with this store's settings."""
        if not self.is_sqlite:
            given = self._url.query.get("options", "")
            options = f"{given if isinstance(given, str) else ' '.join(given)} {_PATIENCE}".strip()
            url = self._url.update_query_dict({"options": options, "connect_timeout": "10"})
            return create_engine(url, pool_pre_ping=True, pool_size=10, max_overflow=20, pool_timeout=20)
        engine = create_engine(self._url, poolclass=QueuePool, pool_size=8, max_overflow=24, pool_timeout=20)
        event.listen(engine, "connect", self._set_up_sqlite)
        event.listen(engine, "begin", _begin)
        return engine

    def _set_up_sqlite(self, connection: Any, _record: Any) -> None:
        """Set up one connection; transactions are begun by ``_begin`` alone."""
        connection.isolation_level = None
        for pragma in _PRAGMAS:
            connection.execute(f"PRAGMA {pragma}")
        if self._most_pages is not None:
            connection.execute(f"PRAGMA max_page_count={self._most_pages}")

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give a connection that writes nothing and sees one state of the store throughout.

        Raises:
            StoreUnusable: The database is gone or broken.
        """
        options: dict[str, Any] = {_READING: True}
        if not self.is_sqlite:
            options["isolation_level"] = "REPEATABLE READ"
        with told(), self.engine.connect() as plain:
            connection = plain.execution_options(**options)
            with connection.begin():
                yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Give a connection inside a transaction, kept when the block ends well.

        Raises:
            StoreFull: The disk has no room; nothing of the block was kept.
            StoreBusy: Others held the store too long; nothing of the block was kept.
            StoreUnusable: The database is gone or broken; nothing of the block was kept.
        """
        with self._turn(), told(), self.engine.begin() as connection:
            yield connection

    @contextmanager
    def _turn(self) -> Iterator[None]:
        """Wait for a turn to write.

        SQLite lets one write at a time, and its own way of waiting is to try again after ever longer naps.
        Among the threads of this program a lock hands the turn on at once.
        """
        if not self.is_sqlite:
            yield
            return
        if not self._writer.acquire(timeout=_LONGEST_WAIT):
            raise StoreBusy(say("store-busy"))
        try:
            yield
        finally:
            self._writer.release()

    def revision(self) -> str | None:
        """Return the migration the database stands at, or None for an empty one."""
        with self.reading() as connection:
            if not inspect(connection).has_table("alembic_version"):
                return None
            found = connection.execute(text("SELECT version_num FROM alembic_version")).scalar()
            return None if found is None else str(found)

    def _bring_up_to_date(self) -> None:
        """Run the migrations that are missing. Alembic is slow to import, so it is only when one is."""
        stands_at = self.revision()
        if stands_at == HEAD:
            return
        if stands_at is None:
            self._check_empty()
        elif stands_at > HEAD:
            raise StoreUnusable(say("store-newer", stands_at=stands_at, head=HEAD))
        else:
            from setline.field_book.before_upgrade import keep_a_copy

            keep_a_copy(self, stands_at, HEAD, self._keep_in)
        from setline.field_book.migrations import upgrade

        for tries_left in reversed(range(_TRIES)):
            try:
                with self.writing() as connection:
                    upgrade(connection)
                return
            except StoreBusy:  # another program is at it, on a slow machine
                if self.revision() == HEAD:
                    return
                if not tries_left:
                    raise

    def _check_empty(self) -> None:
        """Refuse a database that holds something else, so that nobody's tables are mixed with ours."""
        with self.reading() as connection:
            found = set(inspect(connection).get_table_names())
            if (found if self.is_sqlite else found & set(METADATA.tables)) and self._still_without_version():
                raise StoreUnusable(say("store-holds-else", table=min(found)))

    def _still_without_version(self) -> bool:
        """Return whether nobody else has made the tables meanwhile."""
        return self.revision() is None

    def close(self) -> None:
        """Close every connection."""
        self.engine.dispose()


def _read_url(url: str) -> URL:
    """Return the URL, of one of the two kinds of database that are tested.

    Raises:
        StoreUnusable: It is none; a password in it is not repeated.
    """
    try:
        made = make_url(url)
        backend = made.get_backend_name()
    except (ArgumentError, NoSuchModuleError, SQLAlchemyError, ValueError):
        raise StoreUnusable(say("store-url")) from None
    if backend == "postgresql" and made.drivername == "postgresql":
        return made.set(drivername="postgresql+psycopg")
    if made.drivername not in ("sqlite", "sqlite+pysqlite", "postgresql+psycopg"):
        raise StoreUnusable(say("store-url"))
    if backend == "sqlite" and made.database in (None, "", ":memory:"):  # each connection would have its own
        raise StoreUnusable(say("store-url"))
    return made


def _begin(connection: Connection) -> None:
    """Begin as a writer from the start, or as a reader that sees one state."""
    is_reading = connection.get_execution_options().get(_READING, False)
    connection.exec_driver_sql("BEGIN" if is_reading else "BEGIN IMMEDIATE")
