"""Planning the inch sample, warm: every stage from readings to findings."""

from __future__ import annotations

from pathlib import Path

from bench.measure import BenchRow, median_seconds
from setline import load_job, plan

SAMPLE = Path(__file__).parents[1] / "examples" / "larkspur-street.toml"


def run() -> list[BenchRow]:
    """Return how long a warm plan takes."""
    job = load_job(SAMPLE)
    took = median_seconds(lambda: plan(job), 15)
    return [BenchRow(what="plan() of the inch sample, warm", seconds=took, goal="50 ms")]
