"""The makers' sheets: what each appliance asks, what is missing, and its sizes typed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.web.app import EXAMPLES, App, open_app, text_of
from tests.web.test_order import form_of, thing


@pytest.fixture
def larkspur(tmp_path: Path) -> App:
    """Return the inch sample in an app."""
    return open_app(tmp_path, EXAMPLES / "larkspur-street.toml")


def test_each_appliance_says_what_its_sheet_asks(larkspur: App) -> None:
    """Width, height and to where, depth, where it is from, and what the plan gives it."""
    page = text_of(larkspur.get("/sheets"))
    assert "32 dishwasher From its maker's sheet, rev. 7. Clear width, between frames 24 to 24 1/4" in page
    assert "Height, finished floor to the underside of the top 33 15/16 to 34 7/8" in page
    assert "In the plan 24 1/8 clear, B base" in page
    assert "Height, finished floor to the upper face of the top 35 1/8 to 36 1/2" in page
    assert "Sheets to get:" not in page


def test_a_sheet_that_is_not_at_hand_is_asked_for(larkspur: App) -> None:
    """On top of the page, and where the appliance stands; once it is typed nothing is asked any more."""
    fields = form_of(larkspur, "/sheets?open=33")
    general = {"sheet": "general, check the sheet", "sheet_date": "", "height.least": "", "height.most": ""}
    larkspur.post("/order/thing", **{**fields, **general})
    assert "height" not in thing(larkspur, "appliances", 33)
    page = text_of(larkspur.get("/sheets"))
    assert "Sheets to get: 33 range" in page
    assert "Its maker's sheet is not at hand" in page
    assert "No height yet: the level line is not held to it." in page
    fields = form_of(larkspur, "/sheets?open=33")
    sizes = {"sheet": "from the sheet", "sheet_date": "rev. 3", "height.least": "35", "height.most": "36 1/2"}
    page = text_of(larkspur.post("/order/thing", **{**fields, **sizes}))
    assert "Sheets to get:" not in page
    assert thing(larkspur, "appliances", 33)["height"] == {"least": "35", "most": "36 1/2"}


def test_a_window_of_sizes_goes_up(larkspur: App) -> None:
    """A least over a most is told at the field, on the page it was typed on."""
    fields = form_of(larkspur, "/sheets?open=33")
    page = larkspur.post("/order/thing", 422, **{**fields, "width.least": "31"})
    assert "The least, 31, is more than the most, 30 1/4." in text_of(page)
    assert 'value="31"' in page
    assert "<h1>Sheets</h1>" in page


def test_an_appliance_is_added_and_taken_off(larkspur: App) -> None:
    """On the page of the sheets, under the next number."""
    fields = form_of(larkspur, "/sheets?add=yes")
    page = larkspur.post(
        "/order/thing", **{**fields, "kind": "oven", "width.least": "30", "width.most": "30 1/8"}
    )
    assert "63 oven A general size." in text_of(page)
    larkspur.post("/order/take-out", listed="appliances", of=63, on="sheets")
    assert all(each["number"] != 63 for each in larkspur.document["order"]["appliances"])


def test_openings_for_no_appliance_need_no_sheet(larkspur: App) -> None:
    """A window between wall boxes has a width, and nobody's sheet."""
    page = text_of(larkspur.get("/sheets"))
    assert re.search(
        r"34 window Clear width, between frames 40 to 46 In the plan [0-9/ ]+ clear, B wall", page
    )


def test_no_appliances_is_one_sentence(tmp_path: Path) -> None:
    """And a way to add one."""
    app = open_app(tmp_path, {"format": 1, "job": {"name": "Tern Lane", "tape": "metric"}, "room": {}})
    page = app.get("/sheets")
    assert "No appliance is on order yet." in page
    assert "/sheets?add=yes" in page
