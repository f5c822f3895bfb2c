"""Pins and play as they are handed on: where each pin holds, what a wish misses, how far a joint can go."""

from __future__ import annotations

from typing import Any

import pytest
from tests.stages.layout.kitchens import box, filler, kitchen, laid_out, opening, run, wall, wall_box
from tests.tape import inch

from setline.result import RunPlan


def _runs(pins: list[dict[str, Any]], upper: list[dict[str, Any]] | None = None) -> tuple[RunPlan, ...]:
    """Return a base run of 120 with a sink, and a wall run over it."""
    job = kitchen(
        [wall("A", 120, windows=[{"name": "yard", "centre": "58"}])],
        [run("A", [41, 1, 3, 9, 2, 42], pins=pins), run("A", [43, 11, 44], row="wall", pins=upper or [])],
        boxes=[box(1, 24), box(2, 24), box(3, 33, name="sink"), wall_box(11, 30)],
        fillers=[filler(41, 1, 3), filler(42, 1, 20), filler(43, 1, 80), filler(44, 1, 80)],
        openings=[opening(9, "dishwasher", "24", "24 1/4")],
    )
    return laid_out(job).runs


def test_a_must_names_its_place() -> None:
    """A must at a window tells where that is and misses nothing."""
    (pin,) = _runs([{"item": 3, "edge": "left", "at": "26"}])[0].pins
    assert (pin.of_item, pin.edge, pin.at, pin.wish_rank, pin.missed) == (3, "left", inch("26"), None, 0)


@pytest.mark.arithmetic("filler at most 3, box 24, half of 33: 43 1/2, and 58 is 14 1/2 beyond")
def test_a_wish_tells_what_it_misses() -> None:
    """What keeps a wish from its place shows as the distance, to the left negative."""
    (pin,) = _runs([{"item": 3, "edge": "centre", "window": "yard", "strength": "wish", "rank": 2}])[0].pins
    assert (pin.at, pin.wish_rank, pin.missed) == (inch("58"), 2, -inch("14 1/2"))
    assert pin.said == "the window centre"


def test_a_pin_beside_another_row_has_that_rows_place() -> None:
    """In line with an item means where that item came to stand."""
    base, upper = _runs(
        [{"item": 3, "edge": "left", "at": "26"}], [{"item": 11, "edge": "centre", "beside": 3}]
    )
    sink = next(item for item in base.items if item.number == 3)
    assert sink.left is not None
    assert sink.right is not None
    assert upper.pins[0].at == (sink.left + sink.right) // 2
    assert upper.pins[0].beside == 3


@pytest.mark.arithmetic("the sink is held by its centre; right of it only 24 to 24 1/4 of opening gives")
def test_play_is_what_is_left_while_pins_and_wishes_hold() -> None:
    """Beside a pinned box only the opening gives, so all that play adds up to the opening's window."""
    (base, _) = _runs([{"item": 3, "edge": "centre", "at": "43", "strength": "wish"}])
    by_name = {joint.name: joint for joint in base.joints}
    sink, after = by_name["A base 3 left"], by_name["A base 2 left"]
    assert (sink.play_left, sink.play_right) == (0, 0)
    assert after.play_left is not None
    assert after.play_right is not None
    assert after.play_left + after.play_right == inch("1/4")
    assert after.earliest is not None
    assert after.latest is not None
    assert after.latest - after.earliest > inch("1/4")


def test_an_unsolved_run_has_its_pins_and_no_play() -> None:
    """What is pinned is known even where nothing stands."""
    (base, _) = _runs([{"item": 3, "edge": "left", "at": "2"}])
    assert not base.solved
    assert [pin.at for pin in base.pins] == [inch("2")]
    assert {(joint.play_left, joint.play_right) for joint in base.joints} == {(None, None)}
