"""Undo takes back the last act kept from a device, once, and never somebody else's without a question."""

from __future__ import annotations

import secrets
from pathlib import Path

import pytest

from setline.field_book.entry import Entry
from setline.field_book.undo import last_act, undo
from setline.web.session import HOST
from setline.web.writing import keep
from tests.web.app import EXAMPLES, App, open_app, text_of

NAME = "/order/boxes/3/name"


@pytest.fixture
def app(tmp_path: Path) -> App:
    """Return an app with the inch sample in it."""
    return open_app(tmp_path, EXAMPLES / "larkspur-street.toml")


def _name(app: App) -> str:
    boxes = {box["number"]: box for box in app.document["order"]["boxes"]}
    return str(boxes[3].get("name", ""))


def _rename(app: App, name: str | None) -> None:
    keep(app.site, app.standing, HOST, {NAME: name}, act=secrets.token_hex(10))


def _undo(app: App, status: int = 200, **fields: str) -> str:
    return app.post("/undo", status, **{"act": "", "back": f"/j/{app.job}", **fields})


def test_a_job_just_started_has_nothing_to_undo(app: App) -> None:
    """Starting the job is no act that Undo takes back."""
    assert last_act(app.standing.entries, HOST.id) == ()
    assert "nothing more" in text_of(_undo(app))


def test_acts_are_taken_back_one_by_one(app: App) -> None:
    """Each press takes back the act before, down to what was there at first, and no further."""
    first = _name(app)
    for name in ("trays", "spice", None, "bins"):
        _rename(app, name)
    for name in ("", "spice", "trays", first, first):
        _undo(app)
        assert _name(app) == name


def test_the_same_undo_pressed_twice_takes_back_one(app: App) -> None:
    """A page's Undo names its act, so that a double press undoes no second one."""
    _rename(app, "trays")
    _rename(app, "spice")
    act = undo(app.standing.entries, HOST.id)
    assert act is not None
    for _ in range(2):
        _undo(app, act=act.name)
        assert _name(app) == "trays"


def test_what_was_undone_can_be_done_again(app: App) -> None:
    """After an undo a new act is the last one."""
    _rename(app, "trays")
    _undo(app)
    _rename(app, "spice")
    _undo(app)
    assert _name(app) == "door and drawer"


def test_another_phone_that_built_on_it_is_asked_about(app: App) -> None:
    """Undo shows what else it would put aside, and does it only when told to."""
    _rename(app, "trays")
    mine = next(entry for entry in app.standing.entries if (entry.place, entry.value) == (NAME, "trays"))
    theirs = Entry(
        id="phone-2-1", job=app.job, device="phone", n=1, over=(mine.id,), by="Ines", place=NAME, value="bins"
    )
    app.site.store.add((theirs,))
    asked = text_of(_undo(app, 409))
    assert "bins" in asked
    assert "Ines" in asked
    assert _name(app) == "bins"
    _undo(app, anyhow="yes")
    assert _name(app) == "door and drawer"


@pytest.mark.parametrize("back", ["https://elsewhere.test/", "//elsewhere.test", "/j/other", "/j/x\\y", ""])
def test_undo_leads_nowhere_else(app: App, back: str) -> None:
    """The page to go back to is one of this job, whatever the form says."""
    answer = app.client.post(f"/j/{app.job}/undo", data={"act": "", "back": back}, follow_redirects=False)
    assert answer.headers["location"].partition("?")[0] == f"/j/{app.job}"


def test_every_page_has_undo_in_the_same_place(app: App) -> None:
    """The button stands in the head of a page as soon as there is something to undo, and says what."""
    assert 'id="undo"' not in app.get("")
    _rename(app, "trays")
    assert "box 3, name" in text_of(app.get(""))
