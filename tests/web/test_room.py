"""The room's outline by plain forms: walls, corners, windows and doors."""

from __future__ import annotations

from pathlib import Path

import pytest

from setline.web.walk.walk_plan import walk_of
from tests.web.app import EXAMPLES, App, open_app, text_of

NEW = {"format": 1, "job": {"name": "Tern Lane", "tape": "inch"}, "room": {}}


@pytest.fixture
def new(tmp_path: Path) -> App:
    """Return a job that nothing was read of."""
    return open_app(tmp_path, NEW)


@pytest.fixture
def larkspur(tmp_path: Path) -> App:
    """Return the inch sample in an app."""
    return open_app(tmp_path, EXAMPLES / "larkspur-street.toml")


def test_a_room_starts_with_the_number_of_its_walls(new: App) -> None:
    """They are lettered clockwise; their lengths are read next, and then the room is drawn."""
    page = text_of(new.post("/room/start", count=2))
    assert "The picture follows when every wall has a length." in page
    assert [wall["name"] for wall in new.document["room"]["walls"]] == ["A", "B"]
    assert "Wall A, corner to corner, about where the tops will be." in text_of(new.get("/walk"))
    for wall, length in (("A", "101 1/4"), ("B", "8' 2 1/2")):
        new.post("/walk", key=f"outline {wall} wall line", text=length)
    assert new.standing.job is not None
    assert "A 101 1/4, B 98 1/2" in new.get("/room")


def test_a_length_and_a_corner_are_kept_from_one_form(new: App) -> None:
    """As typed, with the corner at the wall's right end."""
    new.post("/room/start", count=2)
    new.post("/room/wall", wall="A", length="9' 4 3/16", corner="outside")
    wall = new.document["room"]["walls"][0]
    assert wall["corner"] == "outside"
    assert wall["lengths"] == [{"length": "9' 4 3/16", "at": "wall"}]


def test_an_ambiguous_length_comes_back_with_its_buttons(new: App) -> None:
    """Nothing is kept of the form; what was typed and chosen stands in it."""
    new.post("/room/start", count=1)
    page = new.post("/room/wall", 422, wall="A", length="4 8 1/4", corner="outside")
    assert '<button name="choice" value="48 1/4">' in page
    assert 'value="4 8 1/4"' in page
    assert 'value="outside" checked' in page
    assert new.document["room"]["walls"] == [{"name": "A", "corner": "inside"}]


def test_a_window_may_be_named_first_and_read_in_the_walk(larkspur: App) -> None:
    """Its centre is asked first: with that alone the job stays whole."""
    larkspur.post("/room/opening", wall="A", kind="windows", new="yes", name="by the stove")
    assert larkspur.standing.job is not None
    spots = walk_of(larkspur.standing).by_key
    assert "window A by the stove centre" in spots
    larkspur.post("/walk", key="window A by the stove centre", text="33 1/2")
    assert larkspur.standing.job is not None
    assert larkspur.document["room"]["walls"][0]["windows"] == [{"name": "by the stove", "centre": "33 1/2"}]


def test_one_edge_alone_is_no_window(larkspur: App) -> None:
    """Centre, or both edges; the edge that was typed comes back."""
    page = larkspur.post(
        "/room/opening", 422, wall="A", kind="windows", new="yes", name="by the stove", left="20 1/2"
    )
    assert "Type the centre, or both edges." in text_of(page)
    assert 'value="20 1/2"' in page
    assert 'value="by the stove"' in page


def test_a_name_is_given_once_a_wall(larkspur: App) -> None:
    """Two windows of one name could not be told apart."""
    page = larkspur.post(
        "/room/opening", 422, wall="B", kind="windows", new="yes", name="over the sink", centre="20"
    )
    assert "no other of this wall has it" in text_of(page)


def test_a_door_is_added_changed_and_taken_out(larkspur: App) -> None:
    """A door has both its edges; taken out, all of it goes, and stays in the book."""
    page = larkspur.post("/room/opening", 422, wall="A", kind="doors", new="yes", name="yard", left="20")
    assert "A door has both edges." in text_of(page)
    larkspur.post(
        "/room/opening",
        wall="A",
        kind="doors",
        new="yes",
        name="yard",
        left="20",
        right="52 1/4",
        casing_out="3/4",
    )
    larkspur.post("/room/opening", wall="A", kind="doors", name="yard", left="20", right="52 1/2")
    wall = larkspur.document["room"]["walls"][0]
    assert wall["doors"] == [{"name": "yard", "left": "20", "right": "52 1/2"}]
    larkspur.post("/room/take-out", wall="A", kind="doors", name="yard")
    assert "doors" not in larkspur.document["room"]["walls"][0]


def test_a_wall_with_runs_or_readings_is_not_taken_out(larkspur: App) -> None:
    """What lies along it would hang in the air."""
    page = text_of(larkspur.post("/room/drop", 422, wall="C"))
    assert "Wall C has runs or readings. Take those back first." in page


def test_the_last_wall_can_be_taken_out_while_nothing_lies_along_it(new: App) -> None:
    """One wall too many named is named no more."""
    new.post("/room/start", count=3)
    new.post("/room/drop", wall="C")
    assert [wall["name"] for wall in new.document["room"]["walls"]] == ["A", "B"]


def test_a_wall_is_added_and_the_room_closed(new: App) -> None:
    """The next letter clockwise; and whether the last one ends at A."""
    new.post("/room/start", count=3)
    assert "ADD WALL D" in text_of(new.get("/room"))
    new.post("/room/start", count=4, closed="yes")
    assert [wall["name"] for wall in new.document["room"]["walls"]] == ["A", "B", "C", "D"]
    assert new.document["room"]["closed"] is True


def test_a_wall_that_is_not_there_is_no_page(new: App) -> None:
    """A made-up letter is told, and nothing is kept."""
    new.post("/room/wall", 404, wall="Q", length="1")
    assert "walls" not in new.document["room"]


def test_the_picture_is_said_and_listed(larkspur: App) -> None:
    """Who cannot see it hears every wall, and can walk the same facts as a table."""
    page = larkspur.get("/room")
    assert "Walls clockwise from above, corner to corner: A 124 7/16, B 150 5/16, C 171 1/2." in page
    assert "<td>over the sink 51 5/8 to 90 5/8</td>" in page
