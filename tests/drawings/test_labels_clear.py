from __future__ import annotations

from functools import partial

import pytest

from setline.drawings.shapes import Drawing
from tests.drawings.drawing_set import (
    drawings_of,
    example,
    meeting_labels,
    small_labels,
    straying_labels,
    straying_shapes,
)
from tests.drawings.nasty_plans import NASTY, random_plan
from tests.drawings.sample_plans import inch_sample, metric_sample

SAMPLES = {
    "inch": inch_sample,
    "metric": metric_sample,
    "larkspur": partial(example, "larkspur-street"),
    "mill row": partial(example, "mill-row"),
    **NASTY,
}
ROOMS = 200
BATCH = 20


def _check(drawing: Drawing) -> None:
    assert not meeting_labels(drawing), drawing.title
    assert not straying_labels(drawing), drawing.title
    assert not small_labels(drawing), drawing.title
    assert not straying_shapes(drawing), drawing.title


@pytest.mark.parametrize("name", SAMPLES)
def test_no_label_meets_another_in_the_samples(name: str) -> None:
    """In the samples no two label boxes overlap, none leaves its frame, none is under 9 pt."""
    for drawing in drawings_of(SAMPLES[name]()):
        _check(drawing)


@pytest.mark.parametrize("first", range(0, ROOMS, BATCH))
def test_no_label_meets_another_in_generated_rooms(first: int) -> None:
    """The same holds in every drawing of 200 rooms that a seed makes up."""
    for seed in range(first, first + BATCH):
        for drawing in drawings_of(random_plan(seed), poles=1):
            _check(drawing)
