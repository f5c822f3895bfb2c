"""Jobs with something on record: marks struck or agreed, boxes set. What is asked of their layouts."""

from __future__ import annotations

from typing import Any

from setline.job.job import Job
from setline.job.read import job_from_dict
from setline.job.write import to_dict
from setline.lengths import Units, show
from setline.result import Mark, RunPlan
from setline.stages.layout import Layout

Table = dict[str, Any]


def printed_marks(layout: Layout) -> dict[str, str]:
    """Return the number of every mark that has one, by its name, as it is printed."""
    return {
        mark.name: show(mark.printed, Units.INCH)
        for run in layout.runs
        for mark in run.marks
        if mark.printed is not None
    }


def with_record(job: Job, **parts: Any) -> Job:
    """Return a job with other parts of its record."""
    document = to_dict(job)
    document["record"] = {**document.get("record", {}), **parts}
    return job_from_dict(document)


def struck(job: Job, marks: dict[str, str]) -> Job:
    """Return a job with marks on the wall."""
    return with_record(job, struck=[{"name": name, "at": at} for name, at in marks.items()])


def agreed(job: Job, marks: dict[str, str]) -> Job:
    """Return a job with marks that were said yes to."""
    return with_record(job, agreed=[{"name": name, "at": at} for name, at in marks.items()])


def as_set(number: int, left: str | None = None, right: str | None = None, of: str = "frame") -> Table:
    """Return what is recorded of a set box whose edges were read at the frame, or at the body."""
    read = {"left": left, "right": right}
    edges = [{"edge": side, "of": of, "at": at} for side, at in read.items() if at is not None]
    return {"box": number, "edges": edges}


def with_set(job: Job, *boxes: Table) -> Job:
    """Return a job with boxes that are set, and no others."""
    return with_record(job, set=list(boxes))


def marks_of(layout: Layout) -> list[Mark]:
    """Return every mark of a layout."""
    return [mark for run in layout.runs for mark in run.marks]


def changed_marks(layout: Layout, was: dict[str, str]) -> set[str]:
    """Return the names of the marks that print another number than they did."""
    return {name for name, number in printed_marks(layout).items() if was.get(name) != number}


def places_of(run: RunPlan, number: int) -> tuple[str, str]:
    """Return the joints of an item in tape notation."""
    item = next(each for each in run.items if each.number == number)
    assert item.left is not None
    assert item.right is not None
    return show(item.left, Units.INCH), show(item.right, Units.INCH)
