"""A job as it stands, its plan and how sure it is: worked out once a revision and kept."""

from __future__ import annotations

import logging
import threading
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any, TypeVar

from setline import doubts, plan
from setline.errors import SetlineError
from setline.field_book.entry import Entry
from setline.field_book.fold import Folded, fold
from setline.field_book.live import live_entries
from setline.field_book.store import Store
from setline.job.job import Job, tape_of
from setline.result import Doubts, Plan
from setline.rules import RuleBook, rule_book
from setline.wording import say

__all__ = ["Planner", "Standing"]

MOST_KEPT = 24
T = TypeVar("T")


@dataclass
class Standing:
    """A job as it stands at one revision.

    Attributes:
        job_id: The job's id in the store.
        revision: How many entries it is made of.
        entries: Those entries, as they arrived.
        folded: What they make.
    """

    job_id: str
    revision: int
    entries: tuple[Entry, ...]
    folded: Folded
    _lock: threading.Lock = field(default_factory=threading.Lock, repr=False, init=False)
    _remembered: dict[str, Any] = field(default_factory=dict, repr=False, init=False)

    @cached_property
    def live(self) -> dict[str, tuple[Entry, ...]]:
        """Place -> the entries that count there; not to be changed."""
        return live_entries(self.entries)

    @property
    def job(self) -> Job | None:
        """The job, or None while its entries do not make one."""
        return self.folded.job

    @property
    def name(self) -> str:
        """What the job is called, even while it is no whole job."""
        return str(self.folded.document.get("job", {}).get("name", self.job_id))

    @cached_property
    def trouble(self) -> str | None:
        """Why there is no plan, where the job itself is whole but cannot be planned; else None."""
        return self._planned[1]

    @cached_property
    def plan(self) -> Plan | None:
        """The plan, or None where there is none yet."""
        return self._planned[0]

    @cached_property
    def _planned(self) -> tuple[Plan | None, str | None]:
        """The plan, or why there is none."""
        with self._lock:
            if self.job is None:
                return None, None
            try:
                return plan(self.job), None
            except SetlineError as refused:
                return None, str(refused)
            except Exception:  # a fault of ours: the readings are safe, and the page must say so
                logging.getLogger(__name__).exception("no plan of job %s", self.job_id)
                return None, say("plan-failed", count=self.revision)

    @cached_property
    def book(self) -> RuleBook | None:
        """The rules the job works by."""
        return None if self.job is None else rule_book(self.job.rules, tape=tape_of(self.job))

    @cached_property
    def doubts(self) -> Doubts | None:
        """How sure the plan is; slower, so only asked for where it is shown."""
        planned = self.plan
        with self._lock:
            return None if self.job is None or planned is None else doubts(self.job, planned)

    def remembered(self, name: str, make: Callable[[], T]) -> T:
        """Return what was worked out of the job under a name, made once and kept as long as it stands so."""
        if name not in self._remembered:
            self._remembered[name] = make()
        kept: T = self._remembered[name]
        return kept


class Planner:
    """Jobs as they stand, the newest revision of each kept.

    Args:
        store: Where the entries are.
    """

    def __init__(self, store: Store) -> None:
        self._store = store
        self._kept: OrderedDict[str, Standing] = OrderedDict()
        self._lock = threading.Lock()

    def standing(self, job_id: str) -> Standing:
        """Return a job as it stands.

        Raises:
            NotInStore: There is no such job.
        """
        revision = self._store.revision(job_id)
        with self._lock:
            kept = self._kept.get(job_id)
            if kept is not None and kept.revision == revision:
                self._kept.move_to_end(job_id)
                return kept
        entries = self._store.entries(job_id)
        standing = Standing(job_id=job_id, revision=len(entries), entries=entries, folded=fold(entries))
        with self._lock:
            self._kept[job_id] = standing
            self._kept.move_to_end(job_id)
            while len(self._kept) > MOST_KEPT:
                self._kept.popitem(last=False)
        return standing

    def with_entries(self, standing: Standing, more: tuple[Entry, ...]) -> Standing:
        """Return the job as it would stand with some entries more; nothing is kept."""
        entries = (*standing.entries, *more)
        return replace(standing, entries=entries, folded=fold(entries))

    def of(self, standing: Standing, entries: tuple[Entry, ...]) -> Standing:
        """Return the job as it would stand with these entries alone; nothing is kept."""
        return replace(standing, revision=len(entries), entries=entries, folded=fold(entries))
