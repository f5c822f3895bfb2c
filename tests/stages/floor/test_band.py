"""The feasible band: each kind of limit, what binds, how the line is rounded inside it, and an empty one."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.stages.floor.kitchens import box, job, levelled, place, run, set_up
from tests.tape import inch, mm

from setline.lengths import Units
from setline.result import BandLimit, Figure, ItemKind
from setline.rules import rule_book
from setline.stages.floor import FloorResult
from setline.stages.floor.band import choose_tops, lay_band
from setline.stages.floor.limit import Limit, LimitKind

FLAT = [(str(u), "48") for u in range(0, 121, 12)]


def _kitchen(
    *,
    front: list[tuple[str, str]] | None = None,
    appliance: dict[str, Any] | None = None,
    floor: dict[str, Any] | None = None,
    order: dict[str, Any] | None = None,
    wide: dict[str, Any] | None = None,
    **parts: Any,
) -> FloorResult:
    """Return the line of a 36 box beside one opening from 36 to 60, on a floor read every foot."""
    appliances = [{"number": 21, "width": {"least": 24}, **appliance}] if appliance else []
    a_job = job(
        set_up("S1", A_wall=FLAT, A_toe=front or FLAT),
        boxes=[box(1, 36, **(wide or {}))],
        floor=floor,
        order={"appliances": appliances, **(order or {})},
        **parts,
    )
    opening = [place(21, inch(36), inch(60), kind=ItemKind.OPENING)] if appliance else []
    return levelled(a_job, run(place(1, 0, inch(36)), *opening))


def _limit(result: FloorResult, owner: str) -> BandLimit:
    """Return the limit of an owner."""
    return next(each for each in result.level_line.band.limits if each.owner == owner)


def _down(figure: Figure) -> int:
    """Return a height of the tops as it is measured down from the laser."""
    assert figure.value is not None
    return -figure.value


def _dishwasher(least: str, most: str = "36") -> dict[str, Any]:
    """Return a dishwasher by its height."""
    return {"kind": "dishwasher", "height": {"least": least, "most": most}, "sheet": "from the sheet"}


LATER = {"coverings": [{"name": "oak", "thickness": "3/4", "when": "after boxes", "reaches": "toe"}]}


@pytest.mark.arithmetic("48 1/16 - 3/4 - 34 1/8 = 13 3/16, which is 5/16 above 13 1/2")
def test_a_floor_to_come_raises_the_line_for_a_dishwasher() -> None:
    """Case A3: front read 48.1, 48 1/16 and 48.3 at the opening, 3/4 to come: the line goes up 5/16."""
    front = [("0", "48 3/32"), ("36", "48 1/16"), ("48", "48 5/16"), ("60", "48 5/16")]
    result = _kitchen(front=front, appliance=_dishwasher("34 1/8"), floor=LATER)
    assert _down(_limit(result, "dishwasher 21, least height").tops) == inch("13 3/16")
    assert result.level_line.set_ups[0].printed_level == inch("13 3/16")
    finding = next(each for each in result.findings if each.code == "line-above-high-spot")
    assert finding.rank == "decide"
    assert finding.by_how_much == inch("5/16")
    assert "dishwasher 21, least height, sets the line: 13 3/16 down, which is 5/16 above" in finding.text


@pytest.mark.arithmetic("34 1/2 less 3/4 is 33 3/4")
def test_a_base_on_the_subfloor_leaves_33_3_4_once_3_4_is_down() -> None:
    """A dishwasher that needs exactly 33 3/4 leaves the high spot's line alone; 1/16 more lifts it."""
    fits = _kitchen(appliance=_dishwasher("33 3/4"), floor=LATER)
    short = _kitchen(appliance=_dishwasher("33 13/16"), floor=LATER)
    assert fits.level_line.set_ups[0].printed_level == inch("13 1/2")
    assert short.level_line.set_ups[0].printed_level == inch("13 7/16")


@pytest.mark.arithmetic("34 1/2 and 3 cm (1 3/16) make 35 11/16")
def test_a_range_is_measured_to_the_upper_face_of_the_tops() -> None:
    """34 1/2 and a 1 3/16 top are 35 11/16: a range that wants 35 7/8 is 3/16 short."""
    wants = {"kind": "range", "height": {"least": "35 7/8"}, "height_to": "top of the top"}
    result = _kitchen(appliance=wants, order={"tops": {"thickness": "1 3/16"}})
    finding = next(each for each in result.findings if each.code == "line-above-high-spot")
    assert finding.by_how_much == inch("3/16")
    assert any("3/16 of packer under the top" in remedy.text for remedy in finding.remedies)
    assert any(remedy.kind == "check-sheet" for remedy in finding.remedies)


def test_without_the_tops_thickness_a_range_sets_no_limit_and_it_is_said() -> None:
    """What is not known binds nothing, but somebody is told."""
    wants = {"kind": "range", "height": {"least": "37"}, "height_to": "top of the top"}
    result = _kitchen(appliance=wants)
    assert result.level_line.set_ups[0].printed_level == inch("13 1/2")
    assert "top-thickness-not-known" in {finding.code for finding in result.findings}


def test_a_refrigerator_taller_than_the_bases_asks_nothing_of_the_tops() -> None:
    """70 clear is not asked for under the tops."""
    result = _kitchen(appliance={"kind": "refrigerator", "height": {"least": "70"}})
    assert [limit.owner for limit in result.level_line.band.limits if limit.is_least] == [
        "high spot, 1 back-left"
    ]


def test_a_covering_up_to_the_toe_line_counts_where_a_machine_slides_in_not_where_it_stands() -> None:
    """It takes from the least height at the toe line, and gives nothing to the greatest."""
    result = _kitchen(appliance=_dishwasher("33", most="35"), floor=LATER)
    assert _down(_limit(result, "dishwasher 21, least height").tops) == inch("14 1/4")
    assert _down(_limit(result, "dishwasher 21, greatest height").tops) == inch("13")


def test_the_greatest_height_counts_at_the_lowest_corner() -> None:
    """Where the floor under an opening falls, its machine's feet run out first at the low corner."""
    front = [("0", "48"), ("36", "48"), ("60", "48 1/4")]
    result = _kitchen(front=front, appliance=_dishwasher("33", most="35"))
    limit = _limit(result, "dishwasher 21, greatest height")
    assert _down(limit.tops) == inch("13 1/4")
    assert limit.tops.readings == ("S1 A 60 toe: 48 1/4",)


def test_a_tall_box_must_be_eased_in_under_the_low_ceiling() -> None:
    """Its own foot, its height and the clearance count from the lowest ceiling reading near it."""
    ceiling = [
        {"set_up": "S1", "wall": "A", "u": "20", "up": "48"},
        {"set_up": "S1", "wall": "A", "u": "110", "up": "40"},
    ]
    a_job = job(
        set_up("S1", A_wall=FLAT, A_toe=FLAT),
        boxes=[box(1, 36, kind="tall", height="95 7/8")],
        room={"ceiling": ceiling},
    )
    tall = place(1, 0, inch(36), top=inch("95 7/8") - inch("34 1/2"))
    result = levelled(a_job, run(tall))
    limit = _limit(result, "ceiling over tall box 1")
    assert _down(limit.tops) == inch("61 3/8") + inch("1/4") - inch(48)
    assert result.level_line.band.is_empty
    stop = next(each for each in result.findings if each.code == "no-line-fits")
    assert stop.rank == "stop"
    assert stop.by_how_much == inch("1/8")
    assert [remedy.kind for remedy in stop.remedies] == ["trim-box", "cut-plaster", "flatten-floor"]


def test_a_tall_box_with_no_ceiling_reading_near_it_is_asked_for() -> None:
    """A reading farther off than 12 in says nothing of it."""
    a_job = job(set_up("S1", A_wall=FLAT, A_toe=FLAT), boxes=[box(1, 36, kind="tall", height=84)])
    findings = levelled(a_job, run(place(1, 0, inch(36)))).findings
    assert next(each.where for each in findings if each.code == "ceiling-not-read") == "A base 1"


def test_a_sill_over_the_bases_limits_them_with_top_and_joint() -> None:
    """A sill 36 up from the subfloor leaves 36 less 1/8 less the top's 1 1/4 to the box tops."""
    window = {"name": "w", "left": 4, "right": 20, "sill": {"up": "36", "from": "subfloor"}}
    walls = [{"name": "A", "lengths": [{"length": "12 ft"}], "windows": [window]}]
    result = _kitchen(walls=walls, order={"tops": {"thickness": "1 1/4"}})
    assert _down(_limit(result, "sill of w").tops) == inch(48) - inch("34 5/8")


def test_a_window_beside_the_bases_limits_nothing() -> None:
    """Only what stands over a box or an opening does."""
    window = {"name": "w", "left": 70, "right": 90, "sill": {"up": "30", "from": "subfloor"}}
    walls = [{"name": "A", "lengths": [{"length": "12 ft"}], "windows": [window]}]
    assert not any(limit.owner == "sill of w" for limit in _kitchen(walls=walls).level_line.band.limits)


def test_the_toe_kick_limits_the_line_at_the_lowest_front_point() -> None:
    """Strip 4 1/2 and shoe 1/2 cover a toe space of 5: a front 5/8 below the high spot is 1/8 too low."""
    front = [("0", "48 5/8"), ("36", "48 3/8")]
    result = _kitchen(front=front)
    assert _down(_limit(result, "toe kick, 1 front-left").tops) == inch("13 5/8")
    stop = next(each for each in result.findings if each.code == "no-line-fits")
    assert (stop.rank, stop.by_how_much) == ("stop", inch("1/8"))
    assert result.level_line.set_ups[0].printed_level == inch("13 1/2")
    assert stop.remedies[0].kind == "trim-box"
    assert {remedy.kind for remedy in stop.remedies} == {"trim-box", "wider-kick", "flatten-floor"}
    assert "Cheapest way out: " + stop.remedies[0].text in stop.text


def test_a_floor_to_come_shortens_the_toe_space() -> None:
    """3/4 more floor leaves the kick 3/4 more reserve."""
    result = _kitchen(front=[("0", "48 5/8"), ("36", "48 3/8")], floor=LATER)
    assert not result.level_line.band.is_empty


def _legs(**more: Any) -> dict[str, Any]:
    """Return what makes a box stand on legs of nominally 4 1/2, from 4 to 5."""
    return {"support": "legs", "toe_height": "4 1/2", "legs": {"least": 4, "most": 5}, **more}


def test_legs_limit_the_line_both_ways() -> None:
    """Turned all the way in at the high spot and all the way out at the low one."""
    a_job = job(
        set_up("S1", A_wall=[("2", "48"), ("34", "48 1/4")], A_toe=[("2", "48 3/8"), ("34", "48")]),
        boxes=[box(1, 36, **_legs())],
    )
    result = levelled(a_job, run(place(1, 0, inch(36))))
    line = result.level_line
    assert _down(_limit(result, "legs all the way in, 1 back-left").tops) == inch(14)
    assert _down(_limit(result, "legs all the way out, 1 front-left").tops) == inch("13 3/8")
    assert line.set_ups[0].printed_level == inch("13 1/2")


def test_a_top_that_stays_fixes_the_line_at_its_own_height() -> None:
    """Its upper face less the new tops' thickness is least and greatest; the line takes a finer step."""
    standing = {
        "number": 90,
        "name": "old top",
        "wall": "A",
        "left": 100,
        "right": 130,
        "top": {"down": "12 3/64", "from": "laser S1"},
    }
    result = _kitchen(order={"existing": [standing], "tops": {"thickness": "1 1/4"}})
    line = result.level_line
    assert line.band.lowest == line.band.highest == line.tops.value == -inch("13 19/64")
    assert line.band.binds_low == "top of old top 90"


def test_limits_stand_most_binding_first_on_each_side() -> None:
    """The band's ends are the first least and the first greatest."""
    band = _kitchen(appliance=_dishwasher("34 3/4", most="36")).level_line.band
    lows = [limit.tops.value or 0 for limit in band.limits if limit.is_least]
    highs = [limit.tops.value or 0 for limit in band.limits if not limit.is_least]
    assert lows == sorted(lows, reverse=True)
    assert highs == sorted(highs)
    assert (band.lowest, band.highest) == (lows[0], highs[0])
    assert band.binds_low == "dishwasher 21, least height"


def _made(kind: LimitKind, tops: int, *, is_least: bool, may_trim: int = 0) -> Limit:
    """Return a limit."""
    return Limit(
        kind=kind, owner=str(kind), is_least=is_least, tops=Figure(value=tops), number=1, may_trim=may_trim
    )


@given(
    st.integers(-(10**6), 10**6),
    st.integers(-(10**6), 10**6),
    st.integers(-(10**6), 10**6),
    st.sampled_from(Units),
)
def test_the_chosen_line_lies_in_the_band_and_as_low_as_its_step_allows(
    high_spot: int, least: int, most: int, units: Units
) -> None:
    """In a band that is not empty every limit holds, and no line a step lower would do."""
    limits = [
        _made(LimitKind.HIGH_SPOT, high_spot, is_least=True),
        _made(LimitKind.CLEAR_BELOW, least, is_least=True),
        _made(LimitKind.CEILING, most, is_least=False),
    ]
    choice = choose_tops(limits, units)
    assert choice is not None
    low = max(high_spot, least)
    step = inch("1/16") if units is Units.INCH else mm(1)
    if low <= most:
        assert low <= choice.tops <= most
        assert choice.tops - low < step
        assert choice.tops % step == 0 or choice.tops // step < most // step + 1
    else:
        assert 0 <= choice.tops - high_spot < step
        assert choice.tops % step == 0


def test_without_a_high_spot_nothing_sets_a_line() -> None:
    """A dishwasher alone asks for a height but no box stands to be levelled."""
    assert choose_tops([_made(LimitKind.CLEAR_BELOW, 5, is_least=True)], Units.INCH) is None


def test_a_way_out_that_would_leave_the_band_empty_is_not_offered() -> None:
    """High spot and dishwasher both lie over the ceiling: only the ceiling's own ways out cure both."""
    limits = [
        _made(LimitKind.HIGH_SPOT, 100, is_least=True, may_trim=10**6),
        _made(LimitKind.CLEAR_BELOW, 200, is_least=True),
        _made(LimitKind.CEILING, 50, is_least=False, may_trim=10**6),
    ]
    band = lay_band(limits, rule_book(), Units.INCH)
    assert band.is_empty
    ways = {limit.owner: [remedy.kind for remedy in limit.remedies] for limit in band.limits}
    assert ways == {"high spot": [], "least height": [], "ceiling": ["trim-box", "cut-plaster"]}
    assert {remedy.amount for limit in band.limits for remedy in limit.remedies} == {150}


def test_a_trim_that_is_not_enough_is_not_offered() -> None:
    """A box that may lose 10 cannot cure a conflict of 50."""
    limits = [
        _made(LimitKind.HIGH_SPOT, 100, is_least=True, may_trim=10),
        _made(LimitKind.CEILING, 50, is_least=False),
    ]
    first = lay_band(limits, rule_book(), Units.INCH).limits[0]
    assert [remedy.kind for remedy in first.remedies] == ["flatten-floor"]
