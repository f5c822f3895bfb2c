"""The walk without scripts: one reading a form, what is odd asked first, nothing typed ever lost."""

from __future__ import annotations

import re
import secrets
from html import unescape
from pathlib import Path
from typing import Any

import pytest

from setline.web.walk.walk_plan import walk_of
from tests.web.app import EXAMPLES, App, open_app, text_of

SPOT = "floor A 46 toe"
HERE = "/floor/set_ups/S2/readings/A/toe/46/1"

SHED: dict[str, Any] = {
    "format": 1,
    "job": {"name": "Tern Lane", "tape": "inch"},
    "room": {"walls": [{"name": "A", "lengths": [{"length": "101 1/4"}]}]},
}
"""A room with one wall read and nothing else."""


@pytest.fixture
def larkspur(tmp_path: Path) -> App:
    """Return the inch sample in an app."""
    return open_app(tmp_path, EXAMPLES / "larkspur-street.toml")


@pytest.fixture
def shed(tmp_path: Path) -> App:
    """Return a new room in an app."""
    return open_app(tmp_path, SHED)


def typed_at(app: App, place: str) -> list[Any]:
    """Return the live values of a place."""
    found = walk_of(app.standing).context.live.get(place, ())
    return [entry.value for entry in found if not entry.taken_back]


def buttons(html: str, name: str) -> dict[str, str]:
    """Return label -> value of the buttons of one name in the question."""
    asked = html.partition('id="asking"')[2].partition('<div class="pad"')[0]
    found = re.findall(rf'<button name="{name}" value="([^"]*)">([^<]*)</button>', asked)
    return {unescape(label): unescape(value) for value, label in found}


def field(html: str) -> str:
    """Return what stands in the text field."""
    found = re.search(r'<input id="text" name="text" value="([^"]*)"', html)
    assert found is not None
    return unescape(found[1])


def test_the_first_thing_a_new_job_asks_is_its_outline(tmp_path: Path) -> None:
    """Without walls there is nothing to read along: the walk leads to the room."""
    app = open_app(tmp_path, {**SHED, "room": {}})
    assert "NAME THE WALLS" in text_of(app.get("/walk"))


def test_a_reading_is_kept_as_typed_and_the_next_is_asked(larkspur: App) -> None:
    """NEXT keeps the text; the page that follows says so and asks for another spot."""
    page = larkspur.post("/walk", key=SPOT, text="48 15/16 shy")
    assert typed_at(larkspur, HERE) == ["48 15/16 shy"]
    assert "Kept A 46 toe: 48 15/16 shy." in text_of(page)
    assert "Wall B, 1 from LEFT corner, TOE line." in text_of(page)


def test_a_form_sent_twice_keeps_one_entry(larkspur: App) -> None:
    """The same act again is the same entry."""
    act = secrets.token_hex(10)
    for _ in range(2):
        larkspur.post("/walk", key=SPOT, text="48 15/16", act=act)
    entries = [entry for entry in larkspur.standing.entries if entry.place == HERE]
    assert [entry.value for entry in entries] == ["48 15/16"]


AMBIGUOUS = {
    "4 8 1/4": {"4' 8 1/4 = 56 1/4": "4' 8 1/4", "48 1/4": "48 1/4"},
    "48 3 16": {"48 3/16": "48 3/16"},
    "875": {"875 mm = ~34 29/64": "875 mm", "875 in = 72' 11": "875 in"},
    "3/10": {"9/32": "9/32", "5/16": "5/16"},
    "34.37": {"34 3/8": "34 3/8", "34 11/32": "34 11/32"},
}


@pytest.mark.parametrize("text", AMBIGUOUS)
def test_a_text_that_could_be_two_things_returns_buttons_and_keeps_nothing(larkspur: App, text: str) -> None:
    """Never guessed: what it could be stands on buttons, the text stays in its field, no value is kept."""
    page = larkspur.post("/walk", key="box 3", text=text, status=422)
    assert buttons(page, "choice") == AMBIGUOUS[text]
    assert field(page) == text
    assert typed_at(larkspur, "/order/boxes/3/measured") == []


def test_pressing_one_of_the_buttons_keeps_that(larkspur: App) -> None:
    """The choice stands in place of the text; what is then odd is still asked."""
    page = larkspur.post("/walk", key="box 3", text="1 5 1/32", choice="15 1/32")
    assert typed_at(larkspur, "/order/boxes/3/measured") == ["15 1/32"]
    assert "Kept box 3" in text_of(page)


def test_words_that_are_no_length_come_back_to_be_typed_again(larkspur: App) -> None:
    """Nothing typed is lost."""
    page = larkspur.post("/walk", key=SPOT, text="about so much", status=422)
    assert field(page) == "about so much"
    assert "about so much is no length on this tape." in text_of(page)


def test_a_fraction_alone_is_asked_about_where_inches_are_carried_over(larkspur: App) -> None:
    """``3/8`` after 48 7/8 is either."""
    page = larkspur.post("/walk", key=SPOT, text="15/16", status=422)
    assert buttons(page, "choice") == {"48 15/16": "48 15/16", "15/16": "15/16"}
    assert typed_at(larkspur, HERE) == []


def test_nothing_typed_is_said(larkspur: App) -> None:
    """An empty field keeps nothing: blank is not 0."""
    assert "Nothing typed" in text_of(larkspur.post("/walk", key=SPOT, text="  ", status=422))
    assert typed_at(larkspur, HERE) == []


def test_0_is_a_reading(shed: App) -> None:
    """A distance of nothing is one."""
    shed.post("/walk/group", which="floor", said="started")
    shed.post("/walk", key="floor A 1 wall", text="0")
    assert typed_at(shed, "/floor/set_ups/S1/readings/A/wall/1/1") == ["0"]


def test_a_reading_far_from_its_neighbours_is_asked_about(larkspur: App) -> None:
    """47 15/16 among 48 7/8 and 49 is an inch read wrong, or a dip: the person says which."""
    page = larkspur.post("/walk", key=SPOT, text="47 15/16", status=422)
    assert "47 15/16 is 15/16 less than the spots beside it (48 7/8, 49)." in text_of(page)
    answers = buttons(page, "answer")
    assert answers == {
        "Read again": "again:47 15/16",
        "It's right, keep": "keep:47 15/16",
        "It was 48 15/16": "other:48 15/16",
    }
    assert typed_at(larkspur, HERE) == []
    larkspur.post("/walk", key=SPOT, text="47 15/16", answer=answers["It was 48 15/16"])
    assert typed_at(larkspur, HERE) == ["48 15/16"]


def test_an_odd_reading_may_be_kept(larkspur: App) -> None:
    """Asked, not stopped."""
    larkspur.post("/walk", key=SPOT, text="47 15/16", answer="keep:47 15/16")
    assert typed_at(larkspur, HERE) == ["47 15/16"]


def test_a_box_far_from_its_ordered_width_is_asked_about(larkspur: App) -> None:
    """A label read from the wrong box shows at once."""
    page = larkspur.post("/walk", key="box 3", text="18", status=422)
    assert "18 is 3 off what was ordered (15)." in text_of(page)


def test_a_repeat_that_differs_offers_the_middle_the_first_and_this(larkspur: App) -> None:
    """Two takes of one spot stand side by side; the middle is used unless the person says otherwise."""
    key, first = "floor A 12 toe", "/floor/set_ups/S2/readings/A/toe/12"
    page = larkspur.post("/walk", key=key, again="yes", text="49", status=422)
    assert "First time 48 7/8, now 49: 1/8 apart." in text_of(page)
    assert list(buttons(page, "answer").values()) == ["both:49", "first:49", "keep:49"]
    larkspur.post("/walk", key=key, again="yes", text="49", answer="both:49")
    assert (typed_at(larkspur, f"{first}/1"), typed_at(larkspur, f"{first}/2")) == (["48 7/8"], ["49"])


def test_keeping_the_first_leaves_the_second_in_the_book_taken_back(larkspur: App) -> None:
    """Nothing is erased: history shows that it was read."""
    second = "/floor/set_ups/S2/readings/A/toe/12/2"
    larkspur.post("/walk", key="floor A 12 toe", again="yes", text="49", answer="first:49")
    assert typed_at(larkspur, second) == []
    assert [entry.value for entry in larkspur.site.store.history(larkspur.job, second)] == ["49", None]


def test_keeping_this_one_stands_it_over_the_first(larkspur: App) -> None:
    """The first stays in its history and counts no more."""
    first = "/floor/set_ups/S2/readings/A/toe/12"
    larkspur.post("/walk", key="floor A 12 toe", again="yes", text="49", answer="keep:49")
    assert (typed_at(larkspur, f"{first}/1"), typed_at(larkspur, f"{first}/2")) == (["49"], [])


def test_a_spot_read_by_somebody_else_meanwhile_keeps_both(larkspur: App) -> None:
    """A page made before the other's reading does not replace it unseen."""
    larkspur.post("/walk", key=SPOT, text="48 15/16")
    larkspur.post("/walk", key=SPOT, text="48 7/8", over="")
    assert sorted(typed_at(larkspur, HERE)) == ["48 15/16", "48 7/8"]
    assert "readings ask" in text_of(larkspur.get("/readings?show=asks")) or "The middle" in text_of(
        larkspur.get("/readings?show=asks")
    )


@pytest.mark.parametrize(
    ("said", "why"), [("no", "can't reach"), ("can’t reach", "can't reach"), ("skip", "later")]
)
def test_a_spot_is_skipped_by_a_word(larkspur: App, said: str, why: str) -> None:
    """``no`` typed or dictated skips with its reason, and the next is asked."""
    page = text_of(larkspur.post("/walk", key=SPOT, text=said))
    assert f"Skipped A 46 toe: {why}." in page
    assert walk_of(larkspur.standing).context.skipped == {SPOT: why}


def test_a_skip_is_taken_back_by_reading_the_spot(larkspur: App) -> None:
    """A spot that could be reached after all is read like any other."""
    larkspur.post("/walk", key=SPOT, skip="not there")
    larkspur.post("/walk", key=SPOT, text="48 15/16")
    assert walk_of(larkspur.standing).context.skipped == {}
    assert typed_at(larkspur, HERE) == ["48 15/16"]


def test_what_was_put_off_comes_at_the_end_of_its_group(larkspur: App) -> None:
    """Later is not never."""
    larkspur.post("/walk", key=SPOT, skip="later")
    asked = walk_of(larkspur.standing).parts[1].asked
    assert asked[-1].key == SPOT
    assert asked[0].key != SPOT


def test_skips_and_choices_change_nothing_of_the_job(larkspur: App) -> None:
    """What is said about the walk is no part of the job: the check code on paper stays."""
    before = larkspur.standing.plan
    larkspur.post("/walk", key=SPOT, skip="later")
    after = larkspur.standing.plan
    assert before is not None
    assert after is not None
    assert after.check_code == before.check_code


def test_how_the_tape_was_held_is_kept_with_what_it_showed(shed: App) -> None:
    """The text says both; the value is the difference."""
    page = shed.post("/walk", key="outline A wall line", text="111 1/4 held at 10", over="", answer="")
    assert "111 1/4 held at 10" in typed_at(shed, "/room/walls/A/lengths/wall/line/1")
    assert page


def test_between_groups_a_card_says_what_comes_and_why(shed: App) -> None:
    """How many readings, with what tool, and two buttons: start, or not this group."""
    page = text_of(shed.get("/walk"))
    assert "Floor" in page
    assert "The high spot under the boxes sets the line." in page
    assert "4 readings. Laser and tape." in page
    shed.post("/walk/group", which="floor", said="started")
    assert "Wall A, 1 from LEFT corner, at the WALL." in text_of(shed.get("/walk"))


def test_after_the_short_form_further_readings_are_offered_by_their_worth(larkspur: App) -> None:
    """The line is known within so much; one more would make it so much less; or it is good enough."""
    for key, text in ((SPOT, "48 15/16"), ("floor B 1 toe", "48 15/16"), ("floor B 149 toe", "49 1/4")):
        larkspur.post("/walk", key=key, text=text)
    page = text_of(larkspur.get("/walk"))
    assert "Line known within" in page
    assert "Good enough" in page
    larkspur.post("/walk/group", which="floor", said="enough")
    assert "Line known within" not in text_of(larkspur.get("/walk"))


def test_a_moved_laser_ties_itself_by_spot_1(shed: App) -> None:
    """The first spot is shot again from the new place; that makes it a mark of both set-ups."""
    shed.post("/walk/group", which="floor", said="started")
    shed.post("/walk", key="floor A 1 wall", text="48 1/4")
    page = text_of(shed.post("/walk/moved"))
    assert "Laser moved: shoot spot 1 again from S2: wall A, 1 from LEFT corner, at the WALL." in page
    shed.post("/walk", key="tie S2", text="47 1/2")
    floor = shed.document["floor"]["set_ups"]
    assert [set_up["name"] for set_up in floor] == ["S1", "S2"]
    assert [set_up["marks"] for set_up in floor] == [
        [{"name": "A 1 wall", "down": "48 1/4"}],
        [{"name": "A 1 wall", "down": "47 1/2"}],
    ]
    assert "Down from laser S2 to the floor." in text_of(shed.get("/walk"))


def test_a_set_up_with_marks_is_tied_by_one_of_them(larkspur: App) -> None:
    """A mark on something fixed is better than a spot on the floor."""
    page = text_of(larkspur.post("/walk/moved"))
    assert "shoot jamb of the hall door again from S3" in page


def test_floor_to_come_is_asked_once(shed: App) -> None:
    """A covering is named with its thickness, when it comes and how far; or it is said that none comes."""
    shed.post("/walk/group", which="floor", said="enough")
    page = shed.post("/walk/covering", comes="something", name="slate", thickness="5/8 or so", status=422)
    assert 'value="slate"' in page
    assert 'value="5/8 or so"' in page
    shed.post(
        "/walk/covering", comes="something", name="slate", thickness="5/8", when="before boxes", reaches="toe"
    )
    assert shed.document["floor"]["coverings"] == [
        {"name": "slate", "thickness": "5/8", "when": "before boxes", "reaches": "toe"}
    ]
    assert "Floor to come" not in text_of(shed.get("/walk"))


def test_a_whole_table_is_kept_but_for_the_lines_that_ask(larkspur: App) -> None:
    """Typed at the laptop: what is plain is kept, what is not comes back with its question and its text."""
    page = larkspur.post(
        "/walk/table",
        422,
        **{f"text {SPOT}": "48 15/16", "text floor B 1 toe": "4 8 1/4", "text nowhere": "9"},
    )
    assert typed_at(larkspur, HERE) == ["48 15/16"]
    assert "1 kept." in text_of(page)
    assert 'value="4 8 1/4"' in page
    assert "can be read in more than one way" in text_of(page)


def test_the_echo_tells_a_script_what_a_text_is(larkspur: App) -> None:
    """The same answers as the form's, as JSON: a length, buttons, or a skip."""

    def echo(text: str) -> dict[str, Any]:
        query = {"key": SPOT, "text": text}
        answer = larkspur.client.get(f"/j/{larkspur.job}/walk/echo", params=query)
        return dict(answer.json())

    assert echo("forty-eight and three sixteenths")["ticks"] == 48 * 65024 + 3 * 4064
    assert [choice["text"] for choice in echo("4 8 1/4")["choices"]] == ["4' 8 1/4", "48 1/4"]
    assert echo("can't reach")["skip"] == "can't reach"
    assert echo("same")["text"] == "48 27/32"
    assert echo("nonsense")["ticks"] is None


def test_a_spot_that_is_not_there_is_no_page(larkspur: App) -> None:
    """A made-up key is told, not read."""
    assert "There is no such page." in text_of(larkspur.get("/walk?at=floor+Q+1+toe", 404))


def test_the_page_keeps_its_own_rules(larkspur: App) -> None:
    """No inline script or style, every key named, and one field that works without any script."""
    page = larkspur.get("/walk")
    assert not re.search(r"<script(?![^>]*\bsrc=)", page)
    assert not re.search(r"<style|\sstyle=", page)
    assert not re.search(r"\son\w+=", page)
    assert 'aria-label="3 sixteenths"' in page
    assert '<input id="text" name="text"' in page


def test_the_last_reading_being_old_asks_whether_the_laser_stands_where_it_stood(larkspur: App) -> None:
    """After half an hour the position is asked; said to be the same, the walk goes on."""
    from setline.field_book.entry import Entry

    old = Entry(
        id="old-1", job=larkspur.job, device="truck", n=1, at="2020-05-06T07:00:00+00:00",
        place="/floor/set_ups/S9/readings/A/wall/30/1", value="48 7/8",
    )  # fmt: skip
    larkspur.site.store.add([old])
    page = text_of(larkspur.get("/walk"))
    assert "Laser moved" in page  # S9 is tied to nothing yet
    larkspur.post("/walk", key="tie S9", skip="can't reach")
    assert "Same laser position?" not in text_of(larkspur.get("/walk?same=yes"))


def test_a_guest_is_led_to_the_readings(larkspur: App) -> None:
    """A walk is for those who read: who may only look sees what was read."""
    larkspur.client.cookies.set("setline-device", larkspur.site.sessions.add_link(larkspur.job, days=1))
    larkspur.client.headers["x-real-ip"] = "10.0.0.9"
    answer = larkspur.client.get(f"/j/{larkspur.job}/walk")
    assert answer.url.path == f"/j/{larkspur.job}/readings"
    assert 'method="post"' not in answer.text
