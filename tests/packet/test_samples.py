"""The packets of both sample kitchens: every number on its sheet, on both papers."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest
from tests.packet.read_back import Sheet, sheets_of

from setline.job.job import Job, tape_of
from setline.job.read import load_job
from setline.lengths import Units, show
from setline.odds import doubts
from setline.packet import packet
from setline.result import Plan
from setline.rules import rule_book
from setline.stages import plan
from setline.told import strike_words

SAMPLES = ("larkspur-street", "mill-row")
PAPERS = ("letter", "a4")


@cache
def _planned(name: str) -> tuple[Job, Plan]:
    job = load_job(Path(__file__).parents[2] / "examples" / f"{name}.toml")
    return job, plan(job)


@cache
def _made(name: str, paper: str) -> tuple[int, tuple[Sheet, ...]]:
    """Return the size of a sample's packet, and its pages read back."""
    job, planned = _planned(name)
    book = rule_book(job.rules, tape=tape_of(job))
    made = packet(planned, job, book, paper=paper, doubts=doubts(job, planned))
    return len(made), sheets_of(made)


def _texts(name: str, paper: str = "letter") -> list[str]:
    """Return the words of each page."""
    return [sheet.text for sheet in _made(name, paper)[1]]


both = pytest.mark.parametrize("name", SAMPLES)
papers = pytest.mark.parametrize("paper", PAPERS)


@both
@papers
def test_every_mark_and_shim_is_printed(name: str, paper: str) -> None:
    """Each mark stands word for word on its wall's sheet, each point with its thickness on its wall's map."""
    _, planned = _planned(name)
    texts = _texts(name, paper)
    for wall in {run.wall for run in planned.runs}:
        marks = " ".join(text for text in texts if text.startswith(f"WALL {wall}, seen facing it START"))
        for run in planned.runs:
            for mark in run.marks if run.wall == wall else ():
                assert all(word in marks for word in mark.write.split()), f"{mark.name} is not on its sheet"
        under = " ".join(text for text in texts if f"WALL {wall}: what goes under each point" in text)
        for shim in planned.shims:
            if shim.wall == wall:
                number = "?" if shim.printed is None else show(shim.printed, Units(planned.units))
                assert f"{shim.corner} {number}" in under, f"{shim.name} is not on its map"


@both
@papers
def test_the_cover_is_one_page_with_the_line_and_the_caution(name: str, paper: str) -> None:
    """The struck line, what stops and the caution stand together on the first page."""
    _, planned = _planned(name)
    texts = _texts(name, paper)
    line = planned.level_line.set_ups[0]
    assert " ".join(strike_words(line, Units(planned.units))) in texts[0]
    assert "These sheets advise; they certify nothing." in texts[0]
    assert texts[1].startswith("Findings")


@both
def test_every_finding_and_way_out_is_printed(name: str) -> None:
    """What the plan found, and each remedy, stands on the findings pages."""
    _, planned = _planned(name)
    text = " ".join(_texts(name))
    for finding in planned.findings:
        assert finding.text in text
        for remedy in finding.remedies:
            assert remedy.text.split(". ")[0] in text


@both
@papers
def test_every_page_has_its_foot_and_stays_on_the_paper(name: str, paper: str) -> None:
    """Page n of m, the check code and the word plan stand on each page, and no letter in the side margin."""
    _, planned = _planned(name)
    size, sheets = _made(name, paper)
    assert size < 1_500_000
    for place, sheet in enumerate(sheets, start=1):
        assert f"page {place} of {len(sheets)}" in sheet.text
        assert f"check {planned.check_code} · plan" in sheet.text
        assert sheet.least >= 11.5
        assert sheet.most <= sheet.width - 11.5


@both
def test_a_wall_that_cannot_be_set_says_so_on_its_sheet_alone(name: str) -> None:
    """DO NOT SET heads the sheet of each wall with a run that cannot be solved, and no other."""
    _, planned = _planned(name)
    texts = _texts(name)
    for wall in {run.wall for run in planned.runs}:
        sheet = next(text for text in texts if text.startswith(f"WALL {wall}, seen facing it START"))
        unsolved = any(not run.solved for run in planned.runs if run.wall == wall)
        assert ("DO NOT SET" in sheet) == unsolved
