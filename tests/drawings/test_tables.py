from __future__ import annotations

from collections.abc import Callable
from functools import partial

import pytest

from setline.drawings.floor_picture import floor_picture
from setline.drawings.shapes import Drawing, Text
from setline.drawings.shim_map import shim_map
from setline.drawings.story_pole import story_pole
from setline.drawings.wall_elevation import wall_elevation
from setline.lengths import Units, show
from setline.result import Plan
from tests.drawings.drawing_set import drawings_of, example
from tests.drawings.nasty_plans import NASTY, random_plan
from tests.drawings.sample_plans import inch_sample, metric_sample

PLANS: dict[str, Callable[[], Plan]] = {
    "inch": inch_sample,
    "metric": metric_sample,
    "larkspur": partial(example, "larkspur-street"),
    "mill row": partial(example, "mill-row"),
    **NASTY,
    **{f"room {seed}": partial(random_plan, seed) for seed in range(4)},
}


def _printed(value: int | None, plan: Plan) -> str:
    return "?" if value is None else show(value, Units(plan.units))


def _texts(drawing: Drawing) -> list[str]:
    return [shape.text for shape in drawing.shapes if isinstance(shape, Text)]


@pytest.mark.parametrize("name", PLANS)
def test_every_drawing_has_title_description_and_table(name: str) -> None:
    """Title and description are there, and every row of the table is as long as its header."""
    for drawing in drawings_of(PLANS[name]()):
        assert drawing.title
        assert drawing.description
        assert drawing.table.header
        assert all(len(row) == len(drawing.table.header) for row in drawing.table.rows)
        assert drawing.scale.words


@pytest.mark.parametrize("name", PLANS)
def test_the_marks_table_is_the_plans(name: str) -> None:
    """A wall's table holds every mark of its runs as the plan prints it, with what to write."""
    plan = PLANS[name]()
    for wall in plan.walls:
        rows = wall_elevation(plan, wall.name).table.rows
        expected = [
            (run.name, mark.name, _printed(mark.printed, plan), mark.write)
            for run in plan.runs
            if run.wall == wall.name
            for mark in run.marks
        ]
        assert [(row[0], row[1], row[2], row[4]) for row in rows] == expected


@pytest.mark.parametrize("name", PLANS)
def test_the_shim_table_is_the_plans(name: str) -> None:
    """A shim map's table holds every bearing point of its wall as the plan prints it."""
    plan = PLANS[name]()
    for wall in plan.walls:
        rows = shim_map(plan, wall.name).table.rows
        expected = [
            (str(shim.box), shim.corner, _printed(shim.printed, plan))
            for shim in plan.shims
            if shim.wall == wall.name
        ]
        assert [(row[0], row[1], row[3]) for row in rows] == expected


@pytest.mark.parametrize("name", PLANS)
def test_the_floor_table_is_the_plans(name: str) -> None:
    """The floor's table holds every reading as it was typed, and every limit's owner."""
    plan = PLANS[name]()
    rows = floor_picture(plan).table.rows
    readings = [(row[1], row[2]) for row in rows if row[0].startswith("reading")]
    assert readings == [(spot.address, spot.typed) for spot in plan.floor.spots]
    owners = [row[1] for row in rows if row[0] == "limit"]
    assert owners == [limit.owner for limit in plan.level_line.band.limits]


@pytest.mark.parametrize("name", PLANS)
def test_the_poles_table_is_the_runs(name: str) -> None:
    """A pole's table holds every mark of its run."""
    plan = PLANS[name]()
    for run in plan.runs:
        rows = story_pole(plan, run.name).table.rows
        assert [(row[0], row[1]) for row in rows] == [
            (mark.name, _printed(mark.printed, plan)) for mark in run.marks
        ]


@pytest.mark.parametrize("name", PLANS)
def test_every_running_number_of_the_table_is_on_the_picture(name: str) -> None:
    """Each mark's number is printed on its elevation, as often as the plan has it."""
    plan = PLANS[name]()
    for wall in plan.walls:
        texts = _texts(wall_elevation(plan, wall.name))
        for run in plan.runs:
            if run.wall == wall.name:
                for mark in run.marks:
                    assert _printed(mark.printed, plan) in texts


@pytest.mark.parametrize("name", PLANS)
def test_every_shim_is_on_the_picture(name: str) -> None:
    """Each thickness of a solved run is printed on its map, as often as the plan has it."""
    plan = PLANS[name]()
    for wall in plan.walls:
        texts = _texts(shim_map(plan, wall.name))
        numbers = [_printed(shim.printed, plan) for shim in plan.shims if shim.wall == wall.name]
        printed = [text.removeprefix("L ") for text in texts]  # a ledger's number stands behind an L
        for number in set(numbers):
            assert printed.count(number) >= numbers.count(number)


@pytest.mark.parametrize("name", PLANS)
def test_every_item_is_numbered_on_the_picture(name: str) -> None:
    """Each item's number stands on the elevation of its wall, alone or with its width."""
    plan = PLANS[name]()
    for wall in plan.walls:
        words = " ".join(_texts(wall_elevation(plan, wall.name))).replace(":", " ").replace(",", " ")
        for run in plan.runs:
            if run.wall == wall.name:
                for item in run.items:
                    letter = {"filler": "F", "panel": "P"}.get(item.kind.value, "")
                    assert f"{letter}{item.number}" in words.split()


def test_the_description_says_where_each_thing_ends() -> None:
    """A wall's description names its things left to right with the number each ends at."""
    says = wall_elevation(metric_sample(), "A").description
    assert "box 2 Auszug to 638, box 3 Spüle to 1438, opening 4 dishwasher to 2043" in says
    assert says.endswith("All fit.")
    short = wall_elevation(inch_sample(), "B").description
    assert short.endswith("B base cannot be set as it stands.")
