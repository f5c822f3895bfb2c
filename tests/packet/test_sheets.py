"""The PDF read back: paper, foot, ink, fonts, and every number that a sheet must carry."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

import pytest
from pdfplumber.page import Page
from tests.packet.hand_made import make_job, make_plan
from tests.packet.read_back import PT_PER_MM, pages_of, sheets_of, text_of
from tests.tape import inch

from setline.lengths import Units, show
from setline.packet import packet
from setline.packet.marks_sheet import marks_sheet
from setline.packet.picture import Picture
from setline.rules import rule_book

PAPERS = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
EMPTY = Picture(file="", width=1, height=1, alt="")
LONG = "Whole kitchen of the corner house, flat over the shop, for the owner and tenant"


@cache
def _made(paper: str) -> bytes:
    """Return the packet of the hand-made plan."""
    return packet(make_plan(), make_job(), rule_book(), paper=paper)


@pytest.fixture(scope="module", params=PAPERS)
def opened(request: pytest.FixtureRequest) -> Iterator[tuple[str, list[Page]]]:
    """Give the pages on both papers, taken apart once for all tests."""
    with pages_of(_made(request.param)) as pages:
        yield request.param, pages


papers = pytest.mark.parametrize("paper", PAPERS)


def test_every_page_has_the_size_of_its_paper(opened: tuple[str, list[Page]]) -> None:
    """A page is the paper that was asked for, upright or turned."""
    paper, pages = opened
    sizes = {(round(page.width / PT_PER_MM, 1), round(page.height / PT_PER_MM, 1)) for page in pages}
    assert sizes == {PAPERS[paper], PAPERS[paper][::-1]}


def test_every_page_has_its_foot(opened: tuple[str, list[Page]]) -> None:
    """Job, page n of m, revision, date, check code and the word plan stand at the foot of each page."""
    pages = opened[1]
    for place, page in enumerate(pages, start=1):
        foot = page.crop((0, page.height - 17 * PT_PER_MM, page.width, page.height)).extract_text()
        for part in ("Cedar Lane 4", f"page {place} of {len(pages)}", "rev B", "4 May", "7f3a9c", "plan"):
            assert part in foot, f"page {place} has no {part!r} at its foot"


def test_only_black_is_printed(opened: tuple[str, list[Page]]) -> None:
    """Text and lines are black, or white on black and around a number; no grey, no colour."""
    ink = {char["non_stroking_color"] for page in opened[1] for char in page.chars}
    lines = {line["stroking_color"] for page in opened[1] for line in page.lines}
    black_and_white = {(0.0,), (1.0,), 0.0, 1.0}
    assert ink <= black_and_white
    assert lines <= black_and_white


def test_all_fonts_are_embedded(opened: tuple[str, list[Page]]) -> None:
    """Every font is the shipped one and travels in the file."""
    for page in opened[1]:
        for font in page.page_obj.resources["Font"].values():
            descendant = font.resolve()["DescendantFonts"][0].resolve()
            descriptor = descendant["FontDescriptor"].resolve()
            assert "SourceSansPro" in str(descriptor["FontName"])
            assert {"FontFile2", "FontFile3"} & set(descriptor)


def test_no_text_is_under_nine_points(opened: tuple[str, list[Page]]) -> None:
    """Nothing on paper is set smaller than 9 pt."""
    sizes = [
        char["width" if abs(char["matrix"][1]) > 0.1 else "height"]
        for page in opened[1]
        for char in page.chars
    ]
    assert min(sizes) >= 8.99


def test_the_struck_line_is_the_largest_thing_on_the_cover(opened: tuple[str, list[Page]]) -> None:
    """13 3/8 DOWN is set in 60 pt, and the tops stand under it."""
    cover = opened[1][0]
    assert "".join(char["text"] for char in cover.chars if char["size"] >= 60) == "13 3/8 DOWN"
    assert max(char["size"] for page in opened[1] for char in page.chars) < 61
    text = text_of(cover)
    assert "from the laser line of set-up S1" in text
    assert "Box tops are 1/8 below it (13 1/2 down). Within 1/16." in text
    assert "~12 1/32 DOWN" in text
    assert "local code" in text
    assert "licensed trades" in text


@papers
def test_nothing_runs_off_the_page(paper: str) -> None:
    """Every letter stands between the side margins."""
    for sheet in sheets_of(_made(paper)):
        assert sheet.least >= 11.5
        assert sheet.most <= sheet.width - 11.5


@papers
def test_every_mark_is_on_its_walls_sheet(paper: str) -> None:
    """Each mark stands word for word on the marks sheet of its wall."""
    texts = [sheet.text for sheet in sheets_of(_made(paper))]
    for wall in ("A", "B"):
        text = " ".join(text for text in texts if f"WALL {wall}, seen" in text)
        for run in make_plan().runs:
            for mark in run.marks if run.wall == wall else ():
                assert mark.write in text, f"{mark.name} is not on the sheet of wall {wall}"


def test_a_wall_row_says_how_high_it_hangs() -> None:
    """Boxes 19 1/2 over the tops hang 19 3/8 over a line struck 1/8 above them; a base row is not told."""
    sheet = next(each for each in sheets_of(_made("letter")) if "WALL A, seen" in each.text)
    assert " ".join(sheet.text.split()).count("undersides of the boxes 19 3/8 UP from the struck line") == 1


def test_every_shim_is_on_its_walls_map() -> None:
    """Each bearing point stands on the shim page of its wall, the one not read as ?."""
    texts = [sheet.text for sheet in sheets_of(_made("letter"))]
    text = " ".join(text for text in texts if "WALL A: what goes under" in text)
    assert text.count("back-left") == 4
    assert "front-right ? not read" in text
    assert "0 HIGH SPOT: sits on the floor" in text


def _texts(made: bytes) -> list[str]:
    """Return the words of each page."""
    return [sheet.text for sheet in sheets_of(made)]


def test_a_run_that_cannot_be_solved_says_do_not_set() -> None:
    """Its sheet is headed DO NOT SET and its marks are ?; the other wall keeps its marks."""
    texts = _texts(packet(make_plan(unsolved=("B base",)), make_job(), rule_book(), paper="letter"))
    assert "DO NOT SET B base yet: see STOP below." in texts[0]
    short = " ".join(text for text in texts if "WALL B, seen" in text)
    assert "DO NOT SET: the pieces overrun the room they have by 1/2" in short
    assert "? |24>" in short
    assert "75 1/4" not in short
    assert not any("DO NOT SET" in text for text in texts if "WALL A, seen" in text)
    assert not any(text.startswith("WALL B: story pole") for text in texts)


def test_long_names_are_printed_whole() -> None:
    """A long job name, long item names and a long note are broken over lines, not cut."""
    plan = make_plan(LONG)
    long_what = "pull-out pantry with the wide drawers for pots that the client asked for twice"
    runs = tuple(
        replace(run, items=tuple(replace(item, name=long_what) for item in run.items)) for run in plan.runs
    )
    sheets = sheets_of(packet(replace(plan, runs=runs), make_job(LONG), rule_book(), paper="a4"))
    assert max(sheet.most - sheet.width for sheet in sheets) <= -11.5
    assert LONG in sheets[0].text
    as_set = " ".join(sheet.text for sheet in sheets if "left as set" in sheet.text)
    assert as_set.count("asked for twice") == sum(len(run.items) for run in runs)


def test_the_head_of_a_long_table_comes_again() -> None:
    """Where the shims of a wall fill more than a page, each page has the head of the table."""
    plan = make_plan()
    many = tuple(
        replace(shim, name=f"{shim.box + 50 * turn} {shim.corner}", box=shim.box + 50 * turn)
        for turn in range(6)
        for shim in plan.shims
        if shim.wall == "A"
    )
    texts = _texts(packet(replace(plan, shims=many), make_job(), rule_book()))
    assert sum("Box Point Under it Made of" in text for text in texts) >= 3


def test_the_same_plan_gives_the_same_bytes() -> None:
    """A packet made again is the same file, and is small enough to send."""
    assert packet(make_plan(), make_job(), rule_book(), paper="letter") == _made("letter")
    assert len(_made("letter")) < 1_500_000


def test_paper_follows_the_job_and_then_the_tape() -> None:
    """Without a paper named, the job's stands; without that, letter for an inch tape."""
    made = packet(make_plan(), make_job(paper="a4"), rule_book(), story_pole=False)
    assert round(sheets_of(made)[0].width) == 210
    made = packet(make_plan(), make_job(), rule_book(), story_pole=False)
    assert round(sheets_of(made)[0].width) == 216


def test_the_contents_name_the_page_they_lead_to() -> None:
    """The page numbers beside a title on the cover are the pages with that title."""
    texts = _texts(_made("letter"))
    first = {
        name: next(place for place, text in enumerate(texts, start=1) if text.startswith(name))
        for name in ("As set", "WALL B seen", "WALL B SHIMS", "WALL B: story")
    }
    assert f"As set, blank {first['As set']} " in texts[0]
    wall = ", ".join(str(place) for name, place in first.items() if name.startswith("WALL"))
    assert f"Wall B: marks, shim map, story pole {wall}" in texts[0]


def test_the_story_pole_may_be_left_out() -> None:
    """Without it the packet ends with the words and signs."""
    texts = _texts(packet(make_plan(), make_job(), rule_book(), story_pole=False))
    assert texts[-1].startswith("Words and signs")


def test_a_marks_sheet_says_where_plan_and_wall_differ() -> None:
    """The mark on the wall stands beside what to write in its place; a wall that agrees says nothing."""
    made = make_plan()
    run = made.runs[0]
    first = run.marks[0]
    assert first.printed is not None
    marks = (replace(first, struck=first.printed + inch("1/8")), *run.marks[1:])
    differs = replace(made, runs=(replace(run, marks=marks), *made.runs[1:]))
    sheet = marks_sheet(differs, "A", EMPTY)
    was = show(first.printed + inch("1/8"), Units.INCH)
    assert sheet["troubles"][0] == (
        f"Wall A: plan and wall differ by 1/8 from {was} on. "
        f"Strike out and write anew: {was}, now {first.write}."
    )
    assert not any("differ" in line for line in marks_sheet(differs, "B", EMPTY)["troubles"])
