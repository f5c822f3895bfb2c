"""Posts of entries on their way into the store: those that wait at the same time share one commit.

A commit waits for the disk, and the disk takes as long for fifty posts as for one. So whoever has the turn
keeps all that wait, in the order they came, in one transaction; the others find their post answered when
their turn comes. No post is answered before the commit that holds it. Each is judged by itself: one that is
refused leaves the others in, and where the transaction as a whole fails, each is tried alone.
"""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sqlalchemy import Connection, bindparam, func, insert, select
from sqlalchemy.exc import IntegrityError

from setline.field_book.database import Database
from setline.field_book.entry import Entry
from setline.field_book.faults import EntryRefused, NotInStore, StoreBusy, StoreUnusable
from setline.field_book.rows import to_entry, to_row
from setline.field_book.tables import entries as entry_table
from setline.field_book.tables import jobs
from setline.wording import say

__all__ = ["Kept", "Posts"]

_AT_A_TIME = 200  # names in one query; SQLite's own limit is far above
_TRIES = 4

# Put together once, since a crew asks for these all day.
_HELD_JOB = select(jobs.c.is_deleted).where(jobs.c.id == bindparam("job")).with_for_update()
_BY_ID = select(entry_table).where(entry_table.c.id.in_(bindparam("ids", expanding=True)))
_COUNT = select(func.count()).select_from(entry_table).where(entry_table.c.job == bindparam("job"))
_ADD = insert(entry_table)
_ADD_JOB = insert(jobs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """What came of a post.

    Attributes:
        new: How many of its entries were new.
        revisions: How many entries each of its jobs has with it.
    """

    new: int
    revisions: dict[str, int]


@dataclass(slots=True, eq=False)
class _Post:
    """Entries that somebody waits to be kept: all of them or none."""

    entries: dict[str, Entry]
    made_at: str
    answer: Kept | None = None
    refusal: Exception | None = None

    @property
    def is_answered(self) -> bool:
        return self.answer is not None or self.refusal is not None

    @property
    def jobs(self) -> set[str]:
        return {entry.job for entry in self.entries.values()}


class Posts:
    """The way into the store.

    Args:
        database: An open database.
    """

    def __init__(self, database: Database) -> None:
        self._database = database
        self._waiting: deque[_Post] = deque()
        self._turn = threading.Lock()

    @property
    def waiting(self) -> int:
        """How many posts wait for the next commit."""
        return len(self._waiting)

    def keep(self, entries: Sequence[Entry], made_at: str) -> Kept:
        """Keep some entries with all that wait beside them; return once they are on the disk.

        Args:
            entries: Entries of any jobs; a job that is not there is made.
            made_at: When, for a job that is made.

        Raises:
            EntryRefused: An id has another content, here or in the store; none of the entries was kept.
            NotInStore: A job was deleted; none was kept.
            StoreFull: No room on the disk; none was kept.
            StoreBusy: Others held the store too long; none was kept.
        """
        unique = {entry.id: entry for entry in entries}
        if any(unique[entry.id] != entry for entry in entries):
            raise EntryRefused(say("entry-id-twice"))
        post = _Post(unique, made_at)
        self._waiting.append(post)
        with self._turn:
            if not post.is_answered:
                self._take_turn()
        if post.refusal is not None:
            raise post.refusal
        assert post.answer is not None, "a post that was taken up is answered"
        return post.answer

    def _take_turn(self) -> None:
        """Answer every post that waits by now."""
        posts = [self._waiting.popleft() for _ in range(len(self._waiting))]
        try:
            self._answer(posts)
        finally:  # where this thread is being stopped, whoever has the next turn takes the rest up
            self._waiting.extendleft(post for post in reversed(posts) if not post.is_answered)

    def _answer(self, posts: Sequence[_Post]) -> None:
        """Keep some posts, or say of each why not."""
        try:
            self._keep(posts)
        except (StoreBusy, StoreUnusable) as refused:  # alone each would wait as long again
            for post in posts:
                post.refusal = type(refused)(*refused.args)
        except Exception as refused:
            if len(posts) == 1:
                posts[0].refusal = refused
                return
            for post in posts:
                self._answer([post])

    def _keep(self, posts: Sequence[_Post]) -> None:
        """Keep some posts in one transaction, and answer them once it is on the disk."""
        for _ in range(_TRIES):
            try:
                with self._database.writing() as connection:
                    answers = _write(connection, posts)
            except IntegrityError:  # another program made the job, or kept some of these, a moment ago
                continue
            for post, answer in zip(posts, answers, strict=True):
                if isinstance(answer, Kept):
                    post.answer = answer
                else:
                    post.refusal = answer
            return
        raise StoreBusy(say("store-busy"))


def _write(connection: Connection, posts: Sequence[_Post]) -> list[Kept | Exception]:
    """Write what is new of some posts; return the answer to each, good once this is committed."""
    is_deleted = _held_jobs(connection, {job for post in posts for job in post.jobs})
    kept = {
        entry.id: entry for entry in _by_id(connection, [name for post in posts for name in post.entries])
    }
    answers: list[list[Entry] | Exception] = []
    new_jobs: dict[str, str] = {}
    for post in posts:
        answer = _judged(post, is_deleted, kept)
        answers.append(answer)
        if not isinstance(answer, Exception):
            kept |= post.entries
            for job in sorted(post.jobs - is_deleted.keys()):
                new_jobs.setdefault(job, post.made_at)
    if new_jobs:
        rows = [{"id": job, "made_at": new_jobs[job], "is_deleted": False} for job in sorted(new_jobs)]
        connection.execute(_ADD_JOB, rows)
    new = [to_row(entry) for answer in answers if isinstance(answer, list) for entry in answer]
    if new:
        connection.execute(_ADD, new)
    count = {job: connection.execute(_COUNT, {"job": job}).scalar_one() for job in is_deleted | new_jobs}
    return [
        answer
        if isinstance(answer, Exception)
        else Kept(new=len(answer), revisions={job: count[job] for job in post.jobs})
        for post, answer in zip(posts, answers, strict=True)
    ]


def _judged(post: _Post, is_deleted: dict[str, bool], kept: dict[str, Entry]) -> list[Entry] | Exception:
    """Return what is new of a post, or why none of it is kept."""
    for job in sorted(post.jobs):
        if is_deleted.get(job):
            return NotInStore(say("job-deleted", job=job))
    for name, entry in post.entries.items():
        if kept.get(name, entry) != entry:
            return EntryRefused(say("entry-id-taken", id=name))
    return [entry for name, entry in post.entries.items() if name not in kept]


def _held_jobs(connection: Connection, names: set[str]) -> dict[str, bool]:
    """Hold the jobs that are there until the transaction ends; return whether each was deleted.

    Holding them lets writers of one job in one by one, so that ``seq`` grows in the order in which entries
    can be seen. SQLite has one writer at a time anyhow.
    """
    found = {job: connection.execute(_HELD_JOB, {"job": job}).scalar() for job in sorted(names)}
    return {job: is_deleted for job, is_deleted in found.items() if is_deleted is not None}


def _by_id(connection: Connection, ids: Sequence[str]) -> Iterator[Entry]:
    """Yield the entries that are kept, of some ids."""
    for start in range(0, len(ids), _AT_A_TIME):
        found = connection.execute(_BY_ID, {"ids": ids[start : start + _AT_A_TIME]})
        yield from map(to_entry, found.mappings())
