"""The run editor by plain forms: a press writes one thing, asks on an old page, and is taken back by Undo."""

from __future__ import annotations

import json
import re
import secrets
from pathlib import Path
from typing import Any

import pytest

from setline.web.session import HOST
from setline.web.writing import keep
from tests.rooms import box, plain_room
from tests.web.app import App, open_app, text_of

BASE = [41, 1, 2, 3, 31, 4, 42]


@pytest.fixture
def app(tmp_path: Path) -> App:
    """Return an app with a plain room that fits."""
    return open_app(tmp_path, plain_room())


def _run(app: App, row: str = "base") -> dict[str, Any]:
    runs: list[dict[str, Any]] = app.document["runs"]
    return next(run for run in runs if run.get("row", "base") == row)


def _press(app: App, press: str, item: int, status: int = 200, run: str = "A base", **fields: Any) -> str:
    return app.post(
        f"/run/A/{press}", status, run=run, item=item, **{"seen": app.standing.revision, **fields}
    )


def _listed(page: str) -> list[tuple[str, str, str]]:
    """Return number, from and to of every line of the lists, as the page has them."""
    return re.findall(r'data-number="(\d+)" data-from="([^"]*)" data-to="([^"]*)"', page)


def test_the_list_and_the_strip_agree(app: App) -> None:
    """Every line of the list has the numbers of the data, and the strip leads to every item."""
    page = app.get("/run/A")
    data = json.loads(app.get("/run/A/data"))
    told = [(str(item["number"]), item["from"], item["to"]) for run in data["runs"] for item in run["items"]]
    assert _listed(page) == told
    taps = re.findall(r'<a href="[^"]*item=(\d+)"[^>]*class="tap', page)
    assert sorted(taps) == sorted(number for number, _, _ in told)


def test_move_by_one_place_and_back(app: App) -> None:
    """Move right swaps with the neighbour, Move left brings it back, at an end nothing happens."""
    _press(app, "move", 1, by="right")
    assert _run(app)["items"] == [41, 2, 1, 3, 31, 4, 42]
    _press(app, "move", 1, by="left")
    assert _run(app)["items"] == BASE
    count = app.standing.revision
    _press(app, "move", 41, by="left")
    assert app.standing.revision == count


def test_the_same_press_twice_moves_once(app: App) -> None:
    """A double press of one form is one move."""
    act = secrets.token_hex(10)
    for _ in range(2):
        _press(app, "move", 1, by="right", act=act, seen=0)
    assert _run(app)["items"] == [41, 2, 1, 3, 31, 4, 42]


def test_put_after_offers_every_place_with_a_letter(app: App) -> None:
    """Every place but its own is offered, lettered from the left, and leads there."""
    page = app.get("/run/A?run=A base&item=1&ask=put")
    offered = re.findall(r'name="to" value="(\d+)"><strong>(\w)</strong>', page)
    assert [letter for _, letter in offered] == sorted(letter for _, letter in offered)
    assert {int(to) for to, _ in offered} <= {0, 2, 3, 4, 5, 6}
    _press(app, "move", 1, to=3)
    assert _run(app)["items"] == [41, 2, 3, 1, 31, 4, 42]


def test_a_place_that_cannot_work_says_why(tmp_path: Path) -> None:
    """Where a must leaves no room, the place stays in the list with by how much it would miss."""
    document = plain_room()
    document["runs"][0]["pins"] = [{"item": 3, "edge": "centre", "window": "garden"}]
    document["order"]["fillers"][0]["width"]["most"] = "5"
    page = open_app(tmp_path, document).get("/run/A?run=A base&item=1&ask=put")
    assert "It would miss by" in page
    assert 'class="gap closed"' in page


def test_swap_and_take_out_and_put_in(app: App) -> None:
    """Two items change places; what is taken out stays on order and can be put in again."""
    _press(app, "swap", 1, other=4)
    assert _run(app)["items"] == [41, 4, 2, 3, 31, 1, 42]
    page = text_of(_press(app, "take-out", 3))
    assert 3 not in _run(app)["items"]
    assert "pins" not in _run(app)
    assert "On order, in no run yet box 3 sink" in page
    _press(app, "put-in", 3)
    assert _run(app)["items"][-1] == 3
    assert "stands in A base already" in text_of(_press(app, "put-in", 3, 422))


def test_a_run_of_nothing_is_no_run(app: App) -> None:
    """Taking out the last item ends the run; it can be started anew."""
    for item in (43, 11, 12, 44):
        _press(app, "take-out", item, run="A wall")
    assert len(app.document["runs"]) == 1
    page = text_of(app.get("/run/A"))
    assert "Start the wall run" in page
    app.post("/run/A/start", row="wall", items=["12", "11"])
    assert _run(app, "wall")["items"] == [11, 12]
    for _ in range(5):
        app.post("/undo", act="", back="")
    assert _run(app, "wall")["items"] == [43, 11, 12, 44]


@pytest.mark.parametrize(
    ("form", "pin"),
    [
        ({"where": "window garden", "strength": "2"}, {"window": "garden", "strength": "wish", "rank": 2}),
        ({"where": "middle", "strength": "must"}, {"middle": True}),
        ({"where": "at", "at": "48 1/2"}, {"at": "48 1/2"}),
        ({"where": "here"}, {"at": "51"}),
        ({"where": "beside", "beside": "11", "beside_edge": "right"}, {"beside": 11, "beside_edge": "right"}),
        ({"where": "beside", "beside": "11", "beside_edge": "centre"}, {"beside": 11}),
    ],
    ids=["window", "middle", "number", "here", "beside", "same edge"],
)
def test_each_way_to_pin(app: App, form: dict[str, str], pin: dict[str, Any]) -> None:
    """A pin takes the place of another of the same edge, and is written as a job file has it."""
    _press(app, "pin", 3, edge="centre", **form)
    assert _run(app)["pins"] == [{"item": 3, "edge": "centre", **pin}]
    _press(app, "let-go", 3, edge="centre")
    assert "pins" not in _run(app)
    assert "gone already" in text_of(_press(app, "let-go", 3, 422, edge="centre"))


@pytest.mark.parametrize(
    ("form", "said"),
    [
        ({"where": "at", "at": "4 8 1/4"}, "4 8 1/4"),
        ({"where": "at", "at": "soon"}, "soon"),
        ({"where": "at", "at": ""}, "Type a length"),
        ({"where": "elsewhere"}, "Say where"),
        ({}, "Say where"),
        ({"where": "beside", "beside": "x", "beside_edge": "left"}, "which item"),
        ({"where": "window of nobody"}, "job could not be read"),
        ({"where": "middle", "strength": "9"}, "as a must"),
        ({"edge": "top", "where": "middle"}, "A pin holds"),
        ({"where": "beside", "beside": "3", "beside_edge": "left"}, ""),
    ],
)
def test_a_pin_that_cannot_be_is_refused_with_what_was_typed(
    app: App, form: dict[str, str], said: str
) -> None:
    """The sentence stands at the form, the text in its field, and nothing is kept."""
    count = app.standing.revision
    page = _press(app, "pin", 3, 422, **{"edge": "centre", **form})
    assert said in text_of(page) or f'value="{said}"' in page
    if form.get("at"):
        assert f'value="{form["at"]}"' in page
    assert app.standing.revision == count


def test_an_ambiguous_number_offers_what_it_could_be(app: App) -> None:
    """Two readings of a text are two buttons, and pressing one pins there."""
    page = _press(app, "pin", 3, 422, edge="left", where="at", at="4 8 1/4")
    choices = re.findall(r'name="choice" value="([^"]+)"', page)
    assert len(choices) == 2
    _press(app, "pin", 3, edge="left", where="at", at="4 8 1/4", choice=choices[-1])
    assert _run(app)["pins"][-1]["at"] == choices[-1]


def test_real_width_is_kept_as_typed_and_moves_the_rest(app: App) -> None:
    """A measured width counts at once; emptied, the ordered one counts again."""
    before = json.loads(app.get("/run/A/data"))
    _press(app, "real-width", 2, text="12 1/16")
    boxes = {each["number"]: each for each in app.document["order"]["boxes"]}
    assert boxes[2]["measured"] == "12 1/16"
    assert json.loads(app.get("/run/A/data"))["runs"] != before["runs"]
    _press(app, "real-width", 2, text="  ")
    assert "measured" not in {each["number"]: each for each in app.document["order"]["boxes"]}[2]
    page = _press(app, "real-width", 2, 422, text="wide")
    assert 'value="wide"' in page
    assert "no box 41" in text_of(_press(app, "real-width", 41, 422, text="12"))


def test_ends_and_the_underside_of_a_wall_row(app: App) -> None:
    """An end may be open up to a place; a wall row may have a height of its own."""
    _press(app, "end", 0, side="right", kind="open", at="110 1/2")
    assert _run(app)["right"] == {"kind": "open", "at": "110 1/2"}
    _press(app, "end", 0, side="right", kind="wall", at="")
    assert _run(app)["right"] == {"kind": "wall"}
    page = _press(app, "end", 0, 422, side="right", kind="open", at="far")
    assert 'value="far"' in page
    _press(app, "end", 0, 422, side="right", kind="corner", corner="nowhere")
    _press(app, "bottom", 0, run="A wall", text="20")
    assert _run(app, "wall")["bottom"] == {"up": "20", "from": "level line"}
    _press(app, "bottom", 0, run="A wall", text="")
    assert "bottom" not in _run(app, "wall")
    assert 'value="high"' in _press(app, "bottom", 0, 422, run="A wall", text="high")


def test_play_and_pins_are_told_in_words(app: App) -> None:
    """The list says what may give, how far each joint can go, and what is wished."""
    page = text_of(app.get("/run/A"))
    assert "WISH 1st: centre on the window centre 51" in page
    assert "24 1/8 (24 to 24 1/4)" in page
    assert "1/4: 1/8 left, 1/8 right" in page


def test_nothing_that_can_give_is_told(tmp_path: Path) -> None:
    """A stretch of boxes between two places that hold is named."""
    document = plain_room()
    document["runs"][0]["items"] = [1, 2, 3, 31, 4, 42]
    document["runs"][0]["pins"] = [{"item": 3, "edge": "left", "at": "30"}]
    assert "can give" in text_of(open_app(tmp_path, document).get("/run/A"))


def _short(tmp_path: Path) -> App:
    document = plain_room()
    document["order"]["boxes"][3]["width"] = "25"
    return open_app(tmp_path, document)


def test_a_conflict_takes_the_place_of_fits_and_every_way_out_ends_it(tmp_path: Path) -> None:
    """The card tells the shortfall; each remedy that changes the job leaves no stop of the run."""
    app = _short(tmp_path)
    page = app.get("/run/A")
    assert "A base SHORT" in text_of(page)
    ways = re.findall(r'href="/j/\w+(/remedy/\w+)"', page)
    assert ways
    for way in ways:
        assert "Taken, it ends this trouble." in text_of(app.get(way))
        page = text_of(app.post(way))
        assert "A base FITS" in page
        app.post("/undo", act="", back="")


def test_a_press_on_an_old_page_asks_first(app: App) -> None:
    """What somebody else changed meanwhile is shown beside mine; mine counts only when told to."""
    seen = app.standing.revision
    keep(
        app.site,
        app.standing,
        HOST,
        {"/runs/A base/items": [41, 2, 1, 3, 31, 4, 42]},
        act="b" * 20,
        by="Ines",
    )
    asked = _press(app, "move", 4, 409, by="left", seen=seen)
    assert "Ines changed run A base, items" in text_of(asked)
    assert _run(app)["items"] == [41, 2, 1, 3, 31, 4, 42]
    assert asked.count("<svg") >= 2
    _press(app, "move", 4, by="left", seen=seen, anyhow="yes")
    assert _run(app)["items"] == [41, 2, 1, 3, 4, 31, 42]


def test_a_change_elsewhere_does_not_ask(app: App) -> None:
    """An older page still counts where nobody touched its run."""
    seen = app.standing.revision
    keep(app.site, app.standing, HOST, {"/order/boxes/12/name": "glass"}, act="b" * 20)
    _press(app, "move", 1, by="right", seen=seen)
    assert _run(app)["items"][1] == 2


def test_a_set_box_stays(tmp_path: Path) -> None:
    """What is screwed down is a fact: its line says so and no press moves it."""
    document = plain_room(record={"set": [{"box": 1, "screwed": True}]})
    app = open_app(tmp_path, document)
    page = text_of(app.get("/run/A?run=A base&item=1"))
    assert "Item 1 is set and stays" in page
    for press, more in (("move", {"by": "right"}), ("take-out", {}), ("swap", {"other": 2})):
        assert "is set and stays" in text_of(_press(app, press, 1, 422, **more))
    assert "is set and stays" in text_of(_press(app, "swap", 2, 422, other=1))


def test_marks_on_the_wall_are_told(tmp_path: Path) -> None:
    """A struck mark shows at its item, and where the plan has moved away from it."""
    document = plain_room(record={"struck": [{"name": "A base 1 left", "at": "4 1/2"}]})
    app = open_app(tmp_path, document)
    assert "mark on the wall" in text_of(app.get("/run/A"))


def test_a_wall_without_runs_starts_with_what_is_on_order(tmp_path: Path) -> None:
    """An empty wall offers to start a run; nothing ticked is refused in words."""
    document = plain_room(runs=[])
    app = open_app(tmp_path, document)
    assert "Start the base run" in text_of(app.get("/run/A"))
    assert "Tick at least one" in text_of(app.post("/run/A/start", 422, row="base"))
    app.post("/run/A/start", row="base", items=["3", "41", "999", "11"])
    assert _run(app)["items"] == [3, 41]


@pytest.mark.parametrize(
    ("press", "fields"),
    [
        ("move", {"run": "Z base", "item": 1, "by": "left"}),
        ("move", {"run": "A base", "item": 999, "by": "left"}),
        ("swap", {"run": "A base", "item": 1, "other": 999}),
        ("take-out", {"run": "A base", "item": 0}),
        ("put-in", {"run": "A base", "item": 7777}),
        ("let-go", {"run": "A wall", "item": 11, "edge": "left"}),
        ("end", {"run": "A base", "side": "top", "kind": "wall"}),
        ("end", {"run": "", "side": "left", "kind": "wall"}),
        ("start", {"row": "roof", "items": "1"}),
        ("bottom", {"run": "Q wall", "text": "3"}),
    ],
)
def test_what_is_not_there_is_refused_and_nothing_is_kept(
    app: App, press: str, fields: dict[str, Any]
) -> None:
    """Numbers and runs that do not exist are told in a sentence, never taken."""
    count = app.standing.revision
    app.post(f"/run/A/{press}", 422, **fields)
    assert app.standing.revision == count


def test_pages_that_are_not_there(app: App) -> None:
    """A wall that the room has not is no page; an item that is not chosen is nobody's fault."""
    app.get("/run/Z", 404)
    app.get("/run/A?run=A base&item=xyz&ask=nothing")
    app.post("/run/A/move", 422, act="short", run="A base", item=1)


def test_a_guest_reads_and_changes_nothing(app: App) -> None:
    """A link that reads shows the list without a single form of its own."""
    token = app.site.sessions.add_link(app.job, days=1)
    app.client.cookies.set("setline-device", token)
    answer = app.client.get(f"/j/{app.job}/run/A?run=A base&item=1", headers={"x-forwarded-for": "10.0.0.9"})
    assert answer.status_code == 200
    assert "<form" not in answer.text
    refused = app.client.post(
        f"/j/{app.job}/run/A/move",
        data={"act": "a" * 20, "run": "A base", "item": 1, "by": "right"},
        headers={"x-forwarded-for": "10.0.0.9"},
    )
    assert refused.status_code == 403


def test_forty_boxes_with_long_names_are_all_listed(tmp_path: Path) -> None:
    """A long run on a wall of almost 32 ft is shown whole."""
    boxes = [box(number, "9", f"schubladenschrank mit vollauszug nummer {number}") for number in range(1, 41)]
    document = plain_room(
        room={"walls": [{"name": "A", "lengths": [{"length": "383 15/16"}]}]},
        order={"boxes": boxes, "fillers": [{"number": 99, "width": {"least": "3/4"}}]},
        runs=[{"wall": "A", "row": "base", "items": [*range(1, 41), 99]}],
    )
    page = open_app(tmp_path, document).get("/run/A?run=A base&item=40")
    assert len(_listed(page)) == 41
    assert "383 15/16 from the LEFT corner" in text_of(page)
    assert "nummer 40" in text_of(page)
