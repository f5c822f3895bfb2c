"""The PDF read back: paper, foot, ink, fonts, and every number that a sheet must carry."""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.packet.hand_made import make_job, make_plan
from tests.packet.read_back import PT_PER_MM, pages_of, text_of

from setline.packet import packet
from setline.rules import rule_book

PAPERS = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
LONG = "Whole kitchen of the corner house, flat over the shop, for the owner and tenant"


@pytest.fixture(scope="module")
def made() -> dict[str, bytes]:
    """Return the packet of the hand-made plan on both papers."""
    return {paper: packet(make_plan(), make_job(), rule_book(), paper=paper) for paper in PAPERS}


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_has_the_size_of_its_paper(made: dict[str, bytes], paper: str) -> None:
    """A page is the paper that was asked for, upright or turned."""
    with pages_of(made[paper]) as pages:
        sizes = {(round(page.width / PT_PER_MM, 1), round(page.height / PT_PER_MM, 1)) for page in pages}
    assert sizes == {PAPERS[paper], PAPERS[paper][::-1]}


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_has_its_foot(made: dict[str, bytes], paper: str) -> None:
    """Job, page n of m, revision, date, check code and the word plan stand at the foot of each page."""
    with pages_of(made[paper]) as pages:
        for place, page in enumerate(pages, start=1):
            foot = page.crop((0, page.height - 17 * PT_PER_MM, page.width, page.height)).extract_text()
            for part in ("Cedar Lane 4", f"page {place} of {len(pages)}", "rev B", "4 May", "7f3a9c", "plan"):
                assert part in foot, f"page {place} has no {part!r} at its foot"


@pytest.mark.parametrize("paper", PAPERS)
def test_only_black_is_printed(made: dict[str, bytes], paper: str) -> None:
    """Text and lines are black, or white on black and around a number; no grey, no colour."""
    with pages_of(made[paper]) as pages:
        ink = {char["non_stroking_color"] for page in pages for char in page.chars}
        lines = {line["stroking_color"] for page in pages for line in page.lines}
    black_and_white = {(0.0,), (1.0,), 0.0, 1.0}
    assert ink <= black_and_white
    assert lines <= black_and_white


def test_all_fonts_are_embedded(made: dict[str, bytes]) -> None:
    """Every font is the shipped one and travels in the file."""
    with pages_of(made["letter"]) as pages:
        for page in pages:
            for font in page.page_obj.resources["Font"].values():
                descendant = font.resolve()["DescendantFonts"][0].resolve()
                descriptor = descendant["FontDescriptor"].resolve()
                assert "SourceSansPro" in str(descriptor["FontName"])
                assert {"FontFile2", "FontFile3"} & set(descriptor)


@pytest.mark.parametrize("paper", PAPERS)
def test_no_text_is_under_nine_points(made: dict[str, bytes], paper: str) -> None:
    """Nothing on paper is set smaller than 9 pt."""
    with pages_of(made[paper]) as pages:
        sizes = [
            char["width" if abs(char["matrix"][1]) > 0.1 else "height"]
            for page in pages
            for char in page.chars
        ]
    assert min(sizes) >= 8.99


@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_runs_off_the_page(made: dict[str, bytes], paper: str) -> None:
    """Every letter stands between the side margins."""
    with pages_of(made[paper]) as pages:
        for place, page in enumerate(pages, start=1):
            right = page.width - 12 * PT_PER_MM
            inked = [char for char in page.chars if char["text"].strip()]
            outside = [char["text"] for char in inked if char["x1"] > right + 0.5 or char["x0"] < 33]
            assert not outside, f"page {place}: {''.join(outside)} stands in the margin"


@pytest.mark.parametrize("paper", PAPERS)
def test_the_struck_line_is_the_largest_thing_on_the_cover(made: dict[str, bytes], paper: str) -> None:
    """13 3/8 DOWN is set in 60 pt, and the tops stand under it."""
    with pages_of(made[paper]) as pages:
        large = "".join(char["text"] for char in pages[0].chars if char["size"] >= 60)
        text = text_of(pages[0])
    assert large == "13 3/8 DOWN"
    assert "from the laser line of set-up S1" in text
    assert "Box tops are 1/8 below it (13 1/2 down). Within 1/16." in text
    assert "~12 1/32 DOWN" in text
    assert "local code" in text
    assert "licensed trades" in text


@pytest.mark.parametrize("paper", PAPERS)
def test_every_mark_is_on_its_walls_sheet(made: dict[str, bytes], paper: str) -> None:
    """Each mark stands word for word on the marks sheet of its wall."""
    with pages_of(made[paper]) as pages:
        for wall in ("A", "B"):
            text = " ".join(text_of(page) for page in pages if f"WALL {wall}, seen" in page.extract_text())
            for run in make_plan().runs:
                for mark in run.marks if run.wall == wall else ():
                    assert mark.write in text, f"{mark.name} is not on the sheet of wall {wall}"


def test_every_shim_is_on_its_walls_map(made: dict[str, bytes]) -> None:
    """Each bearing point stands on the shim page of its wall, the one not read as ?."""
    with pages_of(made["letter"]) as pages:
        text = " ".join(text_of(page) for page in pages if "WALL A: what goes under" in page.extract_text())
    assert text.count("back-left") == 4
    assert "front-right ? not read" in text
    assert "0 HIGH SPOT: sits on the floor" in text


def test_a_run_that_cannot_be_solved_says_do_not_set() -> None:
    """Its sheet is headed DO NOT SET and its marks are ?; the other wall keeps its marks."""
    plan = make_plan(unsolved=("B base",))
    with pages_of(packet(plan, make_job(), rule_book(), paper="letter")) as pages:
        cover = text_of(pages[0])
        short = " ".join(text_of(page) for page in pages if "WALL B, seen" in page.extract_text())
        fits = " ".join(text_of(page) for page in pages if "WALL A, seen" in page.extract_text())
        poles = [text_of(page) for page in pages if "story pole" in text_of(page)[:24]]
    assert "DO NOT SET B base yet: see STOP below." in cover
    assert "DO NOT SET: the pieces overrun the room they have by 1/2" in short
    assert "? |24>" in short
    assert "75 1/4" not in short
    assert "DO NOT SET" not in fits
    assert all(text.startswith("WALL A") for text in poles)


def test_long_names_are_printed_whole() -> None:
    """A long job name, long item names and a long note are broken over lines, not cut."""
    plan = make_plan(LONG)
    long_what = "pull-out pantry with the wide drawers for pots that the client asked for twice"
    runs = tuple(
        replace(run, items=tuple(replace(item, name=long_what) for item in run.items)) for run in plan.runs
    )
    with pages_of(packet(replace(plan, runs=runs), make_job(LONG), rule_book(), paper="a4")) as pages:
        text = " ".join(text_of(page) for page in pages)
        for page in pages:
            edge = page.width - 12 * PT_PER_MM
            assert max(char["x1"] for char in page.chars if char["text"].strip()) <= edge + 0.5
    assert LONG in text
    assert text.count("twice") >= sum(len(run.items) for run in runs)


def test_the_head_of_a_long_table_comes_again() -> None:
    """Where the shims of a wall fill more than a page, each page has the head of the table."""
    plan = make_plan()
    many = tuple(
        replace(shim, name=f"{shim.box + 50 * turn} {shim.corner}", box=shim.box + 50 * turn)
        for turn in range(6)
        for shim in plan.shims
        if shim.wall == "A"
    )
    with pages_of(packet(replace(plan, shims=many), make_job(), rule_book())) as pages:
        heads = [page for page in pages if "Box Point Under it Made of" in text_of(page)]
    assert len(heads) >= 3


def test_the_same_plan_gives_the_same_bytes(made: dict[str, bytes]) -> None:
    """A packet made again is the same file, and is small enough to send."""
    assert packet(make_plan(), make_job(), rule_book(), paper="letter") == made["letter"]
    assert len(made["letter"]) < 1_500_000


def test_paper_follows_the_job_and_then_the_tape() -> None:
    """Without a paper named, the job's stands; without that, letter for an inch tape."""
    with pages_of(packet(make_plan(), make_job(paper="a4"), rule_book())) as pages:
        assert round(pages[0].width / PT_PER_MM) == 210
    with pages_of(packet(make_plan(), make_job(), rule_book())) as pages:
        assert round(pages[0].width / PT_PER_MM) == 216


def test_the_contents_name_the_page_they_lead_to(made: dict[str, bytes]) -> None:
    """The page number beside a title on the cover is the page with that title."""
    with pages_of(made["letter"]) as pages:
        cover = text_of(pages[0])
        found = next(place for place, page in enumerate(pages, start=1) if text_of(page).startswith("As set"))
    assert f"As set, blank {found}" in cover


def test_the_story_pole_may_be_left_out() -> None:
    """Without it the packet ends with the words and signs."""
    with pages_of(packet(make_plan(), make_job(), rule_book(), story_pole=False)) as pages:
        assert text_of(pages[-1]).startswith("Words and signs")
