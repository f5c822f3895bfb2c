"""Troubles: every finding with its ways out, shown before they are taken, and two people's values settled."""

from __future__ import annotations

import re
import secrets
from pathlib import Path

import pytest

from setline.field_book.entry import Entry
from setline.result import Rank
from tests.rooms import plain_room
from tests.web.app import EXAMPLES, App, open_app, text_of

STOP = "pieces need"


@pytest.fixture
def app(tmp_path: Path) -> App:
    """Return an app with the inch sample, whose C wall does not fit."""
    return open_app(tmp_path, EXAMPLES / "larkspur-street.toml")


def _remedies(page: str) -> list[str]:
    """Return the addresses of the ways out that show their result."""
    return list(dict.fromkeys(re.findall(r'href="/j/\w+(/remedy/\w+)"', page)))


def _stops(app: App) -> list[str]:
    plan = app.standing.plan
    assert plan is not None
    return [found.text for found in plan.findings if found.rank is Rank.STOP]


def test_every_finding_is_told_the_worst_first(app: App) -> None:
    """Stops and decides are in sight, all others under a fold, none left out."""
    page = text_of(app.get("/troubles"))
    plan = app.standing.plan
    assert plan is not None
    places = [page.index(" ".join(found.text.split())) for found in plan.findings]
    assert places == sorted(places)
    quiet = sum(found.rank not in {Rank.STOP, Rank.DECIDE} for found in plan.findings)
    assert f"{quiet} more to know" in page


def test_each_remedy_tells_its_cost_and_rule_with_its_source(app: App) -> None:
    """Hours and days stand with a way out; a finding says what it rests on."""
    page = text_of(app.get("/troubles"))
    assert "waits 42 days" in page
    assert "What it rests on" in page


def test_every_way_out_shows_its_result_and_cures(app: App) -> None:
    """Each is shown with what changes; taken, it leaves no stop; undone, the stop is back."""
    for address in _remedies(app.get("/troubles")):
        before = _stops(app)
        assert len(before) == 1
        shown = text_of(app.get(address))
        assert "Taken, it ends this trouble." in shown
        assert "Wall C now" in shown
        app.post(address)
        assert _stops(app) == []
        app.post("/undo", act="", back="")
        assert _stops(app) == before


def test_taken_twice_it_is_kept_once(app: App) -> None:
    """A double press of Do it writes one change."""
    address, act = _remedies(app.get("/troubles"))[0], secrets.token_hex(10)
    app.post(address, act=act)
    count = app.standing.revision
    app.post(address, act=act)
    assert app.standing.revision == count


def test_a_way_out_that_is_gone_says_so(app: App) -> None:
    """Once the trouble is settled, an old page's way out changes nothing."""
    address = _remedies(app.get("/troubles"))[0]
    app.post(address)
    count = app.standing.revision
    assert "That way out is gone" in text_of(app.post(address, 409))
    assert "That way out is gone" in text_of(app.get(address, 404))
    assert app.standing.revision == count


def test_looking_at_a_way_out_keeps_nothing(app: App) -> None:
    """Showing a result writes no entry."""
    count = app.standing.revision
    for address in _remedies(app.get("/troubles")):
        app.get(address)
    assert app.standing.revision == count


def test_two_peoples_words_are_told_with_who_said_what(app: App) -> None:
    """A place with two live values stands among the troubles, with what is used meanwhile."""
    for device, value in (("phone-a", "18 1/16"), ("phone-b", "18 1/8")):
        entry = Entry(
            id=f"{device}-1",
            job=app.job,
            device=device,
            n=1,
            by=device,
            place="/order/boxes/12/measured",
            value=value,
        )
        app.site.store.add((entry,))
    page = text_of(app.get("/troubles"))
    assert "two values for box 12, measured: 18 1/16 (phone-a) and 18 1/8 (phone-b)." in page
    assert "The middle, 18 3/32, is used" in page


def test_a_job_without_a_plan_says_why(tmp_path: Path) -> None:
    """What keeps the job from being read stands there in words."""
    document = plain_room()
    document["room"] = {}
    page = text_of(open_app(tmp_path, document).get("/troubles"))
    assert "No plan yet" in page
    assert "room" in page


def test_a_room_that_fits_says_so(tmp_path: Path) -> None:
    """Nothing that stops is told as such, in one line."""
    page = text_of(open_app(tmp_path, plain_room()).get("/troubles"))
    assert "Nothing stops" in page
