"""Planning clearances that Setline checks in a layout, each against a published value.

The guidelines are the NKBA's kitchen planning guidelines as a university extension (LSU AgCenter) reprints
them. Each test lays out a run just inside the value and one just outside it.
"""

from __future__ import annotations

from typing import Any

import pytest
from tests.stages.layout.kitchens import Table, box, kitchen, laid_out, opening, run, wall
from tests.tape import inch

from setline.result import Finding


def _found(rule: str, widths: list[tuple[str, Any]]) -> list[Finding]:
    """Return the findings of one rule in a row of things of the given kinds and widths, open at both ends.

    A kind is ``box``, ``sink`` or that of an appliance; boxes are numbered from 1, appliances from 21.
    """
    boxes: list[Table] = []
    openings: list[Table] = []
    items: list[int] = []
    for number, (kind, width) in enumerate(widths, start=1):
        if kind in ("box", "sink"):
            boxes.append(box(number, width, name="sink" if kind == "sink" else ""))
            items.append(number)
        else:
            openings.append(opening(20 + number, kind, width, width))
            items.append(20 + number)
    job = kitchen(
        [wall("A", 300), wall("B", 200)],
        [run("A", items, left={"kind": "open"}, right={"kind": "open"})],
        boxes=boxes,
        openings=openings,
    )
    return [each for each in laid_out(job).findings if each.code == rule]


# Dishwasher: edge at most 36 in from the edge of the sink (LSU AgCenter, guidelines reprinted).
@pytest.mark.published("NKBA kitchen planning guidelines as reprinted by LSU AgCenter, dishwasher placement")
def test_dishwasher_within_36_of_the_sink() -> None:
    """36 of box between dishwasher and sink passes, 36 1/4 is a watch by 1/4."""
    assert not _found("dishwasher-to-sink", [("sink", 36), ("box", 36), ("dishwasher", 24)])
    (found,) = _found("dishwasher-to-sink", [("sink", 36), ("box", "36 1/4"), ("dishwasher", 24)])
    assert found.by_how_much == inch("1/4")


# Sink landing: at least 24 in on one side and 18 in on the other (LSU AgCenter, guidelines reprinted).
@pytest.mark.published("NKBA kitchen planning guidelines as reprinted by LSU AgCenter, sink landing areas")
def test_counter_on_both_sides_of_the_sink() -> None:
    """24 and 18 pass; 23 3/4 on the better side and 17 3/4 on the other are told, each by 1/4."""
    assert not _found("sink-landing-wide", [("box", 24), ("sink", 36), ("box", 18)])
    assert not _found("sink-landing-narrow", [("box", 24), ("sink", 36), ("box", 18)])
    (wide,) = _found("sink-landing-wide", [("box", "23 3/4"), ("sink", 36), ("box", 18)])
    (narrow,) = _found("sink-landing-narrow", [("box", 24), ("sink", 36), ("box", "17 3/4")])
    assert (wide.by_how_much, narrow.by_how_much) == (inch("1/4"), inch("1/4"))


# Cooking surface: at least 12 in of counter on one side and 15 in on the other.
@pytest.mark.published("NKBA kitchen planning guidelines as reprinted, cooking surface landing areas")
def test_counter_on_both_sides_of_the_range() -> None:
    """15 and 12 pass, whichever side is which; 14 3/4 and 11 3/4 are told, each by 1/4."""
    for rule in ("range-landing-wide", "range-landing-narrow"):
        assert not _found(rule, [("box", 15), ("range", 30), ("box", 12)])
        assert not _found(rule, [("box", 12), ("range", 30), ("box", 15)])
    (wide,) = _found("range-landing-wide", [("box", "14 3/4"), ("range", 30), ("box", 12)])
    (narrow,) = _found("range-landing-narrow", [("box", 15), ("range", 30), ("box", "11 3/4")])
    assert (wide.by_how_much, narrow.by_how_much) == (inch("1/4"), inch("1/4"))


# Refrigerator: at least 15 in of counter on the handle side.
@pytest.mark.published("NKBA kitchen planning guidelines as reprinted, refrigerator landing area")
def test_counter_beside_the_refrigerator() -> None:
    """15 of counter on one side passes, 14 3/4 is told by 1/4."""
    assert not _found("refrigerator-landing", [("refrigerator", 36), ("box", 15)])
    (found,) = _found("refrigerator-landing", [("refrigerator", 36), ("box", "14 3/4")])
    assert found.by_how_much == inch("1/4")
