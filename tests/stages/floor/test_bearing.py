"""Where boxes bear: sides, legs, ladder base, ledger, rail; corner boxes; a run that cannot be solved."""

from __future__ import annotations

from typing import Any

import pytest
from tests.stages.floor.kitchens import box, job, levelled, place, run, set_up
from tests.tape import inch

from setline.job.job import Job
from setline.result import RunPlan, ShimKind
from setline.stages.floor.bearing import Bearing

TOE = inch("20 7/8")
EVERY_FOOT = [(str(u), "48") for u in range(0, 145, 12)]


def _bearings(a_job: Job, *runs: RunPlan) -> dict[str, Bearing]:
    """Return the bearing points of a job by name."""
    return {each.name: each for each in levelled(a_job, *runs).bearings}


def _one_box(*readings: dict[str, Any], **more: Any) -> dict[str, Bearing]:
    """Return the bearing points of box 3, framed 24 wide from u 20, its body 1/4 in from the frame."""
    a_job = job(*(readings or (set_up("S1", A_wall=EVERY_FOOT),)), boxes=[box(3, 24, **more)])
    return _bearings(a_job, run(place(3, inch(20), inch(44), overhang=inch("1/4"))))


def test_a_box_on_its_sides_bears_at_four_corners_by_its_body() -> None:
    """Back pair at the wall, front pair at the toe line, left and right at the body's edges."""
    points = _one_box()
    assert list(points) == ["3 back-left", "3 back-right", "3 front-left", "3 front-right"]
    assert [(each.u, each.out) for each in points.values()] == [
        (inch("20 1/4"), 0),
        (inch("43 3/4"), 0),
        (inch("20 1/4"), TOE),
        (inch("43 3/4"), TOE),
    ]
    assert {each.foot for each in points.values()} == {-inch("34 1/2")}


def test_a_side_also_bears_at_a_reading_close_to_it() -> None:
    """A reading 2 in beside the left side, half-way out, bears there; one 4 in off does not."""
    beside = set_up("S1", A_wall=EVERY_FOOT, A_12=[("22 1/4", "47 7/8"), ("30", "47")])
    points = _one_box(beside)
    assert "3 left 12" in points
    assert points["3 left 12"].u == inch("20 1/4")
    assert len(points) == 5


def test_readings_that_stand_at_a_corner_are_no_points_of_their_own() -> None:
    """A reading at the corner itself, taken twice, gives the corner its number and no more points."""
    twice = set_up("S1", A_wall=[("20 1/4", "48"), ("20 1/4", "48 1/16")], A_toe=EVERY_FOOT)
    assert len(_one_box(twice)) == 4


def test_a_second_reading_near_a_corner_bears_besides() -> None:
    """The nearer gives the corner its number; the one an inch farther bears as well."""
    near = set_up("S1", A_wall=[("20", "48"), ("19", "47 7/8")], A_toe=[("20", "48")])
    points = _one_box(near)
    assert points["3 left 0"].readings == (1,)


def test_legs_bear_at_their_centres() -> None:
    """2 in in from the body's edges unless the order says otherwise, and never past the toe line."""
    points = _one_box(support="legs", toe_height="4 1/2", legs={"least": 4, "most": 6})
    assert [(each.u, each.out) for each in points.values()] == [
        (inch("22 1/4"), inch(2)),
        (inch("41 3/4"), inch(2)),
        (inch("22 1/4"), TOE),
        (inch("41 3/4"), TOE),
    ]
    leg = points["3 back-left"]
    assert (leg.kind, leg.nominal, leg.least, leg.most) == (ShimKind.LEG, inch("4 1/2"), inch(4), inch(6))
    assert leg.foot == -inch(30)


def test_a_ledger_carries_the_back_and_only_the_front_legs_meet_the_floor() -> None:
    """The floor at the wall does not count for such a box."""
    a_job = job(
        set_up("S1", A_wall=[("22", "40"), ("42", "40")], A_toe=[("22", "48"), ("42", "48")]),
        boxes=[box(3, 24, support="ledger and front legs", legs={"least": 4, "most": 6})],
    )
    result = levelled(a_job, run(place(3, inch(20), inch(44))))
    assert [each.kind for each in result.bearings] == [
        ShimKind.LEDGER,
        ShimKind.LEDGER,
        ShimKind.LEG,
        ShimKind.LEG,
    ]
    assert [each.at.name for each in result.stood] == ["3 front-left", "3 front-right"]
    assert result.level_line.high_spot is not None
    assert result.level_line.high_spot.height.value == -inch(48)


def test_a_ladder_base_bears_along_its_outline() -> None:
    """Its front edge bears at a reading close to it, which a box on two sides would not."""
    between = set_up("S1", A_wall=EVERY_FOOT, A_toe=[("32", "47 15/16"), ("20", "48"), ("44", "48")])
    assert "3 front 32" in _one_box(between, support="ladder base")
    assert "3 front 32" not in _one_box(between)


def test_a_hung_box_bears_nowhere() -> None:
    """What hangs on a rail does not meet the floor."""
    assert _one_box(support="wall rail") == {}


def test_a_shallow_box_bears_at_its_own_depth() -> None:
    """A box 12 deep does not reach the toe line."""
    a_job = job(set_up("S1", A_wall=EVERY_FOOT), boxes=[box(3, 24)])
    points = _bearings(a_job, run(place(3, inch(20), inch(44), depth=inch(12))))
    assert points["3 front-left"].out == inch(12)


TWO_WALLS = [
    {"name": "A", "lengths": [{"length": 120}]},
    {"name": "B", "lengths": [{"length": 96}]},
]


def test_a_corner_box_bears_on_both_walls() -> None:
    """At the right end of A it has its left side on A, the corner itself, and its end 36 along B."""
    corner = box(7, 36, corner={"along_next": 36})
    a_job = job(set_up("S1", A_wall=EVERY_FOOT[:10]), boxes=[corner], walls=TWO_WALLS)
    points = _bearings(a_job, run(place(7, inch(84), inch(120))))
    assert {name: (each.wall, each.u, each.out) for name, each in points.items()} == {
        "7 back-left": ("A", inch(84), 0),
        "7 back-right": ("A", inch(120), 0),
        "7 end-back": ("B", inch(36), 0),
        "7 front-left": ("A", inch(84), TOE),
        "7 end-front": ("B", inch(36), TOE),
    }


def test_a_corner_box_at_a_left_end_turns_onto_the_wall_before() -> None:
    """At the left end of B its end stands 36 short of A's right corner."""
    corner = box(7, 36, corner={"along_next": 36})
    a_job = job(set_up("S1", A_wall=EVERY_FOOT[:10]), boxes=[corner], walls=TWO_WALLS)
    points = _bearings(a_job, run(place(7, 0, inch(36)), wall="B"))
    assert (points["7 end-back"].wall, points["7 end-back"].u) == ("A", inch(84))
    assert points["7 back-right"].u == inch(36)


def test_a_run_that_cannot_be_solved_bears_at_every_reading_of_its_row() -> None:
    """Wall and toe line between its ends count, for the line alone; other lines and other walls do not."""
    a_job = job(
        set_up("S1", A_wall=[("10", "48"), ("200", "46")], A_toe=[("40", "47")], A_12=[("20", "45")]),
        boxes=[box(3)],
        walls=[{"name": "A", "lengths": [{"length": 240}]}],
    )
    result = levelled(a_job, run(place(3, 0, inch(60)), solved=False))
    assert [each.name for each in result.bearings] == ["S1 A 10 wall", "S1 A 40 toe"]
    assert result.level_line.high_spot is not None
    assert result.level_line.high_spot.point == "S1 A 40 toe"


@pytest.mark.parametrize("row", ["wall"])
def test_a_wall_row_bears_nowhere(row: str) -> None:
    """A tall box listed in both rows is counted once, in the base row."""
    a_job = job(set_up("S1", A_wall=EVERY_FOOT), boxes=[box(3, kind="tall")])
    tall = place(3, inch(20), inch(44))
    assert len(levelled(a_job, run(tall), run(tall, row=row)).bearings) == 4
