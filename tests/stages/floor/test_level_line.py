"""The line from every set-up: agreed, struck, measured up, printed finer where it is not in use."""

from __future__ import annotations

from typing import Any

from tests.stages.floor.kitchens import box, job, place, run, set_up, shimmed
from tests.tape import inch

from setline.result import SetUpLine
from setline.stages.floor import FloorResult

NAIL = [{"name": "nail", "down": "20"}]
FLAT = [(str(u), "48") for u in range(0, 73, 12)]


def _levelled(*more: dict[str, Any], readings: list[tuple[str, str]] = FLAT, **parts: Any) -> FloorResult:
    """Return the line of three boxes on a floor read from S1, with further set-ups."""
    a_job = job(
        set_up("S1", marks=NAIL, A_wall=readings, A_toe=readings),
        *more,
        boxes=[box(number, 24) for number in (1, 2, 3)],
        **parts,
    )
    places = [place(number, inch(24 * number - 24), inch(24 * number)) for number in (1, 2, 3)]
    return shimmed(a_job, run(*places))[0]


def _lines(result: FloorResult) -> dict[str, SetUpLine]:
    """Return the lines by set-up."""
    return {each.set_up: each for each in result.level_line.set_ups}


def test_another_set_up_prints_its_line_to_a_thirty_second_tops_up() -> None:
    """S2 lies 1 3/64 higher by its mark: 14 35/64 there, printed ~14 17/32. The one in use stands first."""
    lines = _lines(_levelled({"name": "S2", "marks": [{"name": "nail", "down": "21 3/64"}]}))
    assert list(lines) == ["S1", "S2"]
    assert (lines["S1"].in_use, lines["S1"].is_exact) == (True, True)
    other = lines["S2"]
    assert other.level.value == inch("14 35/64")
    assert (other.printed_level, other.printed_strike) == (inch("14 17/32"), inch("14 13/32"))
    assert not other.is_exact
    assert "S2's laser line lies 1 3/64 above the one in use" in other.level.working[-1]


def test_a_set_up_without_a_tie_has_no_line() -> None:
    """It prints ? and says why."""
    line = _lines(_levelled({"name": "S2", "lines": []}))["S2"]
    assert (line.level.value, line.printed_level, line.printed_strike) == (None, None, None)
    assert "shares no mark" in line.level.working[-1]


def test_a_laser_below_the_tops_measures_up() -> None:
    """With the floor read 30 down the tops stand 4 1/2 above the laser line: N is negative."""
    low = [(str(u), "30") for u in range(0, 73, 12)]
    line = _lines(_levelled(readings=low))["S1"]
    assert line.printed_level == -inch("4 1/2")
    assert line.printed_strike == -inch("4 5/8")
    assert "4 1/2 up" in line.level.working[-1]


def test_the_line_goes_up_to_the_next_sixteenth_and_no_shim_is_negative() -> None:
    """A high spot read 47 31/32 would give 13 15/32: tops up makes it 13 7/16."""
    odd = [("0", "47 31/32"), *FLAT[1:]]
    result = _levelled(readings=odd)
    assert _lines(result)["S1"].printed_level == inch("13 7/16")
    assert result.stood[0].at.thickness(-inch("13 7/16"), result.stood[0].z or 0) == inch("1/32")


def test_an_agreed_line_keeps_its_n_on_its_own_set_up() -> None:
    """Agreed at 13 7/16 on S1 it stays there, though the floor asks for 13 1/2."""
    result = _levelled(record={"agreed_line": {"set_up": "S1", "down": "13 7/16"}})
    assert _lines(result)["S1"].printed_level == inch("13 7/16")
    assert result.level_line.tops.value == -inch("13 7/16")


def test_a_line_agreed_on_another_set_up_is_exact_there_and_finer_on_the_one_in_use() -> None:
    """S2 keeps 14 1/2; S1, 1 3/64 lower, prints ~13 7/16."""
    result = _levelled(
        {"name": "S2", "marks": [{"name": "nail", "down": "21 3/64"}]},
        record={"agreed_line": {"set_up": "S2", "down": "14 1/2"}},
    )
    lines = _lines(result)
    assert (lines["S2"].printed_level, lines["S2"].is_exact) == (inch("14 1/2"), True)
    assert lines["S1"].level.value == inch("13 29/64")
    assert (lines["S1"].printed_level, lines["S1"].is_exact) == (inch("13 7/16"), False)


def test_a_struck_line_is_the_datum_by_its_own_reading_and_is_not_rounded() -> None:
    """Read 13 3/8 strong (13 13/32) with 1/8 clearance, the tops are 13 17/32 down whatever was agreed."""
    result = _levelled(
        readings=[(str(u), "48 1/8") for u in range(0, 73, 12)],
        record={
            "agreed_line": {"set_up": "S1", "down": "13 1/2"},
            "struck_lines": [{"name": "line 1", "set_up": "S1", "down": "13 3/8 strong"}],
        },
    )
    line = _lines(result)["S1"]
    assert line.printed_level == inch("13 17/32")
    assert line.printed_strike == inch("13 13/32")
    assert not [finding for finding in result.findings if finding.rank == "stop"]


def test_a_struck_lines_own_clearance_stands_over_the_rule() -> None:
    """Struck at the tops themselves, level line and struck line are one."""
    struck = {"set_up": "S1", "down": "13 1/2", "clearance": "0"}
    line = _lines(_levelled(record={"struck_lines": [struck]}))["S1"]
    assert line.printed_level == line.printed_strike == inch("13 1/2")


def test_the_clearance_is_a_rule_of_the_job() -> None:
    """A crew may strike 1/4 above the tops, or at them."""
    assert _lines(_levelled(rules={"struck-line-clearance": "1/4"}))["S1"].printed_strike == inch("13 1/4")
    assert _lines(_levelled(rules={"struck-line-clearance": "0"}))["S1"].printed_strike == inch("13 1/2")


def test_a_line_that_holds_and_stands_too_low_stops_and_names_the_boxes_to_cut() -> None:
    """1/16 lower than the high spot asks: the line is a stop, the boxes below the floor a decide."""
    struck = {"set_up": "S1", "down": "13 7/16", "clearance": "1/8"}
    a_job = job(
        set_up("S1", A_wall=FLAT, A_toe=FLAT),
        boxes=[box(1, 24)],
        record={"struck_lines": [struck]},
    )
    result, shims = shimmed(a_job, run(place(1, 0, inch(24))))
    stop = next(each for each in result.findings if each.rank == "stop")
    assert (stop.code, stop.by_how_much) == ("line-too-low", inch("1/16"))
    assert shims.findings[0].code == "box-below-floor"
    assert "box 1 by 1/16" in shims.findings[0].text


def test_a_line_agreed_on_a_set_up_without_a_tie_gives_no_shims() -> None:
    """Where it lies from the floor is not known: a stop asks for a mark shot from both."""
    result = _levelled(
        {"name": "S9", "lines": []}, record={"agreed_line": {"set_up": "S9", "down": "13 1/2"}}
    )
    assert result.level_line.tops.value is None
    assert _lines(result)["S9"].printed_level == inch("13 1/2")
    assert _lines(result)["S1"].printed_level is None
    assert "line-not-tied" in {finding.code for finding in result.findings}


def test_a_line_rests_on_readings_and_says_how_it_was_rounded() -> None:
    """The answer to why holds the reading, the subtraction and the rounding."""
    odd = [("0", "47 31/32"), *FLAT[1:]]
    tops = _levelled(readings=odd).level_line.tops
    assert tops.readings == ("S1 A 0 wall: 47 31/32",)
    assert tops.working == (
        "floor at 1 back-left: 47 31/32 down (S1 A 0 wall: 47 31/32)",
        "floor 47 31/32 down, box 34 1/2 high on it: tops 13 15/32 down",
        "high spot, 1 back-left sets the line; tops up to a whole step of the tape: 13 7/16 down",
    )
