"""The plan as plain data: nothing lost, lengths as text and ticks, every field written down."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from pathlib import Path
from typing import Any

import pytest
from tests.packet.hand_made import make_plan

import setline.result as result
from setline.lengths import TICKS_PER_INCH
from setline.result import Change, FallOption, Plan, Remedy, SurfaceGrid
from setline.result.as_json import COUNTS, plan_as_dict

PAGE = (Path(__file__).parents[2] / "docs" / "plan.md").read_text(encoding="utf-8")
CLASSES = [thing for name in result.__all__ if is_dataclass(thing := getattr(result, name))]


def _lengths(value: Any) -> Iterator[dict[str, Any]]:
    """Yield every length anywhere in the data."""
    if isinstance(value, dict):
        if set(value) == {"text", "ticks"}:
            yield value
        for part in value.values():
            yield from _lengths(part)
    elif isinstance(value, list):
        for part in value:
            yield from _lengths(part)


def test_it_is_json() -> None:
    """The data goes to JSON and comes back the same."""
    data = plan_as_dict(make_plan())
    assert json.loads(json.dumps(data)) == data
    assert data["format"] == 1


def test_a_length_is_its_printed_text_and_its_ticks() -> None:
    """The struck line is 13 3/8 in words and in ticks."""
    data = plan_as_dict(make_plan())
    strike = data["level_line"]["set_ups"][0]["printed_strike"]
    assert strike == {"text": "13 3/8", "ticks": 13 * TICKS_PER_INCH + 3 * TICKS_PER_INCH // 8}
    assert len(list(_lengths(data))) > 300


def test_what_is_not_known_is_null() -> None:
    """A point with no reading near has no thickness, and a run that cannot be solved has no marks."""
    data = plan_as_dict(make_plan(unsolved=("B base",)))
    unread = next(shim for shim in data["shims"] if shim["name"] == "4 front-right")
    assert unread["printed"] is None
    assert unread["thickness"]["value"] is None
    short = next(run for run in data["runs"] if run["name"] == "B base")
    assert {mark["printed"] for mark in short["marks"]} == {None}
    assert short["overrun"]["text"] == "1/2"


def test_numbers_of_items_stay_numbers() -> None:
    """An item's number and a mark's box are names and not lengths."""
    run = plan_as_dict(make_plan())["runs"][0]
    assert [item["number"] for item in run["items"]] == [1, 2, 3, 4, 5, 6, 7]
    assert run["marks"][1]["of_item"] == 2


def test_a_trim_names_its_box() -> None:
    """A row of the trade-off table says which box is trimmed by how much."""
    trims = plan_as_dict(make_plan())["level_line"]["options"][0]["trims"]
    assert [(trim["box"], trim["trim"]["text"]) for trim in trims] == [(2, "1/4"), (24, "1/8")]


def test_what_a_remedy_changes_stays_a_piece_of_a_job() -> None:
    """Numbers in a change are those of the job's document and never ticks."""
    pins = [{"item": 3, "edge": "centre", "middle": True}]
    change = Change(place=("runs", "A base", "pins"), value=pins)
    remedy = Remedy(kind="move-pin", text="let it sit", change=(change,))
    plan = make_plan()
    finding = replace(plan.findings[0], remedies=(remedy,))
    data = plan_as_dict(replace(plan, findings=(finding,)))
    written = data["findings"][0]["remedies"][0]["change"]
    assert written == [{"place": ["runs", "A base", "pins"], "value": pins}]


def test_the_grid_is_bare_ticks() -> None:
    """The floor picture's grid is left as whole ticks, with null where it is not known."""
    plan = make_plan()
    grid = SurfaceGrid(xs=(0, 5), ys=(0,), heights=((-3, None),), within=((1, None),))
    data = plan_as_dict(replace(plan, floor=replace(plan.floor, grid=grid)))
    assert data["floor"]["grid"] == {
        "xs": [0, 5],
        "ys": [0],
        "heights": [[-3, None]],
        "within": [[1, None]],
    }


@pytest.mark.parametrize("thing", CLASSES, ids=lambda thing: thing.__name__)
def test_every_field_is_written_down(thing: type) -> None:
    """docs/plan.md has a table with exactly the fields of each class of the result."""
    tables = re.findall(r"\| field \| what it is \|\n\|---\|---\|\n((?:\|.*\n)+)", PAGE)
    told = [re.findall(r"^\| `(\w+)` \|", table, flags=re.MULTILINE) for table in tables]
    assert [field.name for field in fields(thing)] in told


def test_whole_numbers_that_are_no_lengths_are_known() -> None:
    """A whole number is a length unless its field is one of the few that name a thing."""
    whole = {field.name for thing in CLASSES for field in fields(thing) if "int" in str(field.type).split()}
    assert whole >= COUNTS
    assert {"number", "box", "of_item", "beside", "wish_rank"} == COUNTS
    assert {field.name for field in fields(FallOption)} >= {"trims"}
    assert {field.name for field in fields(Plan)} >= {"named"}
