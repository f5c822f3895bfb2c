"""The floor's page: the line first, what binds it, what to read next, and ways to live with a fall."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from setline.web.pages.floor import FLOOR_CODES
from tests.rooms import falling_floor
from tests.web.app import EXAMPLES, App, open_app, text_of

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def larkspur(tmp_path_factory: pytest.TempPathFactory) -> App:
    """Return the inch sample in an app."""
    return open_app(tmp_path_factory.mktemp("larkspur"), EXAMPLES / "larkspur-street.toml")


@pytest.fixture
def falling(tmp_path: Path) -> App:
    """Return a room whose floor falls farther than is shimmed, in an app."""
    return open_app(tmp_path, falling_floor())


def test_the_number_comes_first_with_its_doubt_and_where_it_is_from(larkspur: App) -> None:
    """The struck line, within what, from which laser; where the tops and the high spot are."""
    page = text_of(larkspur.get("/floor"))
    assert "STRIKE 12 13/16 DOWN 12 and 13 sixteenths DOWN , within 3/32" in page
    assert "Measure from the laser line of set-up S1. Box tops are 1/8 below it (12 15/16 down)." in page
    assert "High spot: 1 back-right, wall A, 27 3/16 from its left corner, at the wall." in page
    assert "From set-up S2 the same line is ~14 7/32 down." in page


def test_what_binds_stands_at_both_ends_with_the_cheapest_relaxation(larkspur: App) -> None:
    """Who holds the tops down and who up, what lies between, and what it takes to let go."""
    page = text_of(larkspur.get("/floor"))
    assert "Not higher 12 9/16 down or lower sill of over the sink" in page
    assert "Not lower 12 15/16 down or higher high spot, 1 back-right" in page
    assert "To relax it: Take the floor down 1/8 there" in page
    assert "Between the two lies 3/8" in page


def test_the_picture_is_there_and_as_a_table(larkspur: App) -> None:
    """Heights as numbers at spots, and the same as rows to be walked."""
    html = larkspur.get("/floor")
    assert "<title>" in html[html.index("<svg") :][:2000] or 'role="img"' in html
    assert "S1 A 3 toe" in html or "toe" in text_of(html)
    assert "All 8 limits on the line" in text_of(html)


def test_what_to_read_next_is_told_with_its_worth_and_taken_at_a_press(larkspur: App) -> None:
    """The reading opens in the walk, beside what was read there before."""
    html = larkspur.get("/floor")
    assert "Read A 27 wall again: the high spot is then known within 3/64, now 1/16." in text_of(html)
    found = re.search(r'href="/j/[^/]+(/walk\?at=[^"]+)">Take it', html)
    assert found is not None
    assert "27 from LEFT corner" in text_of(larkspur.get(found[1].replace("&amp;", "&")))


def test_ways_to_live_with_a_fall_are_shown_before_they_are_taken(falling: App) -> None:
    """A row that changes the job leads to what it changes; work on site says so."""
    html = falling.get("/floor")
    page = text_of(html)
    assert "The floor falls too far: ways to live with it" in page
    assert "Trim box 1 by 1/4: the line comes down 1/4 greatest shim left 1" in page
    assert "work on site" in page
    assert "needs" not in page.partition("Where the tops may lie")[0], "the table tells it"
    found = re.search(r'href="/j/[^/]+(/remedy/[0-9a-f]+)">Show me<span class="heard">: Trim', html)
    assert found is not None
    before = falling.standing.plan
    falling.post(found[1])
    after = falling.standing.plan
    assert before is not None
    assert after is not None
    lowered = before.level_line.options[0].lowered
    assert before.level_line.tops.value is not None
    assert after.level_line.tops.value == before.level_line.tops.value - lowered


def test_what_stands_against_the_line_stands_beside_its_number(falling: App) -> None:
    """Nobody strikes a line that suits nothing because the warning was far down."""
    for address in ("/floor", "", "/marks/A"):
        page = text_of(falling.get(address))
        assert page.index("Do not set to this line yet") - page.index("STRIKE 13 3/8") < 300
    before, _, after = text_of(falling.get("/floor")).partition("Where the tops may lie")
    assert "No line suits all" in before
    assert "The laser was not proved" in after


def test_a_floor_nobody_read_says_what_is_missing(tmp_path: Path) -> None:
    """No number, never a 0, and the way to the walk."""
    document = falling_floor()
    app = open_app(tmp_path, {**document, "floor": {}})
    page = text_of(app.get("/floor"))
    assert "? Nothing is known of the floor under the boxes yet" in page
    assert "STRIKE" not in page


def test_a_job_without_a_plan_has_the_page_all_the_same(tmp_path: Path) -> None:
    """An empty job asks for its first reading."""
    app = open_app(tmp_path, {"format": 1, "job": {"name": "Wren Yard", "tape": "metric"}, "room": {}})
    assert "Next reading" in text_of(app.get("/floor"))


def test_the_first_page_of_a_job_says_what_to_strike(larkspur: App) -> None:
    """The same number as on the floor's page and on paper, and the way to ask why."""
    html = larkspur.get("")
    assert "STRIKE 12 13/16 DOWN 12 and 13 sixteenths DOWN , within 3/32" in text_of(html)
    assert f'href="/j/{larkspur.job}/why/S1%20strike"' in html


def test_findings_told_here_are_known_ones() -> None:
    """Each is in the list of findings; none of the floor's own is left out."""
    listed = (ROOT / "docs" / "findings.md").read_text(encoding="utf-8")
    codes = set(re.findall(r"^\| `([a-z-]+)` \|", listed, re.MULTILINE))
    own = listed[listed.index("## The floor and the line") : listed.index("## Shims and legs")]
    assert codes >= FLOOR_CODES
    assert set(re.findall(r"^\| `([a-z-]+)` \|", own, re.MULTILINE)) <= FLOOR_CODES
