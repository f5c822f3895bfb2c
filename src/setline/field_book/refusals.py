"""What a database says when it cannot go on, by its codes, in our words."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DBAPIError, IntegrityError
from sqlalchemy.exc import TimeoutError as PoolTimeout

from setline.field_book.faults import StoreBusy, StoreError, StoreFull, StoreUnusable
from setline.wording import say

__all__ = ["told"]

# SQLite's result codes: the plain one in the low byte, what more is known above it.
_FULL, _BUSY, _LOCKED, _IO = 13, 5, 6, 10
_IO_BY_ROOM = frozenset({_IO | 3 << 8, _IO | 4 << 8, _IO | 19 << 8})  # write, sync, shared memory's size

# PostgreSQL's SQLSTATE.
_PG_FULL = frozenset({"53100"})
_PG_BUSY = frozenset({"55P03", "40P01", "40001", "57014", "53300"})  # locks, deadlock, too many connections


@contextmanager
def told(*, opening: bool = False) -> Iterator[None]:
    """Turn the database's own words into ours.

    Args:
        opening: Whether the store is being opened: then anything that is refused makes it unusable.

    Raises:
        StoreFull: The disk has no room.
        StoreBusy: Others held the store too long.
        StoreUnusable: Anything else that the database refuses by itself.
    """
    try:
        yield
    except IntegrityError as refused:
        if not opening:
            raise  # two writers met: whoever was writing knows what to do
        raise _in_our_words(refused.orig) from refused
    except DBAPIError as refused:
        raise _in_our_words(refused.orig) from refused
    except sqlite3.Error as refused:  # while a connection is set up SQLAlchemy hands these through
        raise _in_our_words(refused) from refused
    except PoolTimeout as refused:
        raise StoreBusy(say("store-busy")) from refused


def _in_our_words(refused: BaseException | None) -> StoreError:
    """Return our fault for the database's."""
    number = getattr(refused, "sqlite_errorcode", None)
    state = getattr(refused, "sqlstate", None)
    if isinstance(number, int):
        if number & 0xFF == _FULL or number in _IO_BY_ROOM:
            return StoreFull(say("store-full"))
        if number & 0xFF in (_BUSY, _LOCKED):
            return StoreBusy(say("store-busy"))
    if state in _PG_FULL:
        return StoreFull(say("store-full"))
    if state in _PG_BUSY:
        return StoreBusy(say("store-busy"))
    lines = str(refused).strip().splitlines()
    return StoreUnusable(say("store-unusable", reason=lines[0].rstrip(".") if lines else state or number))
