"""What the crew must know of laser, readings and floor: each finding with its rank, numbers and cure."""

from __future__ import annotations

from typing import Any

import pytest
from tests.stages.floor.kitchens import box, job, levelled, place, run, set_up
from tests.tape import inch

from setline.job.job import Job
from setline.result import Finding, ItemKind, Rank
from setline.stages.floor import FloorResult

FOOT = [(str(u), "48") for u in range(0, 145, 12)]


def _result(a_job: Job) -> FloorResult:
    """Return the floor of a job with box 1 from 12 to 36."""
    return levelled(a_job, run(place(1, inch(12), inch(36))))


def _findings(*set_ups: dict[str, Any], **parts: Any) -> dict[str, Finding]:
    """Return the findings of a job with one box by code."""
    set_ups = set_ups or (set_up("S1", A_wall=FOOT, A_toe=FOOT),)
    return {each.code: each for each in _result(job(*set_ups, boxes=[box(1)], **parts)).findings}


def test_a_floor_read_well_says_only_that_the_laser_was_not_proved() -> None:
    """Level, read every foot on both lines: nothing is wanting."""
    found = _findings()
    assert [each.code for each in found.values()] == ["laser-not-proved"]
    assert found["laser-not-proved"].rank is Rank.NOTE


LASER = {"error": "1/8", "over": "30 ft"}


@pytest.mark.parametrize(("difference", "holds"), [("1/8", True), ("9/64", False)])
def test_the_two_wall_reversal_may_miss_by_twice_the_rating_over_the_distance(
    difference: str, holds: bool
) -> None:
    """Over 15 ft a laser of 1/8 at 30 ft may miss by 1/8; more is a decide."""
    proof = {"distance": "15 ft", "difference": difference}
    found = _findings(tools={"laser": {**LASER, "proof": proof}})
    assert ("laser-out-of-rating" not in found) is holds
    assert "laser-not-proved" not in found
    if not holds:
        assert found["laser-out-of-rating"].rank is Rank.DECIDE
        assert "missed by 9/64, where the laser's rating allows 1/8" in found["laser-out-of-rating"].text


def test_the_two_peg_test_is_judged_too() -> None:
    """From midway the second mark is 2 lower; from close up it seems 2 1/4 lower: out of rating."""
    pegs = {"midway": ["10", "12"], "close": ["10", "12 1/4"], "near": "3 ft", "far": "23 ft"}
    found = _findings(tools={"laser": {**LASER, "pegs": pegs}})
    assert "two-peg test missed by 1/4" in found["laser-out-of-rating"].text


@pytest.mark.parametrize(("again", "holds"), [("48 1/16", True), ("48 3/32", False), ("47 7/8", False)])
def test_a_closing_shot_over_the_limit_is_a_decide(again: str, holds: bool) -> None:
    """1/16 either way is two readings' own doubt."""
    first = {**set_up("S1", A_wall=FOOT, A_toe=FOOT), "closing": {"first": "48", "again": again}}
    found = _findings(first)
    assert ("closing-shot-off" not in found) is holds
    if not holds:
        assert found["closing-shot-off"].rank is Rank.DECIDE
        assert found["closing-shot-off"].readings == (f"S1 closing: 48, {again}",)


def test_a_set_up_without_a_tie_is_watched() -> None:
    """It says how many readings stand nowhere as read."""
    found = _findings(set_up("S1", A_wall=FOOT, A_toe=FOOT), set_up("S2", A_12=[("20", "40"), ("30", "40")]))
    assert found["set-up-not-tied"].rank is Rank.WATCH
    assert "its 2 readings" in found["set-up-not-tied"].text


def test_marks_that_disagree_are_watched() -> None:
    """Two marks that tell of heights 3/16 apart cannot both be right within four readings' doubt."""
    one = [{"name": "nail", "down": "10"}, {"name": "sill", "down": "12"}]
    other = [{"name": "nail", "down": "11"}, {"name": "sill", "down": "13 3/16"}]
    found = _findings(
        set_up("S1", marks=one, A_wall=FOOT, A_toe=FOOT), set_up("S2", marks=other, A_12=[("60", "49")])
    )
    assert "differ by 3/16" in found["marks-disagree"].text


def test_readings_of_one_spot_that_disagree_are_watched() -> None:
    """3/16 apart at one spot is a slip; the two are named as typed."""
    found = _findings(set_up("S1", A_wall=[*FOOT, ("60", "48 3/16")], A_toe=FOOT))
    finding = found["readings-disagree"]
    assert finding.rank is Rank.WATCH
    assert finding.readings == ("S1 A 60 wall: 48", "S1 A 60 wall take 2: 48 3/16")


def test_few_readings_are_watched() -> None:
    """Under a dozen the plan says so, with how many are wanted."""
    four = set_up("S1", A_wall=[("12", "48"), ("36", "48")], A_toe=[("12", "48"), ("36", "48")])
    finding = _findings(four)["few-readings"]
    assert finding.rank is Rank.WATCH
    assert finding.text.startswith("4 floor readings, where 12")
    assert "8 more" in finding.remedies[0].text


def test_no_reading_across_the_depth_is_watched() -> None:
    """All on the toe line: the fall towards the wall is a guess, and the wall line is asked for."""
    finding = _findings(set_up("S1", A_toe=FOOT))["no-reading-across"]
    assert finding.rank is Rank.WATCH
    assert "no reading at the wall line" in finding.text
    assert finding.remedies[0].text == "Read wall A, wall line."


def test_one_finding_a_stretch_names_the_readings_to_take() -> None:
    """Both shims of a side that no reading lies near are asked for in one sentence."""
    readings = [("0", "48"), ("12", "48"), ("24", "48")]
    a_job = job(set_up("S1", A_wall=readings, A_toe=readings), boxes=[box(3, 40)])
    result = levelled(a_job, run(place(3, inch(24), inch("64 1/2"))))
    (finding,) = [each for each in result.findings if each.remedies and each.where == "A 64"]
    assert finding.text.startswith("No reading within 12 of box 3's right side: ? stands there.")
    assert finding.text.endswith("Read A 64, wall and toe line.")
    assert finding.remedies[0].kind == "more-readings"


def test_a_long_stretch_asks_for_as_few_places_as_reach_it() -> None:
    """Four boxes past the last reading are one finding, and no place is asked for that another reaches."""
    readings = [("0", "48"), ("12", "48"), ("24", "48")]
    a_job = job(set_up("S1", A_wall=readings, A_toe=readings), boxes=[box(n, 12) for n in (1, 2, 3, 4)])
    places = [place(n, inch(36 + 12 * n), inch(48 + 12 * n)) for n in (1, 2, 3, 4)]
    asked = [
        each
        for each in levelled(a_job, run(*places)).findings
        if each.code in ("not-read", "high-spot-unread")
    ]
    assert len(asked) == 1
    assert "Read A 60 and A 96, wall and toe line." in asked[0].text


def test_doubt_is_told_apart_from_distance() -> None:
    """Where readings are near but the surface is unsure, the doubt and the limit stand in the sentence."""
    readings = [("0", "48"), ("20", "48 1/2"), ("40", "48")]
    a_job = job(
        set_up("S1", A_wall=readings, A_toe=readings), boxes=[box(1, 10)], rules={"doubt-limit": "1/16"}
    )
    result = levelled(a_job, run(place(1, inch(10), inch(20))))
    finding = next(each for each in result.findings if each.code in ("not-read", "high-spot-unread"))
    assert "only, where 1/16 is asked" in finding.text


def test_openings_without_a_covering_named_are_watched() -> None:
    """Whether a floor is still to come decides a dishwasher's height."""
    washer = {"number": 21, "kind": "dishwasher", "width": {"least": 24}, "height": {"least": "33"}}
    a_job = job(set_up("S1", A_wall=FOOT, A_toe=FOOT), boxes=[box(1)], order={"appliances": [washer]})
    opening = place(21, inch(36), inch(60), kind=ItemKind.OPENING)
    result = levelled(a_job, run(place(1, inch(12), inch(36)), opening))
    finding = next(each for each in result.findings if each.code == "covering-not-known")
    assert "dishwasher 21" in finding.text


def test_an_opening_no_reading_lies_near_is_asked_for() -> None:
    """The height there cannot be judged, so it is a stretch to read like any other."""
    washer = {"number": 21, "kind": "dishwasher", "width": {"least": 24}, "height": {"least": "33"}}
    near = FOOT[:4]
    a_job = job(set_up("S1", A_wall=near, A_toe=near), boxes=[box(1)], order={"appliances": [washer]})
    opening = place(21, inch(100), inch(124), kind=ItemKind.OPENING)
    result = levelled(a_job, run(place(1, inch(12), inch(36)), opening))
    finding = next(each for each in result.findings if each.where == "A 100 to 124")
    assert "dishwasher 21's left side and dishwasher 21's right side" in finding.text
    assert not any("dishwasher" in limit.owner for limit in result.level_line.band.limits)


def test_the_fall_of_the_floor_is_a_note() -> None:
    """Each foot 1/32 lower to the right falls 5/16 in 10 ft, told once for the steepest line."""
    falling = [(str(12 * n), f"48 {n}/32" if n else "48") for n in range(13)]
    finding = _findings(set_up("S1", A_wall=falling, A_toe=FOOT))["floor-slope"]
    assert finding.rank is Rank.NOTE
    assert finding.text == "The floor falls 5/16 in 10' to the right along A wall line."


def test_a_hump_that_no_gap_shows_is_told() -> None:
    """A floor 3/8 higher in its middle has no gap under the straightedge, which rocks on it."""
    crowned = [("0", "48 3/8"), ("30", "48 3/16"), ("60", "48"), ("90", "48 3/16"), ("120", "48 3/8")]
    finding = _findings(set_up("S1", A_wall=crowned, A_toe=FOOT))["floor-slope"]
    assert finding.text.endswith(" It rocks on a hump of 3/8, A wall line at 60.")


def test_flatness_lines_stand_wall_by_wall_with_e1155_only_where_read_for_it() -> None:
    """Thirteen readings a foot apart have numbers, three have none; the gap is at the low reading."""
    hollow = [(str(12 * n), "48 1/8" if n == 5 else "48") for n in range(13)]
    result = _result(
        job(set_up("S1", A_wall=hollow, A_toe=[("0", "48"), ("50", "48"), ("100", "48")]), boxes=[box(1)])
    )
    wall, toe = result.floor.flatness
    assert (wall.name, toe.name) == ("A wall line", "A toe line")
    assert (wall.gap.value, wall.gap_at) == (inch("1/8"), inch(60))
    assert wall.ff is not None
    assert (toe.gap.value, toe.ff, toe.fl) == (0, None, None)


def test_a_step_parts_a_line_of_readings() -> None:
    """Flatness is judged on each side of a step apart."""
    steps = {"steps": [{"wall": "A", "from_u": 66, "from_out": 0, "to_u": 66, "to_out": 30}]}
    lines = [(u, "48" if int(u) < 66 else "48 1/2") for u, _ in FOOT]
    result = _result(job(set_up("S1", A_wall=lines, A_toe=FOOT), boxes=[box(1)], floor=steps))
    names = [line.name for line in result.floor.flatness]
    assert names == ["A wall line", "A wall line, part 2", "A toe line", "A toe line, part 2"]
    assert {line.gap.value for line in result.floor.flatness} == {0}
