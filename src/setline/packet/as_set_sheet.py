"""The blank as-set sheet: every value asked for once the boxes stand, to pencil in and type later."""

from __future__ import annotations

from typing import TypedDict

from setline.lengths import Units
from setline.result import ItemKind, ItemPlace, Plan, RunPlan
from setline.told import number
from setline.wording import say

__all__ = ["AsSetRow", "AsSetRun", "AsSetSheet", "as_set_sheet"]


class AsSetRow(TypedDict):
    """One item with its planned edges."""

    number: str
    what: str
    left: str
    right: str


class AsSetRun(TypedDict):
    """One run, left to right."""

    name: str
    rows: list[AsSetRow]


class AsSetSheet(TypedDict):
    """Data of the as-set sheet."""

    kind: str
    key: str
    landscape: bool
    beside: str
    runs: list[AsSetRun]


def as_set_sheet(plan: Plan) -> AsSetSheet:
    """Return the data of the as-set sheet: what stands in every run, its edges as the marks print them."""
    units = Units(plan.units)
    return AsSetSheet(
        kind="as_set",
        key="as-set",
        landscape=True,
        beside="",
        runs=[AsSetRun(name=_name(run), rows=_rows(run, units)) for run in plan.runs],
    )


def _name(run: RunPlan) -> str:
    return run.name if run.solved else say("packet-as-set-unsolved", name=run.name)


def _rows(run: RunPlan, units: Units) -> list[AsSetRow]:
    """Return a row for each thing that is set or left open; a filler is cut to what is then there."""
    rows = []
    for place, item in enumerate(run.items):
        if item.kind == ItemKind.EXISTING:
            continue
        left, right = (number(mark.printed, units) for mark in run.marks[place : place + 2])
        rows.append(AsSetRow(number=str(item.number), what=_what(item), left=left, right=right))
    return rows


def _what(item: ItemPlace) -> str:
    return item.name or item.kind.value
