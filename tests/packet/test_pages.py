"""The data of each page, before it is typeset: what is said, and what is left unsaid."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.packet.hand_made import make_job, make_plan
from tests.tape import inch, mm

from setline.lengths import Units
from setline.packet.as_set_sheet import as_set_sheet
from setline.packet.cover import cover_page
from setline.packet.findings_page import findings_page
from setline.packet.floor_page import floor_page
from setline.packet.marks_sheet import marks_sheet
from setline.packet.next_readings import next_page
from setline.packet.picture import Picture
from setline.packet.shim_page import made_of, shim_page
from setline.packet.words_page import words_page
from setline.result import Figure, Finding, FlatnessLine, Plan, Rank, SetUpLine, ShimKind
from setline.result.doubts import Doubts, NextReading
from setline.rules import rule_book
from setline.told import cost_words, finding_words, tops_words, within

PICTURE = Picture(file="x.svg", width=1.0, height=1.0, alt="")


def _with_line(**changed: object) -> Plan:
    """Return the plan with its line in use changed."""
    plan = make_plan()
    first, *others = plan.level_line.set_ups
    set_ups = (replace(first, **changed), *others)
    return replace(plan, level_line=replace(plan.level_line, set_ups=set_ups))


def _line(plan: Plan) -> SetUpLine:
    return plan.level_line.set_ups[0]


def test_a_line_above_the_laser_is_measured_up() -> None:
    """A negative N is told as UP, without its sign."""
    plan = _with_line(printed_level=-inch(3), printed_strike=-inch("3 1/8"))
    cover = cover_page(plan, make_job(), [])
    assert cover["strike"]["number"] == "3 1/8 UP"
    assert "(3 up)" in cover["strike"]["tops"]


def test_a_line_nobody_knows_is_a_question_mark() -> None:
    """Without a reading to support it the cover prints ? and says why."""
    cover = cover_page(_with_line(printed_level=None, printed_strike=None), make_job(), [])
    assert cover["strike"]["number"] == "?"
    assert "no line to strike" in cover["strike"]["tops"]
    assert not any("Strike the line" in step for step in cover["first"])


def test_a_line_struck_at_the_tops_says_so() -> None:
    """With no clearance the tops are at the line."""
    assert tops_words(_line(make_plan()), 0, Units.INCH) == "Box tops are at the line."


def test_the_cover_proves_the_laser_by_its_mark() -> None:
    """The laser is brought back by a mark that was shot from that set-up; without one that is said."""
    assert "from it, the door head reads 30 5/8 up" in " ".join(
        cover_page(make_plan(), make_job(), [])["first"]
    )
    plan = _with_line(set_up="S2")
    assert "no mark to prove it by" in " ".join(cover_page(plan, make_job(), [])["first"])


def test_the_cover_shows_six_open_items_and_counts_the_rest() -> None:
    """A long list does not push the line off the page."""
    many = tuple(
        Finding(code="choose", rank=Rank.DECIDE, where=f"box {number}", text="Choose.") for number in range(9)
    )
    cover = cover_page(replace(make_plan(), findings=many), make_job(), [])
    assert [item["n"] for item in cover["open"]] == [1, 2, 3, 4, 5, 6]
    assert cover["more"] == "And 3 more on the findings page."
    assert cover["warning"] is None


def test_the_caution_defers_to_code_and_trades() -> None:
    """The usual caution stands on the cover."""
    caution = cover_page(make_plan(), make_job(), [])["caution"]
    for part in ("certify nothing", "maker's sheet", "local code", "licensed trades"):
        assert part in caution


def test_one_wall_is_told_in_the_singular() -> None:
    """A job of one wall has one START."""
    plan = make_plan()
    runs = tuple(run for run in plan.runs if run.wall == "A")
    assert cover_page(replace(plan, runs=runs), make_job(), [])["starts"][0].startswith(
        "Wall A: the left corner"
    )


def test_a_finding_is_not_told_twice_where_it_is() -> None:
    """A sentence that names its place is left as it is."""
    finding = Finding(code="x", rank=Rank.NOTE, where="B base", text="B base fits by a hair.")
    assert finding_words(finding) == "B base fits by a hair."
    assert finding_words(replace(finding, text="Fits by a hair.")) == "B base: Fits by a hair."


def test_findings_keep_their_number_rank_and_ground() -> None:
    """Each finding has its number in the list, and the readings and the rule it rests on."""
    page = findings_page(make_plan(unsolved=("B base",)), rule_book())
    assert [row["n"] for row in page["findings"]] == [1, 2, 3]
    assert page["beside"] == "1 STOP, 1 DECIDE, 1 WATCH"
    assert "S1 A 16 wall: 48" in (page["findings"][1]["rests"] or "")
    assert "Rule struck-line-clearance" in (page["findings"][1]["rests"] or "")
    assert page["findings"][2]["rests"] is None


def test_what_a_way_out_costs() -> None:
    """Hours and waiting days, each only where there are some."""
    assert cost_words(0.5, 14) == "0.5 h, waits 14 days"
    assert cost_words(4, 1) == "4 h, waits 1 day"
    assert cost_words(2, 0) == "2 h"
    assert cost_words(0, 0) == ""


def test_a_mark_says_how_far_it_may_move() -> None:
    """The play of a mark is rounded inwards to the tape, and left out where it is less than a step."""
    sheet = marks_sheet(make_plan(), "A", PICTURE)
    third = sheet["runs"][0]["marks"][2]
    assert third["write"] == "16 1/4 |3>"
    assert third["what"] == ["body edge of 3, within 1/32", "may lie 16 1/16 to 16 3/8"]
    assert third["as_set"]


def test_what_goes_into_an_opening_stands_under_its_mark() -> None:
    """The sign is one line, the opening's name and width another."""
    plan = make_plan()
    run = plan.runs[0]
    marks = (replace(run.marks[0], write="88 7/8 <6| dishwasher 24 1/8"), *run.marks[1:])
    sheet = marks_sheet(replace(plan, runs=(replace(run, marks=marks), *plan.runs[1:])), "A", PICTURE)
    first = sheet["runs"][0]["marks"][0]
    assert (first["write"], first["beside"]) == ("88 7/8 <6|", "dishwasher 24 1/8")


def test_the_floor_row_of_a_box_has_its_four_corners() -> None:
    """Under each corner stands its thickness, the high spot by name, ? where nothing was read."""
    rows = {row["box"]: row["corners"] for row in marks_sheet(make_plan(), "A", PICTURE)["shims"]}
    assert rows["2 drawers 15"] == ["5/16", "X 0 HIGH", "11/32", "11/32"]
    assert rows["4 sink 36"][3] == "?"


def test_a_corner_on_a_ledger_has_nothing_under_it() -> None:
    """Where the wall carries a box no thickness is written on the floor."""
    plan = make_plan()
    first, *others = plan.shims
    shims = (replace(first, kind=ShimKind.LEDGER, printed=inch(30)), *others)
    row = marks_sheet(replace(plan, shims=shims), "A", PICTURE)["shims"][0]
    assert row["corners"][0] == "ledger"


def test_a_marks_sheet_names_its_troubles_by_their_number() -> None:
    """What stops a wall stands on its sheet, and on no other wall's."""
    plan = make_plan(unsolved=("B base",))
    assert marks_sheet(plan, "B", PICTURE)["troubles"][0].startswith("1 STOP: Wall B is 1/2 short")
    assert marks_sheet(plan, "A", PICTURE)["troubles"] == []
    assert marks_sheet(plan, "B", PICTURE)["warning"] == "DO NOT SET B base"


def test_a_wall_without_bearing_points_has_no_shim_page() -> None:
    """A wall with wall boxes alone needs no shims."""
    plan = make_plan()
    assert shim_page(replace(plan, shims=()), "A", PICTURE) is None


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"stack": (inch("1/4"), inch("1/16"))}, "1/4 + 1/16"),
        ({"stack": (inch("1/4"),), "remainder": inch("1/32")}, "1/4, and 1/32 that is not on the truck"),
        ({"stack": (), "remainder": inch("1/32")}, "1/32: no shim on the truck makes it up"),
        ({"printed": None}, "not read: see What to read next"),
        ({"over_limit": True}, "over the limit: block it, no stack of shims"),
        ({"is_high_spot": True}, "HIGH SPOT: sits on the floor"),
        ({"printed": 0, "stack": ()}, "sits on the floor"),
        ({"kind": ShimKind.LEG, "printed": inch(5)}, "turn the leg to 5"),
        ({"kind": ShimKind.LEG, "printed": inch(9), "over_limit": True}, "the leg does not turn to 9"),
        ({"kind": ShimKind.LADDER, "printed": inch(4)}, "ladder base 4 high here"),
        ({"kind": ShimKind.LEDGER, "printed": inch(30)}, "ledger: its upper edge 30 below the box tops"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_what_a_point_is_made_up_of(changed: dict[str, object], words: str) -> None:
    """Each kind of support says in words what to do there."""
    shim = next(shim for shim in make_plan().shims if shim.printed and not shim.over_limit)
    assert made_of(replace(shim, **changed), Units.INCH).startswith(words)


@pytest.mark.parametrize(
    ("slope", "words"),
    [
        (inch("5/16"), "5/16 up to the right"),
        (-inch("1/8"), "1/8 down to the right"),
        (0, "level"),
        (None, "?"),
    ],
)
def test_a_slope_is_told_by_its_way(slope: int | None, words: str) -> None:
    """A fall says which way it goes, facing the wall; a line of two readings has no gap."""
    plan = make_plan()
    line = FlatnessLine(
        name="A toe line",
        gap=Figure(value=None),
        gap_at=inch(40),
        slope=Figure(value=slope),
        ff=None,
        fl=None,
    )
    page = floor_page(replace(plan, floor=replace(plan.floor, flatness=(line,))), rule_book(), PICTURE)
    row = page["flatness"][0]
    assert (row["slope"], row["gap"], row["at"], row["numbers"]) == (words, "?", "", "")


def test_the_floor_page_tells_limits_and_ways_in_the_crews_numbers() -> None:
    """Limits are measured down from the laser line; a way to live with the fall says what is trimmed."""
    page = floor_page(make_plan(), rule_book(), PICTURE)
    assert [row["tops"] for row in page["band"]] == ["13 1/2 down", "12 3/4 down"]
    assert [row["side"] for row in page["band"]] == ["or higher", "or lower"]
    assert page["options"][0]["trim"] == "2: 1/4, 24: 1/8"
    assert page["flatness"][0]["numbers"] == "FF 31, FL 23"
    assert page["gap_head"] == "Gap under 10' edge"


def test_what_to_read_next_is_what_helps_the_line_and_then_what_a_question_mark_waits_for() -> None:
    """Each row says where and why; points at one spot share a row."""
    reading = NextReading(
        spot="A 64 toe",
        wall="A",
        u=inch(64),
        out=inch("20 7/8"),
        again=False,
        within_before=inch("1/16"),
        within_after=inch("1/32"),
        would_settle="Read A 64 toe.",
    )
    page = next_page(make_plan(), Doubts(next_readings=(reading,)))
    assert [row["where"] for row in page["rows"]] == ["A 64 toe", "A 76 3/8, 20 7/8 out from the wall"]
    assert "4 front-right" in page["rows"][1]["why"]
    assert page["lines"] == []


def test_nothing_left_to_read_says_so() -> None:
    """With every point read and no doubts asked for, the page says that none prints as ?."""
    plan = make_plan()
    known = tuple(shim for shim in plan.shims if shim.printed is not None)
    assert "none prints as ?" in next_page(replace(plan, shims=known), None)["lines"][0]


def test_the_as_set_sheet_asks_for_both_edges_of_everything_that_is_set() -> None:
    """A row has the marks of its two edges; a run that cannot be solved has ? and is headed so."""
    page = as_set_sheet(make_plan(unsolved=("B base",)))
    assert [(row["number"], row["left"], row["right"]) for row in page["runs"][0]["rows"]][1] == (
        "2",
        "1 1/4",
        "16 1/4",
    )
    assert page["runs"][2]["name"] == "B base: DO NOT SET"
    assert {row["left"] for row in page["runs"][2]["rows"]} == {"?"}


def test_every_drawn_sign_is_explained() -> None:
    """The page of words has a meaning beside every word and every drawn sign."""
    rows = words_page()["rows"]
    assert all(row["means"] for row in rows)
    assert all(bool(row["sign"]) != bool(row["drawn"]) for row in rows)


def test_a_doubt_is_rounded_up_to_the_tape() -> None:
    """Within is never told smaller than it is; none is told where none was worked out."""
    assert within(Figure(value=0, within=inch("1/64")), Units.INCH) == "within 1/32"
    assert within(Figure(value=0, within=mm("0.6")), Units.METRIC) == "within 1"
    assert within(Figure(value=0), Units.INCH) == ""
    assert within(Figure(value=None, within=5), Units.INCH) == ""
    assert within(Figure(value=0, within=0), Units.INCH) == ""
