"""Stores to test with: the same tests on SQLite and on a PostgreSQL server."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from tests.field_book.postgres import fresh_database, postgres_server

from setline.field_book.database import Database
from setline.field_book.photos import Photos
from setline.field_book.store import Store

KINDS = ["sqlite", pytest.param("postgresql", marks=pytest.mark.system)]


@pytest.fixture(scope="session")
def server() -> Iterator[str]:
    """The URL of a PostgreSQL server that runs while the tests do."""
    with postgres_server() as url:
        yield url


@pytest.fixture
def make_url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Callable[[str], str]]:
    """A way to get the URL of an empty database of a kind."""
    with ExitStack() as stack:
        count = iter(range(100))

        def make(kind: str) -> str:
            if kind == "sqlite":
                return f"sqlite:///{tmp_path / f'store-{next(count)}.db'}"
            return stack.enter_context(fresh_database(request.getfixturevalue("server")))

        yield make


@pytest.fixture(params=KINDS)
def url(request: pytest.FixtureRequest, make_url: Callable[[str], str]) -> str:
    """The URL of an empty database, of each kind in turn."""
    return make_url(request.param)


@pytest.fixture
def store(url: str, tmp_path: Path) -> Iterator[Store]:
    """An empty store on each kind of database, with a folder for photos."""
    database = Database(url)
    yield Store(database, Photos(database, tmp_path / "photos"))
    database.close()
