"""The story pole at true size: strips to cut out, lay end to end on their match lines and fix to a stick.

Facing the wall, x runs from START along a strip. Marks of the wall row hang from its upper edge, marks of the
base row stand on its lower edge. A strip carries one step of the pole and a little more, so that two overlap:
the dashed line at the left of one is laid on the dashed line of the same name on the one before. Each
sheet has a square and a rule of known size to prove the print by.
"""

from __future__ import annotations

from typing import TypedDict

from setline.lengths import Units, show
from setline.packet.pole_strip import Piece, pole_piece, step_ticks
from setline.result import Plan, RunPlan
from setline.told import walls_with_runs
from setline.wording import say

__all__ = ["CHECK_RULE_MM", "CHECK_SQUARE_MM", "PolePage", "pole_pages"]

CHECK_RULE_MM = 100.0
CHECK_SQUARE_MM = 101.6
"""4 in."""

_PIECES_A_SHEET = 4


class ListedMark(TypedDict):
    """A mark in the list beside the square."""

    write: str
    name: str


class Check(TypedDict):
    """Size of what proves the print, in mm."""

    square: float
    rule: float


class PolePage(TypedDict):
    """Data of one sheet of strips."""

    kind: str
    key: str
    landscape: bool
    title: str
    beside: str
    pieces: list[Piece]
    check: Check
    list_title: str
    marks: list[ListedMark]


def pole_pages(plan: Plan) -> list[PolePage]:
    """Return the sheets of every wall's story pole; a run that cannot be solved has no marks on it."""
    pages: list[PolePage] = []
    for wall, runs in walls_with_runs(plan).items():
        pages.extend(_wall_pages(wall, [run for run in runs if run.solved], Units(plan.units)))
    return pages


def _wall_pages(wall: str, runs: list[RunPlan], units: Units) -> list[PolePage]:
    """Return the sheets of one wall."""
    places = [mark.printed for run in runs for mark in run.marks if mark.printed is not None]
    if not places:
        return []
    count = max(places) // step_ticks(units) + 1
    starts = range(0, count, _PIECES_A_SHEET)
    return [
        _page(wall, runs, range(first, min(first + _PIECES_A_SHEET, count)), count, units) for first in starts
    ]


def _page(wall: str, runs: list[RunPlan], places: range, count: int, units: Units) -> PolePage:
    """Return one sheet: strips number ``places`` of ``count``."""
    step = step_ticks(units)
    least, most = places.start * step, places.stop * step
    marks = [
        mark
        for run in runs
        for mark in run.marks
        if mark.printed is not None and least <= mark.printed < most
    ]
    return PolePage(
        kind="pole",
        key=f"pole-{wall}-{places.start}",
        landscape=False,
        title=say("packet-pole-title", wall=wall),
        beside=say("packet-pole-part", least=show(least, units), most=show(most, units)),
        pieces=[pole_piece(place, count, runs, units) for place in places],
        check=Check(square=CHECK_SQUARE_MM, rule=CHECK_RULE_MM),
        list_title=say("packet-pole-list" if marks else "packet-pole-none"),
        marks=[ListedMark(write=mark.write, name=mark.name) for mark in marks],
    )
