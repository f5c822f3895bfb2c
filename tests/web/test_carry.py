"""The carried plan: one file with everything, that reaches for nothing outside itself."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from setline.lengths import Units, show
from tests.web.app import EXAMPLES, App, open_app, text_of


@pytest.fixture(params=["larkspur-street", "mill-row"])
def sample(request: pytest.FixtureRequest, tmp_path: Path) -> App:
    """Return each sample in an app."""
    return open_app(tmp_path, EXAMPLES / f"{request.param}.toml")


@pytest.fixture
def file(sample: App) -> str:
    """Return the carried file."""
    return sample.get("/carry/file")


def test_the_file_is_handed_out_to_be_saved(sample: App) -> None:
    """As an attachment with a plain name and the check code: it is never shown as a page of the app."""
    answer = sample.client.get(f"/j/{sample.job}/carry/file")
    plan = sample.standing.plan
    assert plan is not None
    given = answer.headers["content-disposition"]
    assert re.fullmatch(rf'attachment; filename="[A-Za-z0-9-]+-{plan.check_code}\.html"', given)
    assert "script" not in answer.headers["content-security-policy"]
    assert "unsafe-inline" not in answer.headers["content-security-policy"]


def test_the_file_reaches_for_nothing_outside_itself(file: str) -> None:
    """No script, no address but its own parts; its own policy forbids the rest."""
    assert "<script" not in file
    assert "default-src 'none'" in file
    addresses = re.findall(r"""(?:href|src)="([^"]*)"|url\("([^"]*)"\)""", file)
    assert {(one or other)[:5] for one, other in addresses} == {"#line", "#wall", "#floo", "data:"}


def test_every_mark_shim_and_trouble_stands_in_the_file(sample: App, file: str) -> None:
    """What is needed at the wall is all there, as the plan prints it."""
    plan, text = sample.standing.plan, text_of(file)
    assert plan is not None
    for run in plan.runs:
        for mark in run.marks:
            sign, bar, _ = mark.write.partition("| ")
            assert sign + bar.rstrip() in text, mark.name
    for shim in plan.shims:
        assert f"{shim.corner}" in text
        if shim.printed is not None:
            assert show(shim.printed, Units(plan.units)) in text
    for finding in plan.findings:
        assert finding.text in text
    assert f"Copy of plan {plan.check_code}" in text
    line = next(line for line in plan.level_line.set_ups if line.in_use)
    assert f"STRIKE {show(line.printed_strike or 0, Units(plan.units))} down" in text


def test_every_wall_s_drawings_are_in_the_file(sample: App, file: str) -> None:
    """Elevation and shim map of each wall with runs, and the floor picture, each said in words too."""
    plan = sample.standing.plan
    assert plan is not None
    walls = {run.wall for run in plan.runs}
    assert file.count('role="img"') == 2 * len(walls) + 1
    assert file.count("<desc ") == file.count('role="img"')
    ids = re.findall(r'\sid="([^"]+)"', file)
    assert len(ids) == len(set(ids))


def test_the_page_offers_the_file_and_says_what_a_phone_keeps(sample: App) -> None:
    """Save to this phone; and the check code that tells an old copy."""
    page = sample.get("/carry")
    plan = sample.standing.plan
    assert plan is not None
    assert f'href="/j/{sample.job}/carry/file"' in page
    assert f"Plan {plan.check_code}." in text_of(page)


def test_a_job_without_a_plan_has_nothing_to_carry(tmp_path: Path) -> None:
    """It says so in place of an empty sheet."""
    app = open_app(tmp_path, {"format": 1, "job": {"name": "Tern Lane", "tape": "inch"}, "room": {}})
    assert "There is no plan yet to carry." in text_of(app.get("/carry"))
    app.get("/carry/file", 409)
