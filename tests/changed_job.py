"""A job with what a remedy changes in it, as the field book would have it once the remedy is taken."""

from __future__ import annotations

from collections.abc import Iterable

from setline.field_book.places import from_places, pointer, to_places
from setline.job.job import Job
from setline.job.read import job_from_dict
from setline.job.write import to_dict
from setline.result import Change

__all__ = ["with_changes"]


def with_changes(job: Job, changes: Iterable[Change]) -> Job:
    """Return a job with some of its fields changed."""
    values = to_places(to_dict(job))
    for change in changes:
        place = pointer(change.place)
        if change.value is None:
            values.pop(place, None)
        else:
            values[place] = change.value
    return job_from_dict(from_places(values))
