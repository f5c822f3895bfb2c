"""PDFs made in the background, one at a time, so that no page waits for one; the last few are kept."""

from __future__ import annotations

import logging
import threading
from collections import OrderedDict
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from enum import StrEnum

__all__ = ["STEPS", "Maker", "Making", "State"]

MOST_KEPT = 12
STEPS = ("waiting", "odds", "pages", "ready")
"""What is being done, in order."""

Work = Callable[[Callable[[str], None]], bytes]


class State(StrEnum):
    """How far a PDF is."""

    WORKING = "working"
    READY = "ready"
    FAILED = "failed"


@dataclass
class Making:
    """A PDF that is made, or was.

    Attributes:
        key: Its name in its address.
        job: The job's id.
        title: What it is called.
        file: Its file's name.
        state: How far it is.
        step: What is being done.
        check_code: The check code of its plan.
        pdf: The PDF once it is ready.
    """

    key: str
    job: str
    title: str
    file: str
    state: State = State.WORKING
    step: str = "waiting"
    check_code: str = ""
    pdf: bytes = field(default=b"", repr=False)

    @property
    def steps_done(self) -> int:
        """How many of the steps are done."""
        return STEPS.index(self.step)


class Maker:
    """Makes PDFs one after the other."""

    def __init__(self) -> None:
        self._pool = ThreadPoolExecutor(max_workers=1, thread_name_prefix="making")
        self._kept: OrderedDict[str, Making] = OrderedDict()
        self._lock = threading.Lock()

    def ask(self, making: Making, work: Work, then: Callable[[], None]) -> Making:
        """Begin a PDF, or return the one of the same key that is made or ready.

        Args:
            making: What it is called.
            work: Makes it; told a function to call with the name of each step it comes to.
            then: Called once it is ready, or cannot be.
        """
        with self._lock:
            known = self._kept.get(making.key)
            if known is not None and known.state is not State.FAILED:
                self._kept.move_to_end(making.key)
                return known
            self._kept[making.key] = making
            self._kept.move_to_end(making.key)
            done = [key for key, each in self._kept.items() if each.state is not State.WORKING]
            for key in done[: max(0, len(self._kept) - MOST_KEPT)]:
                del self._kept[key]
        self._pool.submit(self._run, making, work, then)
        return making

    def _run(self, making: Making, work: Work, then: Callable[[], None]) -> None:
        """Make one PDF."""

        def step(name: str) -> None:
            making.step = name

        try:
            making.pdf = work(step)
            making.step = "ready"
            making.state = State.READY
        except Exception:  # a fault of ours: the page must say so, and the next one be made
            logging.getLogger(__name__).exception("no PDF of job %s", making.job)
            making.state = State.FAILED
        then()

    def of_job(self, job: str) -> tuple[Making, ...]:
        """Return the PDFs of a job, the newest first."""
        with self._lock:
            return tuple(each for each in reversed(self._kept.values()) if each.job == job)

    def find(self, job: str, key: str) -> Making | None:
        """Return one PDF of a job, or None."""
        with self._lock:
            found = self._kept.get(key)
        return found if found is not None and found.job == job else None
