"""The outline: walls end to end with square corners, and what they miss closing by."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.stages.floor.kitchens import job
from tests.tape import inch

from setline.result import Rank
from setline.rules import rule_book
from setline.stages.room import Outline, outline


def _walls(*lengths: str, outside: str = "") -> list[dict[str, Any]]:
    """Return walls of these lengths, lettered in order; those named have an outside corner at their right."""
    names = "ABCDEFGH"
    return [
        {
            "name": name,
            "lengths": [{"length": length}],
            "corner": "outside" if name in outside else "inside",
        }
        for name, length in zip(names, lengths, strict=False)
    ]


def _outline(*lengths: str, closed: bool = False, outside: str = "") -> Outline:
    """Return the outline of a room."""
    return outline(job(walls=_walls(*lengths, outside=outside), room={"closed": closed}), rule_book())


def test_the_first_wall_runs_along_x_and_the_room_lies_towards_y() -> None:
    """Out from wall A is y; an inside corner turns the next wall into the room."""
    room = _outline("120", "96")
    assert room.to_room("A", inch(10), inch(3)) == (inch(10), inch(3))
    assert room.to_room("B", inch(10), inch(3)) == (inch(117), inch(10))


def test_an_outside_corner_turns_away() -> None:
    """Past an outside corner the next wall goes away; the room lies on the same side of it as ever."""
    room = _outline("40", "30", outside="A")
    assert room.to_room("B", inch(10), inch(3)) == (inch(43), -inch(10))


@given(st.sampled_from("ABCD"), st.integers(-(10**7), 10**7), st.integers(-(10**7), 10**7))
def test_to_the_room_and_back(wall: str, u: int, out: int) -> None:
    """A spot seen from a wall and placed in the room is seen from there again at the same u and out."""
    room = _outline("120", "96", "120", "96", closed=True)
    assert room.from_room(wall, *room.to_room(wall, u, out)) == (u, out)


def test_a_room_that_closes_says_nothing() -> None:
    """Opposite walls alike close exactly."""
    room = _outline("120", "96", "120", "96", closed=True)
    assert (room.closing, room.findings) == ((0, 0), ())
    assert (room.walls[-1].x1, room.walls[-1].y1) == (0, 0)


def test_a_small_miss_is_spread_in_equal_parts_and_noted() -> None:
    """1/16 too long along x is taken half from each wall along x; a tape can do no better."""
    room = _outline("120 1/16", "96", "120", "96", closed=True)
    assert [wall.length for wall in room.walls] == [
        inch("120 1/32"),
        inch(96),
        inch("120 1/32"),
        inch(96),
    ]
    assert room.findings[0].rank is Rank.NOTE
    assert "1/16 along wall A and 0 across" in room.findings[0].text


def test_a_large_miss_is_watched() -> None:
    """1 in out is no reading's doubt: a corner is out of square or a length is a slip."""
    room = _outline("120", "97", "120", "96", closed=True)
    assert room.findings[0].rank is Rank.WATCH
    assert room.findings[0].by_how_much == inch(1)


@given(st.lists(st.integers(1000, 200_000), min_size=6, max_size=6))
def test_any_closed_room_closes_after_spreading(numbers: list[int]) -> None:
    """Whatever was read, the outline of a closed L ends where it starts, to the tick."""
    room = _outline(*(f"{number // 10} mm" for number in numbers), closed=True, outside="D")
    last = room.walls[-1]
    assert (last.x1, last.y1) == (0, 0)
    ends = zip(room.walls, room.walls[1:], strict=False)
    assert all((one.x1, one.y1) == (other.x0, other.y0) for one, other in ends)


def test_corners_that_cannot_close_are_told() -> None:
    """Three walls with inside corners make three quarter turns, not four."""
    room = _outline("120", "96", "120", closed=True)
    assert room.closing is None
    assert room.findings[0].code == "corners-do-not-close"


def test_the_length_at_the_line_is_the_walls_length() -> None:
    """A length with no height was read where the datum lies, so it stands over one read at the floor."""
    wall = {
        "name": "A",
        "lengths": [
            {"length": "119", "height": {"up": "2", "from": "subfloor"}},
            {"length": "118", "at": "face"},
            {"length": "120"},
        ],
    }
    assert outline(job(walls=[wall]), rule_book()).walls[0].length == inch(120)


def test_a_wall_that_is_not_there_is_a_key_error() -> None:
    """Only walls of the room can be asked for."""
    with pytest.raises(KeyError):
        _outline("120").line("Z")
