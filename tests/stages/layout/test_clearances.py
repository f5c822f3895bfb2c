"""Planning clearances: what carries counter, where it goes on, and which end stands square to a run."""

from __future__ import annotations

from typing import Any

import pytest
from tests.stages.layout.kitchens import (
    box,
    filler,
    kitchen,
    laid_out,
    opening,
    run,
    tall,
    wall,
)
from tests.tape import inch

from setline.result import Finding


def _found(rule: str, items: list[int], **parts: Any) -> list[Finding]:
    """Return the findings of a rule in one run on a wall of 200."""
    ends = {side: parts.pop(side) for side in ("left", "right") if side in parts}
    runs = [run("A", items, **({"right": {"kind": "open"}} | ends)), *parts.pop("runs", [])]
    layout = laid_out(kitchen([wall("A", 200), wall("B", 150)], runs, **parts))
    return [each for each in layout.findings if each.code == rule]


def test_counter_runs_over_a_dishwasher_and_ends_at_a_tall() -> None:
    """Beside a sink the dishwasher's top counts as counter; what lies beyond a tall box does not."""
    parts: dict[str, Any] = {
        "boxes": [tall(1, 24), box(2, 36, name="sink"), box(3, 60), box(4, 30)],
        "openings": [opening(21, "dishwasher", 24, 24)],
    }
    assert not _found("sink-landing-wide", [3, 2, 21, 4], **parts)
    (narrow,) = _found("sink-landing-narrow", [3, 2, 1, 4], **parts)
    assert narrow.by_how_much == inch(18)
    assert "0 of counter on its right" in narrow.text


def test_counter_that_goes_on_round_a_corner_is_enough() -> None:
    """A short stretch up to the faces round a corner is not told: the counter goes on there."""
    around = run("B", [5, 42], left={"kind": "corner", "run": "A base"})
    parts: dict[str, Any] = {
        "boxes": [box(2, 36, name="sink"), box(3, 30), box(4, 36, corner={"along_next": 36}), box(5, 60)],
        "fillers": [filler(42, 1, scribed=True), filler(41, 1, scribed=True)],
        "runs": [around],
        "right": {"kind": "wall"},
    }
    assert not _found("sink-landing-narrow", [41, 3, 2, 4], **parts)


def test_a_filler_alone_is_no_counter() -> None:
    """A refrigerator between a wall filler and a tall box has no counter at all."""
    (found,) = _found(
        "refrigerator-landing",
        [41, 21, 1],
        boxes=[tall(1, 24)],
        fillers=[filler(41, 3, 3, scribed=True)],
        openings=[opening(21, "refrigerator", 36, 36)],
    )
    assert found.by_how_much == inch(15)


def test_a_dishwasher_beside_the_faces_round_a_corner() -> None:
    """What stands square to it at a corner is the other run's faces, not the wall."""
    parts: dict[str, Any] = {
        "boxes": [box(2, 36, name="sink"), box(5, 60), box(6, 40)],
        "fillers": [filler(41, 1, scribed=True), filler(42, 1, scribed=True)],
        "openings": [opening(21, "dishwasher", 24, 24)],
        "runs": [run("B", [5, 6, 42])],
        "left": {"kind": "open"},
        "right": {"kind": "corner", "run": "B base"},
    }
    (found,) = _found("dishwasher-to-corner", [2, 21], **parts)
    assert found.text == (
        "Dishwasher 21 stands 0 from the faces of B base; its door wants 2. Its sheet decides."
    )


def test_a_run_without_places_is_not_judged() -> None:
    """No clearance is told of a run that cannot be solved."""
    assert not _found(
        "refrigerator-landing",
        [1, 21],
        boxes=[box(1, 10)],
        openings=[opening(21, "refrigerator", 36, 36)],
        right={"kind": "open", "at": 40},
    )


@pytest.mark.from_memory("dishwasher makers' installation sheets: 2 in from what stands square to it")
def test_dishwasher_2_from_a_corner() -> None:
    """A filler of 2 at the wall passes, one of 1 3/4 is told by 1/4."""

    def found(width: str) -> list[Finding]:
        job = kitchen(
            [wall("A", 120)],
            [run("A", [41, 21, 1], right={"kind": "open"})],
            boxes=[box(1, 30)],
            fillers=[filler(41, width, width)],
            openings=[opening(21, "dishwasher", 24, 24)],
        )
        return [each for each in laid_out(job).findings if each.code == "dishwasher-to-corner"]

    assert not found("2")
    (missed,) = found("1 3/4")
    assert missed.by_how_much == inch("1/4")
    assert missed.rule == "dishwasher-to-corner"
