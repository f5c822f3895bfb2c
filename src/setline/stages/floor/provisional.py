"""The line before the line: where the tops would come by the smallest floor reading, wherever it lies."""

from __future__ import annotations

from setline.job.job import Job
from setline.job.readings import floor_readings
from setline.rules import RuleBook
from setline.stages.floor.ground import toe_line_of

__all__ = ["provisional_tops"]


def provisional_tops(job: Job, book: RuleBook) -> int:
    """Return the height of the tops by the smallest floor reading less the base height.

    Walls and layout need the height band of the boxes before anyone knows where these bear.

    Args:
        job: The job.
        book: The rules, for the base height.

    Returns:
        z of the tops, from the laser line in use; 0 without any reading that has a height. [ticks]
    """
    heights = [each.z for each in floor_readings(job, toe_line_of(job, book)) if each.z is not None]
    return max(heights) + book.length("base-height") if heights else 0
