"""What a benchmark hands on: medians and the ratios that must be reached, all from one run."""

from __future__ import annotations

import gc
from collections.abc import Callable
from dataclasses import dataclass
from statistics import median
from time import perf_counter

__all__ = ["BenchRow", "median_seconds", "seconds"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchRow:
    """One line of the table.

    Attributes:
        what: What was timed.
        seconds: Median time, or None where the line is a ratio alone.
        against: What the ratio compares with, if there is one.
        ratio: How many times better than that; greater is better.
        reach: Ratio that has to be reached; None if it is only printed.
        goal: A time to reach, as words; printed, never judged, since machines differ.
    """

    what: str
    seconds: float | None = None
    against: str = ""
    ratio: float | None = None
    reach: float | None = None
    goal: str = ""

    @property
    def is_reached(self) -> bool:
        """Whether the ratio is as great as it has to be."""
        return self.ratio is None or self.reach is None or self.ratio >= self.reach


def seconds(call: Callable[[], object]) -> float:
    """Return how long a call takes, the collector of garbage kept out of it."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        start = perf_counter()
        call()
        return perf_counter() - start
    finally:
        if collecting:
            gc.enable()


def median_seconds(call: Callable[[], object], times: int) -> float:
    """Return the median time of a call, after one that does not count."""
    call()
    return median(seconds(call) for _ in range(times))
