"""Why: every printed number leads to what it rests on, in the words that the terminal has."""

from __future__ import annotations

import re
from html import unescape
from urllib.parse import quote, unquote

import pytest

from setline.packet.why import why
from tests.web.app import EXAMPLES, App, open_app, text_of

SAMPLES = ("larkspur-street", "mill-row")


@pytest.fixture(scope="module")
def apps(tmp_path_factory: pytest.TempPathFactory) -> dict[str, App]:
    """Return both samples in apps of their own."""
    return {name: open_app(tmp_path_factory.mktemp(name), EXAMPLES / f"{name}.toml") for name in SAMPLES}


@pytest.fixture
def larkspur(apps: dict[str, App]) -> App:
    """Return the inch sample in an app."""
    return apps["larkspur-street"]


def _asked(html: str) -> set[str]:
    """Return the names that a page leads to the reasons of."""
    return {unquote(unescape(name)) for name in re.findall(r'href="/j/[^/"]+/why/([^"]+)"', html)}


@pytest.mark.parametrize("sample", SAMPLES)
def test_every_number_of_a_plan_has_its_page(apps: dict[str, App], sample: str) -> None:
    """With the printed number, every line of the arithmetic, every reading as typed, and the rule."""
    app = apps[sample]
    plan, book = app.standing.plan, app.standing.book
    assert plan is not None
    assert book is not None
    for name in list(plan.named)[:: 3 if sample == "mill-row" else 2]:
        page, found = text_of(app.get(f"/why/{quote(name)}")), why(plan, name, book)
        assert f"Why: {name}" in page
        told = (found.printed, found.within, *found.details, *found.working, *found.readings, found.rule)
        assert all(" ".join(each.split()) in page for each in told)


def test_the_list_leads_to_every_number(larkspur: App) -> None:
    """By line, run and box; nothing of the plan is left out."""
    assert larkspur.standing.plan is not None
    assert _asked(larkspur.get("/why")) == set(larkspur.standing.plan.named)


def test_pages_that_show_a_number_lead_to_its_reasons(larkspur: App) -> None:
    """Marks, shims, the step of a box, the floor and the first page."""
    plan = larkspur.standing.plan
    assert plan is not None
    marks = {mark.name for run in plan.runs if run.wall == "A" for mark in run.marks}
    assert _asked(larkspur.get("/marks/A")) == marks | {"S1 strike"}
    assert _asked(larkspur.get("/shims")) == {shim.name for shim in plan.shims}
    assert {"A base 2 left", "2 back-left", "2 front-right"} <= _asked(larkspur.get("/set/2"))
    limits = {f"limit {each.owner}" for each in plan.level_line.band.limits}
    assert _asked(larkspur.get("/floor")) == limits | {"S1 strike", "S2 strike"}


def test_a_typed_name_is_found_in_any_case_and_spacing(larkspur: App) -> None:
    """As the terminal takes it; short names of the line, too."""
    assert "Why: A base 3 left" in text_of(larkspur.get("/why?name=a++BASE+3+left"))
    assert "Why: S1 strike" in text_of(larkspur.get("/why?name=strike"))


def test_a_name_that_is_none_gives_the_nearest(larkspur: App) -> None:
    """What was typed comes back, with names that look like it."""
    page = larkspur.get("/why?name=A+base+3+lift", 404)
    assert 'value="A base 3 lift"' in page
    assert "A base 3 left" in _asked(page)
    assert "Nothing in this plan is called" in text_of(larkspur.get("/why/%3Cb%3E/../9", 404))


def test_a_reading_behind_a_number_is_read_again_from_there(larkspur: App) -> None:
    """The walk opens at it, beside what was read first."""
    found = re.search(r'href="/j/[^/]+(/walk\?at=[^"]+)">Read it again', larkspur.get("/why/high%20spot"))
    assert found is not None
    page = text_of(larkspur.get(unescape(found[1])))
    assert "27 from LEFT corner" in page
    assert "48 27/32" in page
