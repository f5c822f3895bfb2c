"""Posts that share a commit: each judged by itself, in order, and none answered before it is on the disk."""

from __future__ import annotations

import threading
from collections.abc import Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import contextmanager

import pytest
from sqlalchemy import Connection, func, select
from tests.field_book.writing import SPOT, entry

from setline.field_book.database import Database
from setline.field_book.entry import Entry
from setline.field_book.faults import EntryRefused, NotInStore, StoreBusy, StoreFull
from setline.field_book.store import Store
from setline.field_book.tables import entries

Ahead = Iterator[ThreadPoolExecutor]


@contextmanager
def _while_one_commits(store: Store, monkeypatch: pytest.MonkeyPatch) -> Ahead:
    """Hold the first post within its commit, so that all that are sent meanwhile wait together."""
    plain = store.database.writing
    held, go = threading.Event(), threading.Event()

    @contextmanager
    def writing() -> Iterator[Connection]:
        with plain() as connection:
            yield connection
            if not held.is_set():
                held.set()
                assert go.wait(10)

    monkeypatch.setattr(store.database, "writing", writing)
    with ThreadPoolExecutor(10) as pool:
        first = pool.submit(store.add, [entry(0, "/job/name", "first")])
        assert held.wait(10)
        yield pool
        go.set()
        assert first.result(20) == 1


def _send(store: Store, pool: ThreadPoolExecutor, posts: Sequence[Sequence[Entry]]) -> list[Future[int]]:
    """Send posts one after the other; each waits before the next is sent."""
    sent = []
    for count, post in enumerate(posts, start=1):
        sent.append(pool.submit(store.add, post))
        while store._posts.waiting < count:
            threading.Event().wait(0.002)
    return sent


def test_posts_that_wait_together_share_one_commit(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """What waits while the disk is busy is kept by the next commit, in the order it came."""
    commits: list[int] = []
    with _while_one_commits(store, monkeypatch) as pool:
        sent = _send(store, pool, [[entry(n, SPOT, str(n))] for n in range(1, 6)])
        held = store.database.writing

        @contextmanager
        def counted() -> Iterator[Connection]:
            commits.append(1)
            with held() as connection:
                yield connection

        monkeypatch.setattr(store.database, "writing", counted)
    assert [each.result(20) for each in sent] == [1] * 5
    assert [each.n for each in store.entries("j")] == list(range(6))
    assert len(commits) == 1


def test_one_that_is_refused_leaves_the_others_in(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of posts that wait together, one of another content and one of a deleted job are told so alone."""
    store.add([entry(9, SPOT, "48", job="gone", device="phone")])
    store.delete_job("gone")
    with _while_one_commits(store, monkeypatch) as pool:
        sent = _send(
            store,
            pool,
            [
                [entry(1, SPOT, "48")],
                [entry(2, SPOT, "47"), entry(1, SPOT, "another")],
                [entry(3, SPOT, "48", job="gone")],
                [entry(1, SPOT, "48"), entry(4, SPOT, "46")],
            ],
        )
    assert sent[0].result(20) == 1
    with pytest.raises(EntryRefused, match=r"truck\.1"):
        sent[1].result(20)
    with pytest.raises(NotInStore, match="deleted"):
        sent[2].result(20)
    assert sent[3].result(20) == 1
    assert [each.n for each in store.entries("j")] == [0, 1, 4]


def test_a_post_that_is_refused_makes_no_job(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    """A job that only a refused post asked for is not made by the commit of the others."""
    with _while_one_commits(store, monkeypatch) as pool:
        posts = [[entry(1, SPOT, "48")], [entry(1, SPOT, "47"), entry(2, SPOT, "x", job="new")]]
        sent = _send(store, pool, posts)
    assert sent[0].result(20) == 1
    with pytest.raises(EntryRefused):
        sent[1].result(20)
    assert store.job_ids() == ("j",)


def test_one_that_the_disk_has_no_room_for_leaves_the_others_in(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where a commit of many fails for want of room, each is tried alone."""
    with _while_one_commits(store, monkeypatch) as pool:
        posts = [[entry(1, SPOT, "48")], [entry(2, SPOT, "large")], [entry(3, SPOT, "46")]]
        sent = _send(store, pool, posts)
        _no_room_for(store.database, "large", monkeypatch)
    assert sent[0].result(20) == sent[2].result(20) == 1
    with pytest.raises(StoreFull):
        sent[1].result(20)
    assert [each.n for each in store.entries("j")] == [0, 1, 3]


def _no_room_for(database: Database, value: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the disk have no room for what holds a value: it is found out at the commit."""
    plain = database.writing

    @contextmanager
    def writing() -> Iterator[Connection]:
        with plain() as connection:
            yield connection
            found = connection.execute(select(func.count()).where(entries.c.value.contains(value)))
            if found.scalar_one():
                raise StoreFull("no room")

    monkeypatch.setattr(database, "writing", writing)


def test_a_store_that_is_held_too_long_is_told_to_all_that_wait(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Everybody is told, nothing is kept, and the same posts are taken once the store is free."""
    posts = [[entry(n, SPOT, str(n))] for n in (1, 2)]
    with _while_one_commits(store, monkeypatch) as pool:
        sent = _send(store, pool, posts)
        plain = store.database.writing

        @contextmanager
        def busy() -> Iterator[Connection]:
            with plain() as connection:
                yield connection
                raise StoreBusy("held")

        monkeypatch.setattr(store.database, "writing", busy)
    for each in sent:
        with pytest.raises(StoreBusy):
            each.result(20)
    monkeypatch.setattr(store.database, "writing", plain)
    assert [store.add(post) for post in posts] == [1, 1]


def test_a_thread_that_is_stopped_leaves_the_rest_to_the_next(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where whoever commits for all is stopped half-way, what waited is kept by the next turn, once."""
    plain = store.database.writing
    stops = iter([True])
    with _while_one_commits(store, monkeypatch) as pool:
        sent = _send(store, pool, [[entry(n, SPOT, str(n))] for n in (1, 2, 3)])

        @contextmanager
        def stopped_once() -> Iterator[Connection]:
            with plain() as connection:
                yield connection
                if next(stops, False):
                    raise KeyboardInterrupt

        monkeypatch.setattr(store.database, "writing", stopped_once)
    stopped = [each for each in sent if isinstance(each.exception(20), KeyboardInterrupt)]
    assert len(stopped) == 1
    assert [each.n for each in store.entries("j")] == [0, 1, 2, 3]


def test_an_answer_tells_how_far_each_job_has_come(store: Store) -> None:
    """The revision that is told is the one with the post in it, a repeated post's too."""
    first = [entry(1, SPOT, "48"), entry(2, SPOT, "48", job="other")]
    assert store.keep(first).revisions == {"j": 1, "other": 1}
    again = store.keep([*first, entry(3, SPOT, "47")])
    assert (again.new, again.revisions) == (1, {"j": 2, "other": 1})
    assert store.keep([]).revisions == {}
