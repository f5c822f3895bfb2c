"""Setting boxes without scripts: the list, one box step by step, what was read once it stands."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from setline.field_book.entry import Entry
from setline.result import ItemPlace
from setline.web.before import before_set
from setline.web.set_order import BoxState, set_order
from tests.rooms import box, plain_room
from tests.web.app import App, open_app, text_of


@pytest.fixture
def app(tmp_path: Path) -> App:
    """Return an app with a room in which everything fits."""
    return open_app(tmp_path, plain_room())


def answer(app: App, number: int, key: str, how: str, text: str = "", **more: Any) -> str:
    """Answer a question about a box that stands, and return the page that leads to."""
    status = more.pop("status", 200)
    sent = {"key": key, "answer": how, "text": text, "screwed": "yes", **more}
    return app.post(f"/set/{number}/as-set", status, **sent)


def item(app: App, number: int) -> ItemPlace:
    """Return an item where it stands."""
    assert app.standing.plan is not None
    return next(each for run in app.standing.plan.runs for each in run.items if each.number == number)


def on_record(app: App, number: int) -> dict[str, Any]:
    """Return what is recorded of a set box."""
    found = [each for each in app.document["record"]["set"] if each["box"] == number]
    assert len(found) == 1
    return dict(found[0])


def test_the_list_stands_in_the_order_of_setting(app: App) -> None:
    """Bases from the left corner, then wall boxes; the first of them is the next to set."""
    assert [each.number for each in set_order(app.standing)] == [1, 2, 3, 4, 11, 12]
    page = text_of(app.get("/set"))
    assert "Box 1, drawers 18, A base. 6 to go." in page
    app.post("/set/first", row="wall")
    assert [each.number for each in set_order(app.standing)] == [11, 12, 1, 2, 3, 4]
    assert "Box 11" in text_of(app.get("/set"))


def test_tall_boxes_come_before_all_others(tmp_path: Path) -> None:
    """A tall box at the end of the run is set first all the same."""
    document = plain_room()
    document["order"]["boxes"][3] = box(4, "15", "pantry", kind="tall", height="84")
    app = open_app(tmp_path, document)
    assert next(each.number for each in set_order(app.standing)) == 4
    assert "two people or a lift" in text_of(app.get("/set/4"))


def test_a_job_without_a_plan_has_nothing_to_set(tmp_path: Path) -> None:
    """The page says what fills it, and a box's page is not there."""
    app = open_app(tmp_path, plain_room(runs=[]))
    assert "No boxes to set yet" in text_of(app.get("/set"))
    app.get("/set/1", 404)


def test_a_box_of_a_run_that_does_not_fit_is_not_set(tmp_path: Path) -> None:
    """Its page says DO NOT SET and why, and shows no step."""
    document = plain_room()
    document["order"]["boxes"][0]["width"] = document["order"]["boxes"][0]["measured"] = "30"
    app = open_app(tmp_path, document)
    html = app.get("/set/1")
    assert "DO NOT SET. A base does not fit." in text_of(html)
    assert "short." in text_of(html)
    assert 'class="steps"' not in html
    assert "DO NOT SET: A base does not fit" in text_of(app.get("/set"))


def test_every_step_has_its_address(app: App) -> None:
    """Eight steps in their order, each a part of one page, each with its way back and on."""
    html = app.get("/set/2")
    sections = re.findall(r'<section id="([a-z-]+)"', html)
    steps = ["fetch", "prepare", "stand", "shim", "true", "screw", "right", "on"]
    assert [each for each in sections if each in steps] == steps
    assert [int(each) for each in re.findall(r"step (\d) of 8", html)][:1] == [1]
    for step in steps[1:]:
        assert f'href="#{step}"' in html or f'id="{step}"' in html
    text = text_of(html)
    assert "Never draw it over a hump" in text
    assert "the local code and the licensed trades decide" in text


def test_the_shim_step_shows_what_the_plan_says(app: App) -> None:
    """Four corners with their numbers, and the high spot told."""
    assert app.standing.plan is not None
    assert app.standing.plan.level_line.high_spot is not None
    number = int(app.standing.plan.level_line.high_spot.point.split()[0])
    page = text_of(app.get(f"/set/{number}"))
    assert "Rests on the high spot: " in page
    for shim in app.standing.plan.shims:
        if shim.box == number and shim.corner.startswith("back"):
            assert shim.corner.replace("-", " ") in page


def test_beginning_a_box_takes_its_real_width_and_tells_others(app: App) -> None:
    """What was measured stands over the order, and the list says who is at it."""
    html = app.post("/set/2/begin", width="12 1/16")
    assert item(app, 2).wished == item(app, 2).least
    assert app.document["order"]["boxes"][1]["measured"] == "12 1/16"
    assert 'id="prepare"' in html
    assert {each.number: each.state for each in set_order(app.standing)}[2] is BoxState.OPEN
    theirs = Entry(id="p2-1", job=app.job, device="phone", n=1, by="Ines", place="/walk/set/3", value="begun")
    app.site.store.add((theirs,))
    assert "Ines is setting it" in text_of(app.get("/set"))
    assert "Ines is setting this box. Going on takes it over." in text_of(app.get("/set/3"))


def test_a_width_that_is_none_comes_back_with_its_sentence(app: App) -> None:
    """What was typed stands in the field again, and nothing is kept."""
    html = app.post("/set/2/begin", 422, width="twelve-ish")
    assert 'value="twelve-ish"' in html
    assert "measured" not in app.document["order"]["boxes"][1]


def test_true_or_what_to_do_about_it(app: App) -> None:
    """All yes leads on to the screws, a no to what cures it."""

    def leads(**answers: str) -> str:
        got = app.client.post(f"/j/{app.job}/set/1/true", data=answers, follow_redirects=False)
        return got.headers["location"].partition("#")[2]

    assert leads(top="yes", plumb="yes", flush="yes", twist="yes") == "screw"
    assert leads(top="yes", plumb="no") == "no-plumb"
    assert 'id="no-plumb"' in app.get("/set/1")


def test_on_the_mark_is_kept_as_read_at_the_edge_its_mark_names(app: App) -> None:
    """The mark's own number is kept, with the word for how it was seen."""
    answer(app, 1, "right", "mark")
    assert app.standing.plan is not None
    mark = next(each for each in app.standing.plan.runs[0].marks if each.name == "A base 2 left")
    (edge,) = on_record(app, 1)["edges"]
    assert edge["how"] == "on the mark"
    assert edge["of"] == ("body" if mark.of_item == 1 else "frame")
    assert on_record(app, 1)["screwed"] is True
    assert item(app, 1).is_set


def test_what_was_typed_is_kept_as_typed(app: App) -> None:
    """A strong reading stays one; the plan goes by what it is worth."""
    answer(app, 1, "right", "typed", "22 1/2 strong")
    (edge,) = on_record(app, 1)["edges"]
    assert (edge["at"], edge["how"], edge["edge"]) == ("22 1/2 strong", "read", "right")


def test_not_read_stays_as_planned(app: App) -> None:
    """The box is set, no edge is on record, and it stands where its mark is agreed."""
    before = item(app, 2)
    answer(app, 2, "right", "not-read")
    assert "edges" not in on_record(app, 2)
    after = item(app, 2)
    assert (after.is_set, after.left, after.right) == (True, before.left, before.right)


def test_answers_about_tops_and_the_wall_are_kept_beside_the_edges(app: App) -> None:
    """Each answer is one thing more; an edge can be answered again."""
    answer(app, 1, "right", "mark")
    answer(app, 1, "left", "mark")
    answer(app, 1, "top-left", "mark")
    answer(app, 1, "top-right", "typed", "3/16")
    answer(app, 1, "off-wall", "typed", "1/4")
    kept = on_record(app, 1)
    assert [edge["edge"] for edge in kept["edges"]] == ["left", "right"]
    assert (kept["below_line_left"], kept["below_line_right"], kept["off_wall"]) == ("1/8", "3/16", "1/4")
    answer(app, 1, "right", "not-read")
    assert [edge["edge"] for edge in on_record(app, 1)["edges"]] == ["left"]
    assert "1/16 below the level line at its front right" in text_of(app.get("/troubles"))


def test_a_number_far_from_the_plan_is_asked_about_once(app: App) -> None:
    """Over 1/4 off it is asked; kept all the same when it is said to be right."""
    html = answer(app, 1, "right", "typed", "21", status=422)
    assert "off the plan" in text_of(html)
    assert 'value="21"' in html
    assert "record" not in app.document
    answer(app, 1, "right", "typed", "21", sure="yes")
    assert on_record(app, 1)["edges"][0]["at"] == "21"


@pytest.mark.parametrize("text", ["", "3/10", "4 8 1/4", "about right", "875", "\x00", "1e9", "-3"])
def test_what_is_no_length_comes_back(app: App, text: str) -> None:
    """The typed text and a sentence come back, and nothing is kept."""
    html = answer(app, 1, "right", "typed", text, status=422)
    assert "record" not in app.document
    assert 'role="alert"' in html


def test_a_question_that_was_not_asked_is_refused(app: App) -> None:
    """A box in the middle has no left edge to answer for; a mark that is not there cannot be met."""
    answer(app, 2, "left", "mark", status=422)
    answer(app, 1, "off-wall", "mark", status=422)
    app.post("/set/99/as-set", 404, key="right", answer="mark")


def test_only_the_right_edge_is_asked_of_a_box_in_the_middle(app: App) -> None:
    """First, last and beside openings ask more; so does a box whose neighbour was not read."""
    asked = {
        number: re.findall(r'<section id="(right|left|top-left|off-wall)"', app.get(f"/set/{number}"))
        for number in (1, 2, 3)
    }
    assert asked[2] == ["right"]
    assert asked[1] == asked[3] == ["right", "left", "top-left", "off-wall"]


def test_the_last_answer_leads_to_what_changed(app: App) -> None:
    """A box set where it was planned leads on; one that moved others leads to the changes."""
    for key in ("right", "left", "top-left", "top-right"):
        answer(app, 1, key, "mark")
    page = text_of(answer(app, 1, "off-wall", "not-read"))
    assert "This box stands." in page
    assert "Nothing else moves." in page
    assert "NEXT: BOX 2" in page
    page = text_of(answer(app, 2, "right", "typed", "34 9/16"))
    assert page.startswith("What changed")


def test_a_box_comes_out_again_with_a_reason(app: App) -> None:
    """All that was read is taken back, the plan is what it was, and the history keeps both."""
    before = app.standing.plan
    assert before is not None
    answer(app, 1, "right", "typed", "22 9/16")
    app.post("/set/1/out", 422, why="")
    app.post("/set/1/out", why="wrong-box")
    assert "set" not in app.document.get("record", {})
    assert not item(app, 1).is_set
    kept = [entry for entry in app.standing.entries if entry.place == "/record/set/1/edges"]
    assert [entry.taken_back for entry in kept] == [False, True]
    assert app.standing.folded.aside["/walk/out/1"] == "wrong box"


def test_undo_takes_back_the_last_answer(app: App) -> None:
    """The page's Undo works here as anywhere: the box is not set any more."""
    answer(app, 2, "right", "mark")
    app.post("/undo", act="", back=f"/j/{app.job}/set/2")
    assert not item(app, 2).is_set


def test_two_phones_setting_one_box_keep_both_words(app: App) -> None:
    """An answer from a page made before the other's stands beside it, and is told until it is settled."""
    seen = app.standing.revision
    answer(app, 2, "right", "mark")
    theirs = Entry(
        id="phone-a-1",
        job=app.job,
        device="phone",
        n=1,
        by="Ines",
        place="/record/set/2/edges",
        value=[{"edge": "right", "of": "frame", "at": "34 9/16"}],
    )
    app.site.store.add((theirs,))
    answer(app, 2, "right", "typed", "34 7/16", seen=str(seen))
    (two,) = app.standing.folded.unsettled
    assert two.place == "/record/set/2/edges"
    assert {entry.by for entry in two.entries} == {"Ines", "this machine"}


def test_pressed_twice_it_is_kept_once(app: App) -> None:
    """The same act sent again changes nothing."""
    sent = {"act": "a" * 20, "key": "right", "answer": "mark", "screwed": "yes"}
    for _ in range(2):
        app.client.post(f"/j/{app.job}/set/2/as-set", data=sent)
    assert sum(entry.place == "/record/set/2/edges" for entry in app.standing.entries) == 1


def test_a_box_may_stand_before_its_screws_are_in(app: App) -> None:
    """Said at the screws, kept with every answer, told on the list, and put right with one press."""
    html = app.get("/set/2?screws=later")
    assert 'name="screwed" value="no"' in html
    html = app.post("/set/2/as-set", key="right", answer="mark", screwed="no")
    assert on_record(app, 2)["screwed"] is False
    assert "Its screws are not in yet." in text_of(html)
    assert 'name="screwed" value="no"' in html
    assert "SET, NOT SCREWED" in text_of(app.get("/set"))
    app.post("/set/2/screwed")
    assert on_record(app, 2)["screwed"] is True
    assert "NOT SCREWED" not in text_of(app.get("/set"))
    app.post("/set/3/screwed", 409)


def test_the_job_before_a_box_was_set_is_told_apart(app: App) -> None:
    """Whatever was read of it in how many presses, before it the plan is the one without that box."""
    was = app.standing.plan
    answer(app, 1, "right", "typed", "22 9/16")
    answer(app, 1, "left", "mark")
    assert before_set(app.site.planner, app.standing, 1).plan == was


def test_a_guest_reads_and_sets_nothing(app: App) -> None:
    """The pages show for a guest, without a form that writes."""
    token = app.site.sessions.add_link(app.job, days=1)
    app.client.cookies.set("setline-device", token)
    app.client.headers["x-real-ip"] = "10.0.0.9"
    assert 'method="post"' not in app.get("/set/1")
    app.post("/set/1/begin", 403)
