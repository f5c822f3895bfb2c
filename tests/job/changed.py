"""A job file to change for tests: the starter, with other values at some places."""

from __future__ import annotations

import copy
import tomllib
from typing import Any

import pytest

from setline.errors import Fault, JobFileError
from setline.job.read import job_from_dict
from setline.job.starter import starter
from setline.lengths import Units

INCH = tomllib.loads(starter("Test room", Units.INCH))
METRIC = tomllib.loads(starter("Test room", Units.METRIC))
GONE = object()
"""In place of a value: the key is taken out."""


def changed(changes: dict[str, Any], document: dict[str, Any] = INCH) -> dict[str, Any]:
    """Return the starter with other values at some places (``order.boxes.0.width``), or without them."""
    other: Any = copy.deepcopy(document)
    for place, value in changes.items():
        *around, last = [int(step) if step.isdigit() else step for step in place.split(".")]
        inner = other
        for step in around:
            inner = inner[step] if isinstance(inner, list) else inner.setdefault(step, {})
        if value is GONE:
            del inner[last]
        elif isinstance(inner, list) and last == len(inner):
            inner.append(value)
        else:
            inner[last] = value
    return other


def faults_after(changes: dict[str, Any], document: dict[str, Any] = INCH) -> tuple[Fault, ...]:
    """Return the faults of the starter after some changes."""
    with pytest.raises(JobFileError) as refused:
        job_from_dict(changed(changes, document))
    return refused.value.faults
