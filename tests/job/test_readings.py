"""Signs, zeros and ties: from what the tape showed to heights and places."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.tape import inch

from setline.job.fields import Height
from setline.job.job import Job
from setline.job.read import job_from_dict
from setline.job.readings import (
    ceiling_spots,
    down_from_laser,
    floor_readings,
    height_z,
    middle_of_wall,
    out_of_plumb,
    set_up_in_use,
    set_up_offsets,
    set_up_ties,
    struck_line_z,
    surface_shift,
    z_below_laser,
)
from setline.job.room import EqualMarks
from setline.lengths import Tape

TOE = inch("20 7/8")


def _set_up(name: str, readings: list[list[str]], *marks: tuple[str, str], **more: Any) -> dict[str, Any]:
    """Return a set-up with one line of readings at wall A and marks read down to."""
    lines = [{"wall": "A", "readings": readings}] if readings else []
    return {
        "name": name,
        "lines": lines,
        "marks": [{"name": mark, "down": down} for mark, down in marks],
        **more,
    }


def _job(*set_ups: dict[str, Any], use: str | None = None, **parts: Any) -> Job:
    """Return a job of one wall with these set-ups."""
    return job_from_dict(
        {
            "format": 1,
            "job": {"name": "signs", "tape": "inch"},
            "room": {"walls": [{"name": "A", "lengths": [{"length": "10 ft"}]}], **parts.pop("room", {})},
            "floor": {"set_ups": list(set_ups), **({"use": use} if use else {})},
            **parts,
        }
    )


def test_a_floor_reading_is_as_far_below_the_laser_as_the_tape_shows() -> None:
    """A floor read 48 1/4 down lies at z = -48 1/4, and a bigger reading lies lower."""
    near, low = floor_readings(_job(_set_up("S1", [["12", "48 1/4"], ["24", "49"]])), TOE)
    assert (near.z, low.z) == (-inch("48 1/4"), -inch(49))
    assert (near.typed, near.u, near.out) == ("48 1/4", inch(12), 0)


def test_zero_is_a_reading() -> None:
    """A floor that the beam grazes was read, at height 0."""
    (grazed,) = floor_readings(_job(_set_up("S1", [["12", "0"]])), TOE)
    assert grazed.z == 0


def test_an_address_names_set_up_wall_place_and_line_and_counts_takes() -> None:
    """The same spot again is a place of its own, take 2."""
    job = _job(
        {
            "name": "S1",
            "lines": [
                {"wall": "A", "at": "toe", "readings": [["48", "48 1/8"], ["48", "48 3/16"]]},
                {"wall": "A", "at": "12", "readings": [["4' 0", "48"]]},
            ],
        }
    )
    addresses = [each.address for each in floor_readings(job, TOE)]
    assert addresses == ["S1 A 48 toe", "S1 A 48 toe take 2", "S1 A 48 12"]
    assert [each.out for each in floor_readings(job, TOE)] == [TOE, TOE, inch(12)]


def test_the_set_up_in_use_is_the_named_one_else_the_one_with_most_readings() -> None:
    """On a tie the first named is in use."""
    few, many = _set_up("S1", [["1", "48"]]), _set_up("S2", [["1", "48"], ["2", "48"]])
    assert _in_use(_job(few, many)) == "S2"
    assert _in_use(_job(few, many, use="S1")) == "S1"
    assert _in_use(_job(few, {**few, "name": "S3"})) == "S1"
    assert _in_use(_job()) is None


def _in_use(job: Job) -> str | None:
    """Return the name of the set-up in use."""
    found = set_up_in_use(job.floor)
    return None if found is None else found.name


def test_another_set_up_is_tied_by_the_mean_difference_of_its_marks() -> None:
    """Two marks that differ by 1/16 put the offset at their middle, exact to the tick."""
    job = _job(
        _set_up("S1", [["1", "48"]], ("nail", "10"), ("sill", "12 1/16")),
        _set_up("S2", [], ("nail", "13"), ("sill", "15 1/8"), ("lone", "3")),
    )
    assert set_up_offsets(job.floor) == {"S1": 0, "S2": inch("3 1/32")}


def test_a_mark_above_the_laser_ties_like_one_below() -> None:
    """A mark 2 up from one line and 1 down from the other puts that other line 3 higher."""
    one = {"name": "S1", "marks": [{"name": "hinge", "up": "2"}], "lines": []}
    other = {"name": "S2", "marks": [{"name": "hinge", "down": "1"}], "lines": []}
    assert set_up_offsets(_job(one, other, use="S1").floor)["S2"] == inch(3)


def test_a_chain_of_ties_reaches_a_third_set_up() -> None:
    """S3 shares a mark with S2 only; its offset is the sum of both, and the fewest ties count."""
    job = _job(
        _set_up("S1", [["1", "48"]], ("nail", "10")),
        _set_up("S2", [], ("nail", "12"), ("post", "5")),
        _set_up("S3", [], ("post", "9 1/2")),
        _set_up("S4", [], ("other", "9 1/2")),
    )
    assert set_up_offsets(job.floor) == {"S1": 0, "S2": inch(2), "S3": inch("6 1/2"), "S4": None}
    assert set_up_ties(job.floor)["S3"].links == (1, 1)


def test_an_untied_reading_has_no_height_but_keeps_its_own() -> None:
    """Its set-up's zero is unknown, so only its height under its own laser line is."""
    job = _job(_set_up("S1", [["1", "48"], ["2", "48"]]), _set_up("S2", [["3", "40"]]))
    untied = floor_readings(job, TOE)[-1]
    assert (untied.z, untied.own) == (None, -inch(40))


@given(st.lists(st.integers(0, 4000), min_size=1, max_size=5), st.integers(-4000, 4000))
def test_the_offset_is_the_exact_mean_rounded_once(downs: list[int], lift: int) -> None:
    """Whatever the marks, the offset lies within half a tick of their mean difference."""
    marks = [(f"m{index}", f"{down} mm") for index, down in enumerate(downs)]
    raised = [(name, f"{down + 4000 + lift} mm") for (name, _), down in zip(marks, downs, strict=True)]
    job = _job(_set_up("S1", [["1", "48"]], *marks), _set_up("S2", [], *raised))
    assert set_up_offsets(job.floor)["S2"] == (4000 + lift) * 2560


@given(st.integers(-(10**7), 10**7), st.integers(-(10**7), 10**7))
def test_down_and_z_undo_each_other(down: int, offset: int) -> None:
    """Measured down from a laser line and back is where one started."""
    assert down_from_laser(z_below_laser(down, offset), offset) == down


def test_what_is_read_back_is_hollow() -> None:
    """A bigger reading back lies farther from the room, and beyond the plumb line at either end."""
    assert out_of_plumb(inch(2)) < out_of_plumb(inch(1))
    assert surface_shift("left", inch(2)) == -inch(2)
    assert surface_shift("right", inch(2)) == inch(2)


@pytest.mark.common_practice
def test_half_the_difference_of_equal_marks_from_both_ends_is_the_middle() -> None:
    """Marks 48 from both ends of a wall of 99 stand 3 apart: the middle lies 1 1/2 past the mark."""
    marks = {"equal": "48", "apart": "3"}
    assert middle_of_wall(_marks(marks)) == inch("49 1/2")
    assert middle_of_wall(_marks({"equal": "51", "apart": "3", "crossed": True})) == inch("49 1/2")


def _marks(data: dict[str, Any]) -> EqualMarks:
    """Return equal marks as a job holds them."""
    return EqualMarks.model_validate(data, context={"tape": Tape()})


def _height(**data: Any) -> Height:
    """Return a height as a job holds it."""
    return Height.model_validate(data, context={"tape": Tape()})


def test_a_height_counts_from_its_own_zero() -> None:
    """36 up from the subfloor, from the finished floor and from a laser line are three different heights."""
    job = _job(_set_up("S1", [["1", "48"]], ("nail", "10")), _set_up("S2", [], ("nail", "12")))
    bare, finished = -inch(48), -inch("47 1/4")
    up = inch(36)
    assert height_z(_height(up="36", **{"from": "subfloor"}), job, subfloor=bare) == bare + up
    assert height_z(_height(up="36", **{"from": "finished floor"}), job, finished=finished) == finished + up
    assert height_z(_height(down="4", **{"from": "laser S1"}), job) == -inch(4)
    assert height_z(_height(up="1", **{"from": "laser S2"}), job) == inch(3)
    assert height_z(_height(up="36", **{"from": "subfloor"}), job) is None


def test_a_height_from_a_struck_line_hangs_on_that_lines_own_reading() -> None:
    """The line reads 13 3/8 down from S2, whose laser line lies 2 above S1's."""
    job = _job(
        _set_up("S1", [["1", "48"]], ("nail", "10")),
        _set_up("S2", [], ("nail", "12")),
        record={"struck_lines": [{"name": "line 1", "set_up": "S2", "down": "13 3/8"}]},
    )
    assert struck_line_z(job.record.struck_lines[0], set_up_offsets(job.floor)) == inch(2) - inch("13 3/8")
    sill = _height(up="6", **{"from": "line 1"})
    assert height_z(sill, job) == inch(2) - inch("13 3/8") + inch(6)
    assert height_z(sill, _job(_set_up("S1", [["1", "48"]]))) is None


def test_a_ceiling_is_read_up() -> None:
    """A ceiling 47 1/2 up from a laser line that lies 2 above the one in use is 49 1/2 over it."""
    job = _job(
        _set_up("S1", [["1", "48"]], ("nail", "10")),
        _set_up("S2", [], ("nail", "12")),
        _set_up("S3", []),
        room={
            "ceiling": [
                {"set_up": "S2", "wall": "A", "u": "30", "up": "47 1/2"},
                {"set_up": "S3", "wall": "A", "u": "30", "out": "12", "up": "47 1/2"},
            ]
        },
    )
    spot, untied = ceiling_spots(job)
    assert (spot.z, spot.out, spot.address) == (inch("49 1/2"), 0, "S2 A 30 ceiling")
    assert untied.z is None
