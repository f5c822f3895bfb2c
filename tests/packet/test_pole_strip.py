"""Strips of the story pole: labels apart in any run, and every mark on one strip or two."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.packet.hand_made import make_plan

from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Units, show
from setline.packet.pole_strip import HEIGHT, Piece, pole_piece, step_ticks
from setline.result import Mark, RunPlan

RUN = make_plan().runs[0]


def _run_with(places: list[int], row: str) -> RunPlan:
    """Return a run whose marks stand at these sixteenths."""
    marks: list[Mark] = [
        replace(RUN.marks[0], printed=at, write=f"{show(at, Units.INCH)} |{number}>")
        for number, at in enumerate((place * TICKS_PER_INCH // 16 for place in places), start=1)
    ]
    return replace(RUN, row=row, marks=tuple(marks))


def _apart(piece: Piece) -> bool:
    """Return whether no two labels of a strip meet."""
    boxes = [(label["x"], label["x"] + label["width"], label["y"]) for label in piece["labels"]]
    return all(
        one[1] <= other[0] or other[1] <= one[0] or abs(one[2] - other[2]) > 4
        for place, one in enumerate(boxes)
        for other in boxes[place + 1 :]
    )


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(12, 600), min_size=1, max_size=5), st.sampled_from(["base", "wall"]))
def test_labels_stay_apart_and_on_the_strip(gaps: list[int], row: str) -> None:
    """Marks an inch or more apart, in any order of gaps, have labels that do not meet or leave the strip."""
    places = [sum(gaps[: end + 1]) for end in range(len(gaps))]
    run = _run_with(places, row)
    count = places[-1] * TICKS_PER_INCH // 16 // step_ticks(Units.INCH) + 1
    for place in range(count):
        piece = pole_piece(place, count, [run], Units.INCH)
        for label in piece["labels"]:
            assert 0 <= label["x"] <= piece["width"] - label["width"] + 0.01
            assert 0 <= label["y"] <= HEIGHT - 4
        if min(gaps) >= 16:
            assert _apart(piece)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(0, 3000), min_size=1, max_size=8, unique=True))
def test_every_mark_falls_on_its_strip(places: list[int]) -> None:
    """A mark stands on the strip of its step, at its distance from that strip's start, exactly."""
    run = _run_with(sorted(places), "base")
    step = step_ticks(Units.INCH)
    for mark in run.marks:
        assert mark.printed is not None
        place = mark.printed // step
        piece = pole_piece(place, place + 1, [run], Units.INCH)
        wanted = (mark.printed - place * step) / TICKS_PER_MM
        assert any(drawn["x"] == pytest.approx(wanted) for drawn in piece["marks"])


def test_a_strip_is_named_after_its_wall_and_where_it_starts() -> None:
    """Strips of two walls that were cut apart are told from each other; the first says START."""
    first = pole_piece(0, 3, [RUN], Units.INCH)
    second = pole_piece(1, 3, [RUN], Units.INCH)
    last = pole_piece(2, 3, [RUN], Units.INCH)
    assert [match["name"] for match in first["matches"]] == ["A START", "A 7"]
    assert [match["name"] for match in second["matches"]] == ["A 7", "A 14"]
    assert [match["name"] for match in last["matches"]] == ["A 14"]


def test_the_rule_between_the_rows_counts_from_start() -> None:
    """Every inch, or every 25 mm, has its number, but where a match line stands."""
    inches = pole_piece(1, 3, [RUN], Units.INCH)["ticks"]
    assert [tick["number"] for tick in inches] == ["", "8", "9", "10", "11", "12", "13", ""]
    metric = pole_piece(1, 3, [RUN], Units.METRIC)["ticks"]
    assert [tick["number"] for tick in metric][1:3] == ["200", "225"]
    assert metric[1]["x"] == pytest.approx(25)
