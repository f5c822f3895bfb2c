"""What a re-plan changed, without scripts: rows beside what stood before; a yes, another way, or none."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from setline.lengths import Units, show
from setline.result import Mark, Rank
from setline.stages.changes import ChangeKind, changes
from setline.told import wall_differs
from tests.rooms import plain_room
from tests.web.app import App, open_app, text_of


@pytest.fixture
def app(tmp_path: Path) -> App:
    """Return an app with a framed room that fits, all of it agreed and struck."""
    document = plain_room()
    for each in document["order"]["boxes"]:
        each |= {"overhang_left": "1/8", "overhang_right": "1/8"}
    opened = open_app(tmp_path, document)
    opened.post("/agree")
    opened.post("/marks/A/line")
    names = [mark.name for mark in marks_of(opened)]
    opened.post("/marks/A/sheet", shown=names, struck=names)
    return opened


def marks_of(app: App) -> list[Mark]:
    """Return every mark of the plan."""
    assert app.standing.plan is not None
    return [mark for run in app.standing.plan.runs for mark in run.marks]


def number(app: App, name: str) -> str:
    """Return a mark's number as it is printed."""
    (found,) = [mark for mark in marks_of(app) if mark.name == name]
    assert found.printed is not None
    return show(found.printed, Units.INCH)


def set_first_box(app: App, right: str = "22 9/16") -> str:
    """Set box 1 by its right edge and return the page that leads to."""
    for key, how, text in (
        ("right", "typed", right),
        ("left", "mark", ""),
        ("top-left", "mark", ""),
        ("top-right", "mark", ""),
    ):
        app.post("/set/1/as-set", key=key, answer=how, text=text, screwed="yes", sure="yes")
    return app.post("/set/1/as-set", key="off-wall", answer="not-read", screwed="yes")


def rows_of(html: str) -> list[list[str]]:
    """Return the rows of the table of changes, cell by cell."""
    table = re.search(r'<table class="changed">.*?<tbody>(.*?)</tbody>', html, re.DOTALL)
    assert table is not None
    rows = re.findall(r"<tr[^>]*>(.*?)</tr>", table[1], re.DOTALL)
    return [[text_of(cell) for cell in re.findall(r"<t[hd].*?</t[hd]>", row, re.DOTALL)] for row in rows]


def test_setting_a_box_wide_leads_to_its_changes(app: App) -> None:
    """The page opens with the box, and has a row for all that differs between the two plans, no more."""
    before = app.standing.plan
    assert before is not None
    html = set_first_box(app)
    after = app.standing.plan
    assert after is not None
    page = text_of(html)
    assert page.startswith("What changed")
    assert "Box 1 went in 18 1/16 wide: right edge 22 9/16, plan 22 1/2." in page
    assert "Nothing else moves." in page
    assert len(rows_of(html)) == len(changes(before, after)) - 1
    assert f"strike out 34 1/2, write {number(app, 'A base 3 left')}" in page


def test_use_these_agrees_to_every_mark_and_names_those_to_strike(app: App) -> None:
    """A yes writes the new numbers; the banner stays until the wall says them too."""
    html = set_first_box(app)
    form = re.search(r'<form method="post" action="[^"]+/agree">.*?</form>', html, re.DOTALL)
    assert form is not None
    sent = dict(re.findall(r'name="(seen|back)" value="([^"]+)"', form[0]))
    page = app.post("/agree", **sent)
    assert "plan and wall differ by 1/16" in text_of(page)
    assert all(mark.agreed == mark.printed for mark in marks_of(app))
    assert app.standing.plan is not None
    differs = wall_differs(app.standing.plan)
    moved = [mark.name for each in differs for mark in each.marks]
    assert moved
    app.post("/marks/A/sheet", shown=moved, struck=moved)
    assert wall_differs(app.standing.plan) == ()
    assert "plan and wall differ" not in text_of(app.get("/set"))


def test_leaving_it_keeps_the_banner_on_the_sheets(app: App) -> None:
    """Nothing is written; the set list and the marks both say that plan and wall differ."""
    html = set_first_box(app)
    revision = app.standing.revision
    assert f'href="/j/{app.job}/set"' in html
    for page in ("/set", "/marks/A", "/set/2", "/shims", "/print"):
        assert "plan and wall differ by 1/16 from 34 1/2 on" in text_of(app.get(page))
    assert app.standing.revision == revision


def test_a_change_is_told_beside_what_was_agreed(app: App) -> None:
    """A row says what number was agreed, where that is neither the old nor the new one."""
    before = app.standing.plan
    set_first_box(app)
    after = app.standing.plan
    assert before is not None
    assert after is not None
    moved = [row for row in changes(before, after) if row.kind is ChangeKind.MARK]
    assert [row.agreed for row in moved] == [None] * len(moved)
    runs = tuple(
        replace(run, marks=tuple(replace(mark, agreed=1) for mark in run.marks)) for run in after.runs
    )
    rows = [row for row in changes(before, replace(after, runs=runs)) if row.kind is ChangeKind.MARK]
    assert rows
    assert {row.agreed for row in rows} == {1}


def test_a_yes_to_what_moved_on_is_refused(app: App) -> None:
    """A page made before another box was set agrees to nothing that it did not show."""
    seen = app.standing.revision
    set_first_box(app)
    agreed = [mark.agreed for mark in marks_of(app)]
    assert "says other numbers by now" in text_of(app.post("/agree", 409, seen=str(seen)))
    assert [mark.agreed for mark in marks_of(app)] == agreed


def test_other_ways_show_what_they_keep_before_they_are_taken(app: App) -> None:
    """A planed stile keeps every mark; taken, the wall is right again, and the box still stands."""
    set_first_box(app)
    n = app.standing.revision
    html = app.get(f"/changes/{n}/other")
    page = text_of(html)
    assert "Take 1/16 off the stile of box 2. Every mark stays." in page
    assert page.index("Take 1/16 off") < page.index("Take box 1 out again.")
    key = re.search(r'name="key" value="(\w+)"', html)
    assert key is not None
    after = text_of(app.post(f"/changes/{n}/other", key=key[1]))
    assert after.startswith("What changed")
    assert app.standing.plan is not None
    assert wall_differs(app.standing.plan) == ()
    assert app.document["order"]["boxes"][1]["measured"] == "11 15/16"


def test_taking_the_box_out_is_the_last_way_and_restores_the_plan(app: App) -> None:
    """It takes back all that was read, and the plan is the one before."""
    before = app.standing.plan
    set_first_box(app)
    n = app.standing.revision
    keys = re.findall(r'name="key" value="(\w+)"', app.get(f"/changes/{n}/other"))
    app.post(f"/changes/{n}/other", key=keys[-1])
    assert before is not None
    assert app.standing.plan is not None
    assert app.standing.plan.runs == before.runs


def test_an_old_page_of_changes_says_that_the_plan_has_moved_on(app: App) -> None:
    """It still tells what changed then, and offers no yes to it."""
    set_first_box(app)
    n = app.standing.revision
    app.post("/set/2/as-set", key="right", answer="typed", text="34 3/4", screwed="yes")
    html = app.get(f"/changes/{n}")
    assert "The plan has moved on since." in text_of(html)
    assert "USE THESE" not in html
    assert 'name="key"' not in app.get(f"/changes/{n}/other")


def test_a_conflict_is_told_with_the_set_box_as_a_fact(app: App) -> None:
    """Nothing else works: the finding names the box, and taking it out is its last way out."""
    page = text_of(set_first_box(app, "31"))
    assert page.count("box 1 (set: 31)") == 1
    assert "out again" in page
    assert app.standing.plan is not None
    stop = next(found for found in app.standing.plan.findings if found.rank is Rank.STOP)
    assert stop.remedies[-1].kind == "take-out-box"


@pytest.mark.parametrize("n", ["0", "99999", "-1", "x"])
def test_a_revision_that_was_not_has_no_changes(app: App, n: str) -> None:
    """There is no such page, and nothing breaks."""
    answer = app.client.get(f"/j/{app.job}/changes/{n}")
    assert answer.status_code in {404, 422}


def test_a_way_that_is_gone_is_refused(app: App) -> None:
    """A key of nothing that is offered changes nothing."""
    set_first_box(app)
    revision = app.standing.revision
    app.post(f"/changes/{revision}/other", 409, key="feedfeedfeed")
    assert app.standing.revision == revision


def test_a_job_without_a_plan_has_nothing_to_agree(tmp_path: Path) -> None:
    """A yes to no plan is refused with a sentence."""
    bare: Any = {"format": 1, "job": {"name": "Bare", "tape": "inch"}, "room": {}}
    app = open_app(tmp_path, bare)
    app.post("/agree", 409)
