"""Tops of boxes that are set, against the level line: which stand off it, and by how much."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from setline.job.job import Job
from setline.lengths import Units, show
from setline.result import Finding, ItemPlace, Rank, Remedy, RunPlan
from setline.rules import RuleBook
from setline.stages.floor.level_line import clearance_of
from setline.wording import say

__all__ = ["set_top_findings"]


def set_top_findings(job: Job, book: RuleBook, runs: Sequence[RunPlan]) -> Iterator[Finding]:
    """Yield every front corner of a set base box whose top stands off the level line.

    Off by more than ``set-top-off`` it is a watch; by more than a straightedge may show
    (``flatness-stone``) somebody has to choose.

    Args:
        job: The job.
        book: Its rules.
        runs: The runs as laid out.
    """
    clearance = clearance_of(job, book)
    for run in runs:
        for item in run.items:
            if run.row == "base" and item.top == 0 and item.as_set is not None:
                for side, below in (
                    ("left", item.as_set.below_line_left),
                    ("right", item.as_set.below_line_right),
                ):
                    if below is not None:
                        yield from _corner(run, item, side, clearance - below, book, job.job.tape)


def _corner(
    run: RunPlan, item: ItemPlace, side: str, high: int, book: RuleBook, units: Units
) -> Iterator[Finding]:
    """Yield one corner that stands off the line; ``high`` counts up."""
    if abs(high) <= book.length("set-top-off"):
        return
    by = show(abs(high), units)
    must_choose = abs(high) > book.length("flatness-stone")
    yield Finding(
        code="set-top-off",
        rank=Rank.DECIDE if must_choose else Rank.WATCH,
        where=f"{run.name} {item.number}",
        text=say("set-top-high" if high > 0 else "set-top-low", number=item.number, side=side, by=by),
        by_how_much=abs(high),
        readings=(f"box {item.number} as set, top {side}",),
        rule="flatness-stone" if must_choose else "set-top-off",
        remedies=(_lift(item, side, high, by, book),),
    )


def _lift(item: ItemPlace, side: str, high: int, by: str, book: RuleBook) -> Remedy:
    """Return the way to bring a corner back to the line."""
    cost = book.remedy("lift-set-box")
    key = "lower-set-box" if high > 0 else "raise-set-box"
    text = say(key, number=item.number, side=side, by=by)
    return Remedy(kind=cost.key, text=text, amount=abs(high), hours=cost.hours, days=cost.days)
