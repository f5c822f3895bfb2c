"""The high spot and the level line as a whole: worked cases, and laws that hold for any floor."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.stages.floor.kitchens import box, job, levelled, place, run, set_up, shimmed
from tests.tape import inch, mm

from setline.job.job import Job
from setline.lengths import Units, show
from setline.result import ItemKind, RunPlan

WIDTHS = (18, 12, 33, 24, 9)
EDGES = (0, 18, 30, 63, 87, 96)
SIXTEENTH = inch("1/16")

floors = st.lists(st.integers(-16, 16), min_size=12, max_size=12)
"""Sixteenths that each box side's reading, wall then toe line, lies below 48."""


def _down(sixteenths: int, laser: int = 48) -> str:
    """Return a reading in whole inches and sixteenths."""
    return show(inch(laser) + sixteenths * SIXTEENTH, Units.INCH)


def _readings(floor: list[int], laser: int = 48) -> dict[str, list[tuple[str, str]]]:
    """Return wall and toe line read at every box side."""
    pairs = [(str(u), _down(low, laser)) for u, low in zip(EDGES * 2, floor, strict=True)]
    return {"A_wall": pairs[:6], "A_toe": pairs[6:]}


def _job(*set_ups: dict[str, Any], **parts: Any) -> Job:
    """Return a job of five boxes along wall A."""
    boxes = [box(number, width) for number, width in enumerate(WIDTHS, start=1)]
    return job(*set_ups, boxes=boxes, **parts)


def _run() -> RunPlan:
    """Return the five boxes side by side from the left corner."""
    sides = enumerate(pairwise(EDGES), start=1)
    return run(*(place(number, inch(left), inch(right)) for number, (left, right) in sides))


@pytest.mark.arithmetic("48 - 34 1/2 = 13 1/2; each shim its reading less 48")
def test_six_readings_give_the_line_and_every_shim() -> None:
    """Case A1: the high spot is where 48 was read, the line 13 1/2 down, the shims by subtraction."""
    readings = set_up(
        "S1",
        A_wall=[("0", "48 1/4"), ("36", "48"), ("72", "48 3/8")],
        A_toe=[("0", "48 3/16"), ("36", "48 1/16"), ("72", "48 1/2")],
    )
    a_job = job(readings, boxes=[box(1, 36), box(2, 36)])
    result, shims = shimmed(a_job, run(place(1, 0, inch(36)), place(2, inch(36), inch(72))))
    assert result.level_line.high_spot is not None
    assert result.level_line.high_spot.point == "1 back-right"
    assert result.level_line.set_ups[0].printed_level == inch("13 1/2")
    printed = {shim.name: show(shim.printed or 0, Units.INCH) for shim in shims.shims}
    assert printed == {
        "1 back-left": "1/4",
        "1 back-right": "0",
        "1 front-left": "3/16",
        "1 front-right": "1/16",
        "2 back-left": "0",
        "2 back-right": "3/8",
        "2 front-left": "1/16",
        "2 front-right": "1/2",
    }


@pytest.mark.arithmetic("the room of three pairs of readings: 48 - 34 1/2 = 13 1/2, 13 1/2 - 1/8 = 13 3/8")
def test_the_line_and_the_line_struck_over_it() -> None:
    """With the high spot at 48 the tops come 13 1/2 down and one strikes 13 3/8."""
    readings = set_up(
        "S1",
        A_wall=[("1 1/2", "48 1/4"), ("31 1/2", "48"), ("97 5/8", "48 3/16")],
        A_toe=[("1 1/2", "48 3/8"), ("31 1/2", "48 1/16"), ("97 5/8", "48 1/2")],
    )
    a_job = job(readings, boxes=[box(1, 18), box(2, 12), box(3, 33), box(4, 9)])
    places = run(
        place(1, inch("1 1/2"), inch("19 1/2")),
        place(2, inch("19 1/2"), inch("31 1/2")),
        place(3, inch("31 1/2"), inch("64 1/2")),
        place(4, inch("88 5/8"), inch("97 5/8")),
    )
    result, shims = shimmed(a_job, places)
    (line,) = result.level_line.set_ups
    assert (line.printed_level, line.printed_strike) == (inch("13 1/2"), inch("13 3/8"))
    by_name = {shim.name: shim for shim in shims.shims}
    assert by_name["3 back-left"].printed == 0
    assert by_name["4 front-right"].printed == inch("1/2")
    assert by_name["3 back-right"].printed is None


@pytest.mark.common_practice
def test_bases_are_34_1_2_high_and_the_struck_line_goes_1_8_above() -> None:
    """From a floor read 48 down the box tops stand 34 1/2 and the struck line 34 5/8 above it."""
    result = levelled(_job(set_up("S1", **_readings([0] * 12))), _run())
    (line,) = result.level_line.set_ups
    assert inch(48) - (line.printed_level or 0) == inch("34 1/2")
    assert inch(48) - (line.printed_strike or 0) == inch("34 5/8")


@pytest.mark.common_practice
@given(floors)
@settings(max_examples=40, deadline=None)
def test_the_high_spot_is_where_the_reading_down_is_smallest(floor: list[int]) -> None:
    """With a reading at every box side the smallest of them is the high spot's."""
    result = levelled(_job(set_up("S1", **_readings(floor))), _run())
    assert result.level_line.high_spot is not None
    assert result.level_line.high_spot.height.value == -(inch(48) + min(floor) * SIXTEENTH)


@given(floors)
@settings(max_examples=40, deadline=None)
def test_every_shim_is_the_exact_difference_and_none_is_negative(floor: list[int]) -> None:
    """As read at every box side, shims are reading less level line less box height, 0 at the high spot."""
    result, shims = shimmed(_job(set_up("S1", **_readings(floor))), _run())
    assert result.level_line.high_spot is not None
    down = dict(zip([(u, line) for line in ("wall", "toe") for u in EDGES], floor, strict=True))
    for shim in shims.shims:
        read = down[shim.u // inch(1), "toe" if shim.out else "wall"]
        assert shim.thickness.value == (read - min(floor)) * SIXTEENTH
        assert shim.is_high_spot == (shim.name == result.level_line.high_spot.point)
    assert min(shim.printed or 0 for shim in shims.shims) == 0


@given(floors, st.integers(-64, 200))
@settings(max_examples=30, deadline=None)
def test_moving_the_laser_moves_the_line_and_no_shim(floor: list[int], up: int) -> None:
    """With every reading greater by c the line is measured c farther down and no shim changes."""
    before, shims = shimmed(_job(set_up("S1", **_readings(floor))), _run())
    after, moved = shimmed(_job(set_up("S1", **_readings([low + up for low in floor]))), _run())
    old, new = before.level_line.set_ups[0].printed_level, after.level_line.set_ups[0].printed_level
    assert (new or 0) - (old or 0) == up * SIXTEENTH
    assert [shim.printed for shim in moved.shims] == [shim.printed for shim in shims.shims]
    assert [shim.stack for shim in moved.shims] == [shim.stack for shim in shims.shims]


@given(floors, st.integers(0, 5), st.integers(1, 60), st.sampled_from(["6", "12", "15", "30"]))
@settings(max_examples=30, deadline=None)
def test_a_reading_lower_than_all_others_never_moves_the_high_spot(
    floor: list[int], at: int, lower: int, out: str
) -> None:
    """However low, a further reading changes neither the high spot nor the line."""
    lines = _readings(floor)
    plain = levelled(_job(set_up("S1", **lines)), _run())
    low = (str(EDGES[at]), _down(max(floor) + lower))
    more = levelled(_job(set_up("S1", **lines, **{f"A_{out}": [low]})), _run())
    assert more.level_line.tops.value == plain.level_line.tops.value
    assert more.level_line.high_spot is not None
    assert plain.level_line.high_spot is not None
    assert more.level_line.high_spot.height.value == plain.level_line.high_spot.height.value


@given(floors, st.integers(-40, 40))
@settings(max_examples=30, deadline=None)
def test_two_tied_set_ups_give_what_one_gives(floor: list[int], apart: int) -> None:
    """Half the floor read from a second set-up, tied by a mark, leaves line and shims as they were."""
    lines = _readings(floor)
    one, shims = shimmed(_job(set_up("S1", marks=[{"name": "nail", "down": "20"}], **lines)), _run())
    second = _readings([low + apart for low in floor])
    tied, both = shimmed(
        _job(
            set_up("S1", marks=[{"name": "nail", "down": "20"}], A_wall=lines["A_wall"]),
            set_up("S2", marks=[{"name": "nail", "down": _down(apart, 20)}], A_toe=second["A_toe"]),
        ),
        _run(),
    )
    assert tied.level_line.tops.value == one.level_line.tops.value
    assert [shim.printed for shim in both.shims] == [shim.printed for shim in shims.shims]


@given(st.lists(st.integers(0, 3), min_size=12, max_size=12))
@settings(max_examples=20, deadline=None)
def test_inches_and_millimetres_of_one_floor_give_one_set_of_steps(floor: list[int]) -> None:
    """Whole inches typed as millimetres on a metric tape: the shims differ among each other by as much."""
    lows = [low * 16 for low in floor]
    _, in_inches = shimmed(_job(set_up("S1", **_readings(lows))), _run())
    lines = {
        key: [(str(round(float(u) * 254) / 10), str(round(float(down) * 254) / 10)) for u, down in pairs]
        for key, pairs in _readings(lows).items()
    }
    boxes = [
        box(n, f"{w * 254 // 10}.{w * 254 % 10} mm", height=876, depth=600) for n, w in enumerate(WIDTHS, 1)
    ]
    walls = [{"name": "A", "lengths": [{"length": 3600}]}]
    metric = job(set_up("S1", **lines), boxes=boxes, walls=walls, tape="metric", floor={"toe_line": "530.2"})
    _, in_mm = shimmed(metric, _run())
    first = {shim.name: shim.thickness.value or 0 for shim in in_inches.shims}
    second = {shim.name: shim.thickness.value or 0 for shim in in_mm.shims}
    assert {name: value - min(first.values()) for name, value in first.items()} == {
        name: value - min(second.values()) for name, value in second.items()
    }


def test_a_hump_that_no_box_stands_on_does_not_count() -> None:
    """The high spot counts under bearing points only, not in the middle of a box or of the room."""
    lines = _readings([0] * 12)
    hump = levelled(_job(set_up("S1", **lines, A_60=[("40", "47")], A_10=[("46", "47 1/2")])), _run())
    assert hump.level_line.set_ups[0].printed_level == inch("13 1/2")


def test_a_point_without_a_number_never_sets_the_line_but_is_asked_for() -> None:
    """A slope that climbs past the last reading makes a decide that asks for one, not a higher line."""
    climbing = [(str(u), _down(-(u // 4))) for u in range(0, 49, 6)]
    a_job = job(set_up("S1", A_wall=climbing, A_toe=climbing), boxes=[box(1, 48), box(2, 24)])
    places = run(place(1, 0, inch(48)), place(2, inch(63), inch(87)))
    result = levelled(a_job, places)
    assert result.level_line.tops.value == -(inch(48) - 12 * SIXTEENTH) + inch("34 1/2")
    asked = [finding for finding in result.findings if finding.code == "high-spot-unread"]
    assert asked[0].rank == "decide"
    assert "Read A 63 and A 87, wall and toe line." in asked[-1].text


def test_without_readings_there_is_no_line_and_it_stops() -> None:
    """Nothing is guessed: no line, every shim ?, and a stop that says what to read."""
    result, shims = shimmed(_job(), _run())
    assert result.level_line.tops.value is None
    assert all(shim.printed is None for shim in shims.shims)
    assert [finding.code for finding in result.findings if finding.rank == "stop"] == ["no-floor-reading"]


def test_the_floor_picture_has_numbers_only_near_readings() -> None:
    """The grid holds None where no reading lies within 12 in."""
    grid = levelled(_job(set_up("S1", **_readings([0] * 12))), _run()).floor.grid
    assert grid is not None
    assert grid.heights[0][0] == pytest.approx(-inch(48), abs=inch("1/16"))
    assert grid.heights[0][-1] is None
    assert len(grid.heights) == len(grid.ys)
    assert {len(row) for row in grid.heights} == {len(grid.xs)}


def test_a_base_frame_in_millimetres_rounds_to_whole_ones() -> None:
    """On a metric job the tops go up to the next millimetre."""
    lines = {"A_wall": [("0", "1200.5"), ("600", "1204")], "A_toe": [("0", "1203"), ("600", "1204")]}
    boxes = [box(1, 600, height=870, depth=560)]
    walls = [{"name": "A", "lengths": [{"length": 3600}]}]
    a_job = job(set_up("S1", **lines), boxes=boxes, walls=walls, tape="metric")
    result = levelled(a_job, run(place(1, 0, mm(600), bottom=-mm(870))))
    assert result.level_line.set_ups[0].printed_level == mm(330)


def test_an_opening_is_no_bearing_point() -> None:
    """The floor under a dishwasher is no high spot: only its height counts."""
    dishwasher = {"number": 21, "kind": "dishwasher", "width": {"least": 24}}
    readings = set_up(
        "S1", A_wall=[("0", "48"), ("24", "48"), ("36", "47")], A_toe=[("0", "48"), ("24", "48")]
    )
    a_job = job(readings, boxes=[box(1, 24)], order={"appliances": [dishwasher]})
    opening = place(21, inch(24), inch(48), kind=ItemKind.OPENING)
    result = levelled(a_job, run(place(1, 0, inch(24)), opening))
    assert result.level_line.set_ups[0].printed_level == inch("13 1/2")
