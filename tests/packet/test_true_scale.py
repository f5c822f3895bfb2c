"""What states a true scale is measured on the page: square, rule and every mark of the pole."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from pdfplumber.page import Page
from tests.packet.hand_made import make_job, make_plan
from tests.packet.read_back import frames, pages_of, sheets_of, text_of, uprights

from setline.lengths import TICKS_PER_MM
from setline.packet import packet
from setline.packet.pole_strip import step_ticks
from setline.result import Plan
from setline.rules import rule_book

EXACT = 0.05
"""mm."""


@pytest.fixture(scope="module", params=["letter", "a4"])
def sheets(request: pytest.FixtureRequest) -> Iterator[list[Page]]:
    """Give the sheets of the story poles, on each paper."""
    made = packet(make_plan(), make_job(), rule_book(), paper=request.param)
    poles = {place for place, sheet in enumerate(sheets_of(made)) if ": story pole" in sheet.text[:30]}
    with pages_of(made) as pages:
        yield [page for place, page in enumerate(pages) if place in poles]


def test_every_sheet_has_a_square_of_four_inches(sheets: list[Page]) -> None:
    """The check square measures 101.6 mm each way on every sheet."""
    assert len(sheets) == 5 + 4
    for sheet in sheets:
        squares = [frame for frame in frames(sheet) if abs(frame[2] - frame[3]) < EXACT and frame[2] > 50]
        assert len(squares) == 1
        assert squares[0][2] == pytest.approx(101.6, abs=EXACT)
        assert "This square is 4 in (101.6 mm) each way." in text_of(sheet)


def test_every_sheet_has_a_rule_of_100_mm(sheets: list[Page]) -> None:
    """The ends of the check rule stand 100 mm apart on every sheet."""
    for sheet in sheets:
        ends = sorted(line.x for line in uprights(sheet) if abs(line.bottom - line.top - 6) < EXACT)
        assert len(ends) == 2
        assert ends[1] - ends[0] == pytest.approx(100, abs=EXACT)


def _wall_strips(sheets: list[Page], wall: str) -> list[tuple[Page, float, float, float]]:
    """Return every strip of a wall, in order: its sheet, left edge, top and bottom."""
    strips = []
    for sheet in sheets:
        if text_of(sheet).startswith(f"WALL {wall}:"):
            long = [frame for frame in frames(sheet) if frame[2] > 150 and frame[3] < 40]
            strips += [(sheet, x, y, y + height) for x, y, _, height in sorted(long, key=lambda f: f[1])]
    return strips


@pytest.mark.parametrize("wall", ["A", "B"])
def test_every_mark_stands_where_its_number_says(sheets: list[Page], wall: str) -> None:
    """Laid end to end on the match lines, the strips carry each mark at its printed distance from START."""
    step = step_ticks(make_plan().units) / TICKS_PER_MM
    drawn: dict[str, set[float]] = {"base": set(), "wall": set()}
    for place, (sheet, left, top, bottom) in enumerate(_wall_strips(sheets, wall)):
        for line in uprights(sheet):
            if not line.dashed and abs(line.weight - 0.5) < 0.01 and top - 0.1 <= line.top <= bottom:
                row = "wall" if abs(line.top - top) < 0.1 else "base"
                drawn[row].add(round(place * step + line.x - left, 2))
    for row, found in drawn.items():
        wanted = _printed(make_plan(), wall, row)
        missed = [mark for mark in wanted if not any(abs(at - mark) < EXACT for at in found)]
        stray = [at for at in found if not any(abs(at - mark) < EXACT for mark in wanted)]
        assert (missed, stray) == ([], []), f"{wall} {row}"


def _printed(plan: Plan, wall: str, row: str) -> list[float]:
    """Return where the marks of a row are printed, in mm."""
    return [
        (mark.printed or 0) / TICKS_PER_MM
        for run in plan.runs
        for mark in run.marks
        if run.wall == wall and run.row == row
    ]


def test_strips_meet_on_their_match_lines(sheets: list[Page]) -> None:
    """The right match line of a strip stands one step from the left one, and both carry the same name."""
    step = step_ticks(make_plan().units) / TICKS_PER_MM
    strips = _wall_strips(sheets, "A")
    for sheet, left, top, bottom in strips[:-1]:
        here = [line for line in uprights(sheet) if top - 0.1 <= line.top and line.bottom <= bottom + 0.1]
        dashed = sorted(line.x for line in here if line.dashed)
        assert dashed == pytest.approx([left, left + step], abs=EXACT)
    first, second = (text_of(strip[0].crop(_points(strip))) for strip in strips[:2])
    assert first.endswith("A 7")
    assert second.startswith("A 7")


def _points(strip: tuple[Page, float, float, float]) -> tuple[float, float, float, float]:
    """Return the middle band of a strip as a box in points."""
    sheet, left, top, bottom = strip
    scale = 72 / 25.4
    middle = (top + bottom) / 2
    return (left * scale, (middle - 2.4) * scale, sheet.width, (middle + 2.4) * scale)


def test_no_two_labels_of_a_strip_meet(sheets: list[Page]) -> None:
    """Labels of marks that stand close are set in lanes of their own."""
    for sheet in sheets:
        bold = [word for word in sheet.extract_words(extra_attrs=["fontname"]) if "Bold" in word["fontname"]]
        for place, one in enumerate(bold):
            for other in bold[place + 1 :]:
                apart = (
                    one["x1"] <= other["x0"] + 0.1
                    or other["x1"] <= one["x0"] + 0.1
                    or one["bottom"] <= other["top"] + 2
                    or other["bottom"] <= one["top"] + 2
                )
                assert apart, f"{one['text']} and {other['text']} meet"
