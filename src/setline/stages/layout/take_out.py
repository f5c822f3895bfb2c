"""The last way out of a conflict with a box that is set: take it out again."""

from __future__ import annotations

from collections.abc import Iterator

from setline.job.job import Job
from setline.result import Change, Remedy
from setline.stages.layout.asked import Kitchen
from setline.stages.layout.built import Demand
from setline.stages.layout.items import Item
from setline.stages.layout.other_box import priced
from setline.stages.layout.pins import places_of_pins
from setline.stages.layout.set_boxes import with_set_boxes
from setline.stages.layout.set_pins import open_pins
from setline.stages.layout.settle import hold_centres
from setline.stages.layout.solve import Stuck
from setline.wording import say

__all__ = ["RECORDED", "take_out_changes", "take_outs"]

RECORDED = ("box", "edges", "below_line_left", "below_line_right", "off_wall", "screwed")
"""Every field that is recorded of a set box."""


def take_outs(stuck: Stuck, kitchen: Kitchen) -> Iterator[Remedy]:
    """Yield every set box of a conflict that, taken out again, lets its runs be solved.

    Args:
        stuck: Runs that cannot all be solved.
        kitchen: All runs, with and without set boxes.
    """
    names = {run.name for run in stuck.built.runs}
    for item in _set_boxes(stuck):
        job = _without(kitchen.job, item.number)
        runs = with_set_boxes(kitchen.bare, job)
        placed, ties, _ = open_pins(runs, *places_of_pins(runs, job), kitchen.book)
        part = [run for run in runs if run.name in names]
        if hold_centres(part, placed, ties, job.job.tape)[1] is not None:
            text = say("take-out-box", what=item.said)
            yield priced(kitchen.book, "take-out-box", text, 0, take_out_changes(item.number))


def take_out_changes(number: int) -> tuple[Change, ...]:
    """Return what taking a set box out again changes in the job: all that was recorded of it goes."""
    return tuple(Change(place=("record", "set", str(number), field), value=None) for field in RECORDED)


def _set_boxes(stuck: Stuck) -> list[Item]:
    """Return the set boxes that take part in the conflicts."""
    found: dict[int, Item] = {}
    for reason in stuck.reasons:
        for name in reason.conflict.pieces:
            piece = reason.built.pieces[name]
            if piece.demand is Demand.SET and piece.item is not None:
                found.setdefault(piece.item.number, piece.item)
    return list(found.values())


def _without(job: Job, number: int) -> Job:
    """Return a job in which one box is not set."""
    still = tuple(each for each in job.record.set if each.box != number)
    return job.model_copy(update={"record": job.record.model_copy(update={"set": still})})
