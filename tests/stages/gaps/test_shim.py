"""What goes under each point: exact, rounded once, made up from the truck; legs and ledgers by their rule."""

from __future__ import annotations

from typing import Any

from tests.stages.floor.kitchens import box, job, place, run, set_up, shimmed
from tests.tape import inch, mm

from setline.result import Shim, ShimKind
from setline.stages.gaps.shim import Shims

LEGS: dict[str, Any] = {"support": "legs", "toe_height": "4 1/2", "legs": {"least": 4, "most": 5}}


def _under(low: str, *, front: str = "48", **more: Any) -> tuple[dict[str, Shim], Shims]:
    """Return the shims of box 1 with its back-right floor read ``low`` and its front-right ``front``."""
    parts = {key: more.pop(key) for key in ("truck", "rules", "record", "floor") if key in more}
    readings = set_up("S1", A_wall=[("0", "48"), ("24", low)], A_toe=[("0", "48"), ("24", front)])
    a_job = job(readings, boxes=[box(1, 24, **more)], **parts)
    _, shims = shimmed(a_job, run(place(1, 0, inch(24))))
    return {shim.name: shim for shim in shims.shims}, shims


def test_a_shim_is_rounded_to_a_thirty_second_once_halves_up() -> None:
    """1/64 prints 1/32, 3/64 prints 1/16, and the exact thickness stays beside it."""
    one, _ = _under("48 1/64")
    assert (one["1 back-right"].thickness.value, one["1 back-right"].printed) == (inch("1/64"), inch("1/32"))
    other, _ = _under("48 3/64")
    assert other["1 back-right"].printed == inch("1/16")


def test_a_shim_is_made_up_from_the_job_s_own_truck() -> None:
    """3/16 from a truck of eighths and sixteenths is one of each; without a list the usual stock stands."""
    shims, _ = _under("48 3/16", truck={"shims": ["1/16", "1/8"]})
    assert shims["1 back-right"].stack == (inch("1/8"), inch("1/16"))
    usual, _ = _under("48 3/8")
    assert usual["1 back-right"].stack == (inch("3/8"),)


def test_what_the_truck_leaves_is_one_finding() -> None:
    """5/32 from eighths leaves 1/32, told with the point."""
    shims, result = _under("48 5/32", truck={"shims": ["1/8"]})
    assert shims["1 back-right"].remainder == inch("1/32")
    (finding,) = result.findings
    assert (finding.code, finding.rank) == ("shims-do-not-make-up", "watch")
    assert "1 back-right 5/32" in finding.text


def test_the_high_spot_has_no_shim_and_is_marked() -> None:
    """One point rests on it."""
    shims, _ = _under("48 1/4")
    assert [shim.name for shim in shims.values() if shim.is_high_spot] == ["1 back-left"]
    assert shims["1 back-left"].printed == 0


def test_over_the_limit_it_is_blocked_and_has_no_stack() -> None:
    """3/4 is shimmed, 25/32 is not."""
    within, _ = _under("48 3/4")
    assert (within["1 back-right"].over_limit, within["1 back-right"].stack) == (False, (inch("3/4"),))
    over, _ = _under("48 25/32")
    assert (over["1 back-right"].over_limit, over["1 back-right"].stack) == (True, ())
    own, _ = _under("48 1/2", rules={"shim-limit": "3/8"})
    assert own["1 back-right"].over_limit


def test_why_a_shim_is_what_it_is() -> None:
    """The reading as typed, then the subtraction in the crew's notation."""
    shims, _ = _under("48 3/32")
    figure = shims["1 back-right"].thickness
    assert figure.readings == ("S1 A 24 wall: 48 3/32",)
    assert figure.working == (
        "floor at 1 back-right: 48 3/32 down (S1 A 24 wall: 48 3/32)",
        "tops 13 1/2 down, box 34 1/2 high: its foot 48 down; floor 48 3/32 down: 3/32 between them",
    )


def test_a_point_without_a_number_prints_a_question_mark() -> None:
    """No value, no printed number, no stack, and the reason in its working."""
    readings = set_up("S1", A_wall=[("0", "48")], A_toe=[("0", "48")])
    _, shims = shimmed(job(readings, boxes=[box(1, 40)]), run(place(1, 0, inch(40))))
    far = next(shim for shim in shims.shims if shim.name == "1 back-right")
    assert (far.thickness.value, far.printed, far.stack) == (None, None, ())
    assert far.thickness.working == ("no reading near enough, or too much doubt: ? stands here",)


def test_a_box_stands_on_the_covering_that_comes_before_it() -> None:
    """Under every box alike it lifts the line and changes no shim; under one side it takes from that shim."""
    plain, _ = _under("48 1/2")
    covering = {"name": "tile", "thickness": "1/4", "when": "before boxes"}
    everywhere, _ = _under("48 1/2", floor={"coverings": [covering]})
    assert {name: shim.printed for name, shim in everywhere.items()} == {
        name: shim.printed for name, shim in plain.items()
    }
    part = {**covering, "areas": [{"wall": "A", "left": 12}]}
    right, _ = _under("48 1/2", floor={"coverings": [part]})
    assert right["1 back-right"].thickness.value == inch("1/2")
    assert right["1 back-left"].thickness.value == inch("1/4")


def test_a_leg_is_given_by_its_height() -> None:
    """4 1/2 where the floor is highest, as much more as it is lower elsewhere."""
    shims, _ = _under("48 3/8", **LEGS)
    assert {shim.kind for shim in shims.values()} == {ShimKind.LEG}
    assert shims["1 back-left"].printed == inch("4 1/2")
    assert shims["1 back-right"].printed == inch("4 7/8")
    assert all(shim.stack == () for shim in shims.values())


def test_a_leg_out_of_its_range_is_told() -> None:
    """At 5 1/8 a leg that turns out to 5 is too short."""
    shims, result = _under("48 5/8", front="48 5/8", **LEGS)
    assert shims["1 back-right"].over_limit
    (finding,) = result.findings
    assert finding.code == "leg-out-of-range"
    assert "1 back-right 5 1/8" in finding.text


def test_a_ledger_is_given_by_how_far_it_lies_below_the_tops() -> None:
    """A box 34 1/2 high over 4 1/2 of leg hangs its underside 30 below the tops, 30 1/8 below the line."""
    shims, _ = _under("44", **{**LEGS, "support": "ledger and front legs"})
    ledger = shims["1 back-right"]
    assert (ledger.kind, ledger.printed) == (ShimKind.LEDGER, inch(30))
    assert "30 1/8 below the struck line" in ledger.thickness.working[0]
    assert shims["1 front-right"].kind is ShimKind.LEG


def test_a_ladder_base_is_shimmed_like_a_side() -> None:
    """Its corners take shims from the truck, under the box's whole height."""
    shims, _ = _under("48 1/4", support="ladder base")
    assert shims["1 back-right"].kind is ShimKind.LADDER
    assert shims["1 back-right"].stack == (inch("1/4"),)


def test_metric_shims_are_whole_millimetres() -> None:
    """2.5 prints 3, made up from 1, 2, 3, 5, 10 and 15."""
    readings = set_up("S1", A_wall=[("0", "1200"), ("600", "1202.5")], A_toe=[("0", "1200"), ("600", "1208")])
    boxes = [box(1, 600, height=870, depth=560)]
    walls = [{"name": "A", "lengths": [{"length": 3600}]}]
    a_job = job(readings, boxes=boxes, walls=walls, tape="metric")
    _, shims = shimmed(a_job, run(place(1, 0, mm(600), bottom=-mm(870), depth=mm(560))))
    by_name = {shim.name: shim for shim in shims.shims}
    assert by_name["1 back-right"].printed == mm(3)
    assert by_name["1 front-right"].stack == (mm(5), mm(3))
