"""Marks and shims without scripts: what to write, what is on the wall, what goes under each box."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from setline.result import Mark
from tests.rooms import plain_room
from tests.web.app import EXAMPLES, App, open_app, text_of


@pytest.fixture
def app(tmp_path: Path) -> App:
    """Return an app with a room in which everything fits."""
    return open_app(tmp_path, plain_room())


def mark(app: App, name: str) -> Mark:
    """Return a mark by its name."""
    assert app.standing.plan is not None
    (found,) = [each for run in app.standing.plan.runs for each in run.marks if each.name == name]
    return found


def test_the_sheet_says_what_to_write_in_the_order_of_striking(app: App) -> None:
    """The line first, then every mark of the wall from START, base row first, as it is written."""
    page = text_of(app.get("/marks/A"))
    assert app.standing.plan is not None
    places = [page.index("STRIKE 12 7/8 DOWN from laser S1")]
    places.append(page.index("Then write, from left to right"))
    for run in app.standing.plan.runs:
        for each in run.marks:
            places.append(page.index(each.write, places[-1]))
    assert places == sorted(places)
    assert "no ink on finished paint" in page


def test_each_mark_fills_a_screen_of_its_own(app: App) -> None:
    """Its number, from where, what to write, and the two answers."""
    html = app.get("/marks/A")
    cards = re.findall(r'<section class="card one-mark" id="(m\d+)".*?</section>', html, re.DOTALL)
    assert app.standing.plan is not None
    assert len(cards) == sum(len(run.marks) for run in app.standing.plan.runs)
    card = re.search(r'<section class="card one-mark" id="m3".*?</section>', html, re.DOTALL)
    assert card is not None
    words = text_of(card[0])
    assert "34 1/2" in words
    assert "from the left corner of wall A" in words
    assert "STRUCK" in words
    assert "Wall says no" in words


def test_a_struck_mark_is_kept_as_it_is_printed(app: App) -> None:
    """One press keeps its number; another takes it off the wall again."""
    app.post("/marks/A/strike", mark="A base 3 left", then="m4")
    found = mark(app, "A base 3 left")
    assert found.struck == found.printed
    app.post("/marks/A/strike", mark="A base 3 left", out="yes")
    assert mark(app, "A base 3 left").struck is None


def test_a_struck_mark_leads_to_the_next_that_is_not_on_the_wall(app: App) -> None:
    """What is struck already is passed over; after the last the whole sheet shows again."""
    names = [f"A base {number} left" for number in (2, 3)]
    app.post("/marks/A/sheet", shown=names, struck=names)
    leads = re.findall(
        r'id="m(\d+)".*?class="strike-one".*?name="then" value="(\w+)"', app.get("/marks/A"), re.S
    )
    assert ("1", "m4") in leads
    assert leads[-1][1] == "main"


def test_where_the_wall_says_no_the_plan_goes_by_what_was_struck(app: App) -> None:
    """A mark struck elsewhere is typed in; its box will stand there."""
    app.post("/marks/A/strike", mark="A base 1 left", at="4 9/16")
    found = mark(app, "A base 1 left")
    assert found.struck == found.printed
    assert "4 9/16 |1>" in text_of(app.get("/marks/A"))
    html = app.post("/marks/A/strike", 422, mark="A base 1 left", at="here")
    assert 'value="here"' in html
    assert 'role="alert"' in html


def test_where_the_row_cannot_give_the_page_says_why_it_does_not_go_by_the_wall(app: App) -> None:
    """A mark struck too far off keeps its number in the plan, with how far it may go."""
    app.post("/marks/A/strike", mark="A base 1 left", at="90")
    found = mark(app, "A base 1 left")
    assert found.printed != found.struck
    page = text_of(app.get("/marks/A"))
    assert "The plan cannot go by 90: what stands beside it fits with this mark from 2 3/4 to 6." in page


def test_two_marks_that_cannot_both_stand_are_said_to_be_so(app: App) -> None:
    """Each fits by itself; a box of fixed width between them does not."""
    app.post("/marks/A/strike", mark="A base 1 left", at="4")
    app.post("/marks/A/strike", mark="A base 2 left", at="22 1/2")
    assert "and by the other marks on the wall" in text_of(app.get("/marks/A"))


def test_the_whole_sheet_is_ticked_at_once(app: App) -> None:
    """What is ticked is struck, what is not is not; marks that the page did not show are left alone."""
    names = [f"A base {number} left" for number in (1, 2, 3)]
    app.post("/marks/A/sheet", shown=names, struck=names[:2])
    assert [mark(app, name).struck is not None for name in names] == [True, True, False]
    app.post("/marks/A/strike", mark="A base 4 left")
    app.post("/marks/A/sheet", shown=names, struck=names[1:])
    assert [mark(app, name).struck is not None for name in names] == [False, True, True]
    assert mark(app, "A base 4 left").struck is not None


def test_the_line_is_struck_where_it_was_or_elsewhere(app: App) -> None:
    """As printed with one press; its own reading where it came out otherwise."""
    app.post("/marks/A/line")
    assert app.document["record"]["struck_lines"] == [{"name": "line 1", "set_up": "S1", "down": "12 7/8"}]
    assert "line 1 is on the wall, 12 7/8 down." in text_of(app.get("/marks/A"))
    app.post("/marks/A/line", 422, down="low")
    app.post("/marks/A/line", down="12 15/16")
    assert "STRIKE 12 15/16 DOWN" in text_of(app.get("/marks/A"))


def test_a_mark_of_nothing_is_to_be_struck_out(app: App) -> None:
    """A box taken out of its run leaves its mark on the wall: it is named, and struck out with one press."""
    app.post("/marks/A/strike", mark="A base 4 left")
    at = app.document["record"]["struck"][0]["at"]
    app.client.post(
        f"/j/{app.job}/entries",
        json=[
            {
                "id": "p-1",
                "job": app.job,
                "device": "p",
                "n": 1,
                "place": "/runs/A base/items",
                "value": [41, 1, 2, 3, 31, 42],
                "over": [entry.id for entry in app.standing.entries if entry.place == "/runs/A base/items"],
            }
        ],
    )
    page = text_of(app.get("/marks/A"))
    assert f"On the wall and of no use: strike them out {at} A base 4 left" in page
    app.post("/marks/A/strike", mark="A base 4 left", out="yes")
    assert "of no use" not in text_of(app.get("/marks/A"))


def test_marks_at_a_box_that_stands_are_no_longer_struck(app: App) -> None:
    """They are told, without a box to tick."""
    app.post("/set/2/as-set", key="right", answer="mark", screwed="yes")
    html = app.get("/marks/A")
    assert "box 2 left edge, the box stands" in text_of(html)
    assert 'value="A base 2 left"' not in html


def test_a_run_that_does_not_fit_has_no_numbers_to_strike(tmp_path: Path) -> None:
    """Its marks are ?, the page says so, and pressing for one is refused."""
    app = open_app(tmp_path, EXAMPLES / "larkspur-street.toml")
    page = text_of(app.get("/marks/C"))
    assert "DO NOT SET. C wall does not fit." in page
    assert "no place yet" in page
    app.post("/marks/C/strike", 404, mark="C wall 19 left")


@pytest.mark.parametrize("wall", ["Z", "a", "%00", "A%20base"])
def test_a_wall_without_runs_has_no_marks(app: App, wall: str) -> None:
    """There is no such page."""
    assert app.client.get(f"/j/{app.job}/marks/{wall}").status_code == 404


def test_a_job_without_a_plan_says_what_fills_the_page(tmp_path: Path) -> None:
    """No marks and no shims yet, and where they come from."""
    app = open_app(tmp_path, {"format": 1, "job": {"name": "Bare", "tape": "inch"}, "room": {}})
    assert "No marks yet" in text_of(app.get("/marks/A"))
    assert "No shims yet" in text_of(app.get("/shims"))
    app.post("/marks/A/line", 409)


def test_shims_stand_box_by_box_with_what_makes_them_up(app: App) -> None:
    """Every bearing point of the plan has its row; a box that stands is done."""
    assert app.standing.plan is not None
    html = app.get("/shims")
    tables = re.findall(r'<table class="shims">.*?</table>', html, re.DOTALL)
    rows = sum(len(re.findall(r"<tr(?! class=\"box\")", table)) - 1 for table in tables)
    assert rows == len(app.standing.plan.shims)
    assert "never from the box beside it" in text_of(html)
    assert "HIGH SPOT" in text_of(html)
    app.post("/set/1/as-set", key="right", answer="mark", screwed="yes")
    assert re.search(r"Box 1, drawers 18</a> <span class=\"more\">done", app.get("/shims"))
