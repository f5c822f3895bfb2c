"""The two sample kitchens: what they hold, that they plan, and that the one conflict can be cured."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import pytest
from tests.tape import inch, mm

from setline import doubts, load_job, plan
from setline.job.job import Job
from setline.job.read import job_from_dict
from setline.job.readings import floor_readings, set_up_offsets
from setline.job.write import to_dict
from setline.lengths import Units
from setline.result import ItemKind, Plan, Rank, RunPlan

EXAMPLES = Path(__file__).parents[2] / "examples"
LARKSPUR = EXAMPLES / "larkspur-street.toml"
MILL_ROW = EXAMPLES / "mill-row.toml"


@cache
def job_of(path: Path) -> Job:
    """Return a sample job, read once."""
    return load_job(path)


@cache
def plan_of(path: Path) -> Plan:
    """Return a sample's plan, worked out once."""
    return plan(job_of(path))


def run_of(planned: Plan, name: str) -> RunPlan:
    """Return a run by its name."""
    return next(run for run in planned.runs if run.name == name)


def width_of(planned: Plan, number: int) -> int:
    """Return the width that an item came to."""
    item = next(item for run in planned.runs for item in run.items if item.number == number)
    assert item.left is not None
    assert item.right is not None
    return item.right - item.left


def changed(path: Path, change: Any) -> Plan:
    """Return the plan of a sample with something in its document changed."""
    document = to_dict(job_of(path))
    change(document)
    return plan(job_from_dict(document))


# --- what they hold -----------------------------------------------------------------------------------


def test_larkspur_street_is_a_whole_kitchen() -> None:
    """Three walls, 20 boxes and more, 80 floor readings and more, and one of each thing that is hard."""
    job = job_of(LARKSPUR)
    assert job.job.tape is Units.INCH
    assert len(job.room.walls) == 3
    assert len(job.order.boxes) >= 20
    kinds = [box.kind for box in job.order.boxes]
    assert kinds.count("tall") == 1
    assert {"base", "wall"} <= set(kinds)
    assert {"dishwasher", "range", "refrigerator"} <= {each.kind for each in job.order.appliances}
    assert len(floor_readings(job, inch("20 7/8"))) >= 80
    assert any(box.measured for box in job.order.boxes)
    assert any(box.corner for box in job.order.boxes)
    assert any(box.blind for box in job.order.boxes)
    assert all(box.support is None for box in job.order.boxes), "framed boxes on shims"


def test_larkspur_street_was_read_from_two_set_ups_that_agree() -> None:
    """Both closed on their first point, the laser was proved, and three marks tie them within 1/64."""
    job = job_of(LARKSPUR)
    assert len(job.floor.set_ups) == 2
    assert all(set_up.closing for set_up in job.floor.set_ups)
    assert job.tools.laser is not None
    assert job.tools.laser.proof is not None
    offset = set_up_offsets(job.floor)["S2"]
    assert offset is not None
    assert abs(offset - inch("1 13/32")) <= inch("1/64")


def test_larkspur_streets_sink_stands_under_a_window_off_the_middle() -> None:
    """Its pin is a must, and the window is over 3 in from the wall's middle by equal marks."""
    job = job_of(LARKSPUR)
    wall = next(wall for wall in job.room.walls if wall.name == "B")
    assert wall.middle is not None
    middle = wall.middle.equal.ticks + wall.middle.apart.ticks // 2
    centre = wall.windows[0].centre
    assert centre is not None
    assert abs(centre.ticks - middle) > inch(3)
    pins = [pin for run in job.runs for pin in run.pins if pin.window and pin.item == 6]
    assert [pin.strength for pin in pins] == ["must"]


def test_mill_row_is_a_metric_galley_on_legs() -> None:
    """Two facing walls of four, frameless boxes on legs, tile to come before the boxes."""
    job = job_of(MILL_ROW)
    assert job.job.tape is Units.METRIC
    assert job.room.closed
    assert {run.wall for run in job.runs} == {"A", "C"}
    assert not any(box.overhang_left or box.overhang_right for box in job.order.boxes)
    on_floor = [box for box in job.order.boxes if box.kind != "wall"]
    assert {box.support for box in on_floor} == {"legs", "ledger and front legs"}
    assert [covering.when for covering in job.floor.coverings] == ["before boxes"]
    assert job.order.existing


# --- what follows -------------------------------------------------------------------------------------


def test_larkspur_street_has_exactly_one_conflict() -> None:
    """The hood box cannot be centred on its duct; every other run stands, and nothing else stops or asks."""
    planned = plan_of(LARKSPUR)
    assert [run.name for run in planned.runs if not run.solved] == ["C wall"]
    grave = [finding for finding in planned.findings if finding.rank in (Rank.STOP, Rank.DECIDE)]
    assert [(finding.code, finding.where) for finding in grave] == [("run-too-short", "C wall")]
    assert grave[0].by_how_much == inch("3/8")
    assert {"move-pin", "narrower-filler", "smaller-box"} <= {each.kind for each in grave[0].remedies}


def _move_the_pin(document: Any) -> None:
    run = next(run for run in document["runs"] if (run["wall"], run.get("row")) == ("C", "wall"))
    run["pins"][0]["at"] = "71 1/8"


def _rip_the_filler_narrower(document: Any) -> None:
    filler = next(each for each in document["order"]["fillers"] if each["number"] == 49)
    filler["width"]["least"] = "1 3/4"


def _order_a_narrower_box(document: Any) -> None:
    box = next(each for each in document["order"]["boxes"] if each["number"] == 19)
    box.pop("measured")
    box["width"] = 27


@pytest.mark.parametrize("cure", [_move_the_pin, _rip_the_filler_narrower, _order_a_narrower_box])
def test_each_remedy_cures_the_conflict(cure: Any) -> None:
    """The job with the remedy taken, to the number the remedy names, has every run solved and no stop."""
    planned = changed(LARKSPUR, cure)
    assert all(run.solved for run in planned.runs)
    assert not [finding.text for finding in planned.findings if finding.rank is Rank.STOP]


def test_a_remedy_names_the_least_that_cures() -> None:
    """A thirty-second less than the narrower filler asks, and the run is short still."""

    def too_little(document: Any) -> None:
        filler = next(each for each in document["order"]["fillers"] if each["number"] == 49)
        filler["width"]["least"] = "1 25/32"

    assert not run_of(changed(LARKSPUR, too_little), "C wall").solved


def test_larkspur_streets_line_and_shims_are_what_a_crew_would_expect() -> None:
    """The high spot sets the line, its shim is 0, and no other is over 3/4 or ?."""
    planned = plan_of(LARKSPUR)
    line = planned.level_line
    assert line.high_spot is not None
    assert line.set_ups[0].printed_level == inch("12 15/16")
    assert line.set_ups[0].printed_strike == inch("12 13/16")
    assert not line.band.is_empty
    thickness = {shim.name: shim.printed for shim in planned.shims}
    assert thickness[line.high_spot.point] == 0
    assert all(each is not None and 0 <= each <= inch("3/4") for each in thickness.values())
    assert max(each for each in thickness.values() if each is not None) >= inch("1/2")


def test_larkspur_streets_openings_are_within_their_sheets() -> None:
    """Dishwasher, range and refrigerator have clear widths that their sheets allow."""
    planned = plan_of(LARKSPUR)
    assert inch(24) <= width_of(planned, 32) <= inch("24 1/4")
    assert inch(30) <= width_of(planned, 33) <= inch("30 1/4")
    assert inch("36 1/4") <= width_of(planned, 31) <= inch(37)


def test_mill_row_fits_and_stands() -> None:
    """Nothing stops or asks; every leg can be turned to its height, every filler keeps its least."""
    planned = plan_of(MILL_ROW)
    assert all(run.solved for run in planned.runs)
    assert not [finding.text for finding in planned.findings if finding.rank in (Rank.STOP, Rank.DECIDE)]
    assert planned.level_line.set_ups[0].printed_level == mm(318)
    legs = [shim.printed for shim in planned.shims if shim.kind == "leg"]
    assert all(leg is not None and mm(135) <= leg <= mm(170) for leg in legs)
    fillers = [item for run in planned.runs for item in run.items if item.kind is ItemKind.FILLER]
    assert all(width_of(planned, item.number) >= mm(20) for item in fillers)


@pytest.mark.parametrize("path", [LARKSPUR, MILL_ROW], ids=lambda path: path.stem)
def test_a_sample_is_settled_enough_to_strike(path: Path) -> None:
    """Enough was read: the line moves by a sixteenth with odds of less than 5 in 100."""
    risk = doubts(job_of(path), plan_of(path)).high_spot
    assert risk is not None
    assert risk.settled


@pytest.mark.parametrize("path", [LARKSPUR, MILL_ROW], ids=lambda path: path.stem)
def test_a_plan_is_the_same_each_time(path: Path) -> None:
    """The same job gives the same plan."""
    assert plan(load_job(path)) == plan_of(path)
