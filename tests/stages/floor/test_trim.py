"""A floor that falls too far: the trade-off table, its closed form and its caps."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.stages.floor.kitchens import box, job, levelled, place, run, set_up
from tests.tape import inch

from setline.lengths import Units, show
from setline.result import FallOption, ItemKind
from setline.stages.floor import FloorResult

SIXTEENTH = inch("1/16")


def _falling(falls: list[str], *, boxes: list[dict[str, Any]] | None = None, **parts: Any) -> FloorResult:
    """Return the line of boxes 24 wide, the floor under each level and so much under 48."""
    lows = [inch(48) + inch(fall) for fall in falls]
    edges = [(str(24 * n + side), show(low, Units.INCH)) for n, low in enumerate(lows) for side in (4, 20)]
    boxes = boxes or [box(n, 16) for n in range(1, len(falls) + 1)]
    a_job = job(set_up("S1", A_wall=edges, A_toe=edges), boxes=boxes, **parts)
    places = [place(n, inch(24 * n - 20), inch(24 * n - 4)) for n in range(1, len(falls) + 1)]
    return levelled(a_job, run(*places))


def _of_kind(result: FloorResult, kind: str) -> list[FallOption]:
    """Return the rows of one kind of remedy."""
    return [option for option in result.level_line.options if option.kind == kind]


def test_within_the_limit_there_is_no_table() -> None:
    """3/4 is still shimmed."""
    result = _falling(["0", "3/8", "3/4"])
    assert result.level_line.options == ()
    assert "floor-falls-too-far" not in {finding.code for finding in result.findings}


@pytest.mark.arithmetic("need = 1 1/4 - 3/4 = 1/2; trim = 1/2 - own least shim: 1/2, 1/4")
def test_each_box_is_trimmed_by_what_its_own_high_point_lacks() -> None:
    """Lowered 1/2, boxes whose floor lies 0 and 1/4 under the high spot lose 1/2 and 1/4."""
    last = _of_kind(_falling(["0", "1/4", "5/8", "1 1/4"]), "trim-box")[-1]
    assert last.lowered == inch("1/2")
    assert dict(last.trims) == {1: inch("1/2"), 2: inch("1/4")}
    assert last.greatest_shim == inch("3/4")


def test_the_curve_has_a_row_for_each_further_box() -> None:
    """Trimming box 1 alone gains 1/4 before box 2 is met."""
    first, last = _of_kind(_falling(["0", "1/4", "5/8", "1 1/4"]), "trim-box")
    assert (dict(first.trims), first.greatest_shim) == ({1: inch("1/4")}, inch(1))
    assert len(last.trims) == 2
    assert last.hours > first.hours


def test_what_may_be_trimmed_caps_the_row() -> None:
    """A box that may lose 1/8 only stops the line 1/8 lower; a finished end stops it at once."""
    falls = ["0", "1/4", "5/8", "1 1/4"]
    some = [box(1, 16, may_trim="1/8"), *(box(n, 16) for n in (2, 3, 4))]
    assert [option.lowered for option in _of_kind(_falling(falls, boxes=some), "trim-box")] == [inch("1/8")]
    shown = [box(1, 16, finished=["left"]), *(box(n, 16) for n in (2, 3, 4))]
    assert _of_kind(_falling(falls, boxes=shown), "trim-box") == []


def test_a_ladder_base_takes_the_low_boxes_and_leaves_the_rest() -> None:
    """Under boxes 3 and 4, which are over the limit; the greatest shim left is box 2's."""
    (row,) = _of_kind(_falling(["0", "1/4", "7/8", "1 1/4"]), "ladder-base")
    (one,) = _of_kind(_falling(["0", "1/4", "1/2", "7/8"]), "ladder-base")
    assert (row.what, one.what) == ("Ladder base under boxes 3, 4", "Ladder base under box 4")
    assert "boxes 3, 4" in row.what
    assert (row.lowered, row.greatest_shim) == (0, inch("1/4"))


def test_flattening_the_high_spot_names_how_deep() -> None:
    """The points that stand over the lowered line are counted, the deepest cut told."""
    (row,) = _of_kind(_falling(["0", "5/8", "1 1/4"]), "flatten-floor")
    assert row.lowered == inch("1/2")
    assert row.greatest_shim == inch("3/4")
    assert "4 points from 1 back-left on, 1/2 at most" in row.what


def _with_range(falls: list[str]) -> FloorResult:
    """Return two boxes left and two right of a range, each floor so far under 48."""
    lows = [inch(48) + inch(fall) for fall in falls]
    starts = [4, 28, 82, 106]
    edges = [
        (str(u + side), show(low, Units.INCH))
        for u, low in zip(starts, lows, strict=True)
        for side in (0, 16)
    ]
    cooker = {"number": 33, "kind": "range", "width": {"least": 30}}
    a_job = job(
        set_up("S1", A_wall=edges, A_toe=edges),
        boxes=[box(n, 16) for n in (1, 2, 3, 4)],
        order={"appliances": [cooker]},
    )
    places = [place(n, inch(start), inch(start + 16)) for n, start in enumerate(starts, start=1)]
    opening = place(33, inch(48), inch(78), kind=ItemKind.OPENING)
    return levelled(a_job, run(*places[:2], opening, *places[2:]))


def test_the_line_may_split_at_a_range() -> None:
    """Right of the range the part comes down to its own high spot; the greatest shim is each part's own."""
    result = _with_range(["0", "1/4", "7/8", "1 1/8"])
    (row,) = _of_kind(result, "split-line")
    assert "33" in row.what
    assert (row.lowered, row.greatest_shim) == (inch("7/8"), inch("1/4"))


def test_a_split_that_helps_nothing_is_not_offered() -> None:
    """With the worst fall within one part of the tops, another line elsewhere changes nothing."""
    assert _of_kind(_with_range(["0", "1 1/8", "0", "1/4"]), "split-line") == []


def test_the_table_is_also_the_findings_ways_out_cheapest_first() -> None:
    """By waiting days, then hours; each says what greatest shim is left."""
    result = _falling(["0", "1/4", "5/8", "1 1/4"])
    finding = next(each for each in result.findings if each.code == "floor-falls-too-far")
    assert finding.rank == "decide"
    assert (
        "4 back-left needs 1 1/4, where 3/4 is the most that is shimmed; 4 points are over it."
        in finding.text
    )
    assert [remedy.kind for remedy in finding.remedies] == [
        option.kind for option in result.level_line.options
    ]
    costs = [(remedy.days, remedy.hours) for remedy in finding.remedies]
    assert costs == sorted(costs)
    assert all("greatest shim left" in remedy.text for remedy in finding.remedies)


def test_no_row_lowers_the_tops_past_a_dishwashers_least_height() -> None:
    """A machine that just fits forbids to lower the line at all: only a ladder base is left."""
    falls = ["0", "1/4", "5/8", "1 1/4"]
    lows = [inch(48) + inch(fall) for fall in falls]
    edges = [(str(24 * n + side), show(low, Units.INCH)) for n, low in enumerate(lows) for side in (4, 20)]
    washer = {
        "number": 21,
        "kind": "dishwasher",
        "width": {"least": 20},
        "height": {"least": "34 1/2"},
        "sheet": "from the sheet",
    }
    a_job = job(
        set_up(
            "S1", A_wall=[*edges, ("100", "48"), ("120", "48")], A_toe=[*edges, ("100", "48"), ("120", "48")]
        ),
        boxes=[box(n, 16) for n in (1, 2, 3, 4)],
        order={"appliances": [washer]},
    )
    places = [place(n, inch(24 * n - 20), inch(24 * n - 4)) for n in (1, 2, 3, 4)]
    opening = place(21, inch(100), inch(120), kind=ItemKind.OPENING)
    result = levelled(a_job, run(*places, opening))
    assert [option.kind for option in result.level_line.options] == ["ladder-base"]


@given(st.lists(st.integers(0, 24), min_size=2, max_size=6))
@settings(max_examples=40, deadline=None)
def test_after_the_last_row_every_shim_is_at_least_nothing_and_no_more_than_told(falls: list[int]) -> None:
    """Lowered and trimmed as a row says, no foot comes below the floor and none is over its greatest shim."""
    result = _falling([show(fall * SIXTEENTH, Units.INCH) for fall in falls])
    tops = result.level_line.tops.value or 0
    for option in _of_kind(result, "trim-box"):
        trims = dict(option.trims)
        left = [
            each.at.thickness(tops, each.z or 0) - option.lowered + trims.get(each.at.box or 0, 0)
            for each in result.stood
        ]
        assert min(left) >= 0
        assert max(left) == option.greatest_shim
        assert all(0 < trim <= inch("1/2") for trim in trims.values())
