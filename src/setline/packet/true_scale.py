"""The story pole at true size: strips to cut out, lay end to end on their match lines and fix to a stick.

Facing the wall, x runs from START along a strip. Marks of the wall row hang from its upper edge, marks of the
base row stand on its lower edge, and a plain rule runs between them. A strip carries one step of the
pole and a little more, so that two strips overlap: the dashed line at the left of one is laid on the dashed
line with the same letter on the one before. Each sheet has a square and a rule of known size to prove it by.
"""

from __future__ import annotations

from typing import TypedDict

from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Units, show
from setline.packet.printed import walls_with_runs
from setline.result import Mark, Plan, RunPlan
from setline.wording import say

__all__ = ["CHECK_RULE_MM", "CHECK_SQUARE_MM", "Piece", "PolePage", "pole_pages"]

CHECK_RULE_MM = 100.0
CHECK_SQUARE_MM = 101.6
"""4 in."""

_HEIGHT = 32.0
_OVERLAP = 8.0
_PIECES_A_SHEET = 4
_RULE_BAND = 2.6
_LANE = 4.4
_LANES = 3
_LETTER_WIDTH = 2.2
"""A generous width of a bold 11 pt character, in mm: labels are told apart by it."""


class MatchLine(TypedDict):
    """Where two strips meet."""

    x: float
    text_x: float
    letter: str


class PoleMark(TypedDict):
    """A mark on a strip, with the box of its label."""

    x: float
    upper: bool
    length: float
    write: str
    text_x: float
    text_y: float
    text_width: float
    text_right: bool


class RuleTick(TypedDict):
    """A line of the rule between the rows, with its number."""

    x: float
    number: str


class Piece(TypedDict):
    """One strip, in mm from its upper left corner."""

    width: float
    height: float
    matches: list[MatchLine]
    marks: list[PoleMark]
    ticks: list[RuleTick]


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


def step_ticks(units: Units) -> int:
    """Return how much of the pole one strip carries: 7 in, or 175 mm; both papers hold it."""
    return 7 * TICKS_PER_INCH if units == Units.INCH else 175 * TICKS_PER_MM


def _wall_pages(wall: str, runs: list[RunPlan], units: Units) -> list[PolePage]:
    """Return the sheets of one wall."""
    marks = [(run, mark) for run in runs for mark in run.marks if mark.printed is not None]
    if not marks:
        return []
    step = step_ticks(units)
    count = max(mark.printed or 0 for _, mark in marks) // step + 1
    sheets = range(0, count, _PIECES_A_SHEET)
    return [
        _page(wall, marks, range(first, min(first + _PIECES_A_SHEET, count)), count, units)
        for first in sheets
    ]


def _page(wall: str, marks: list[tuple[RunPlan, Mark]], places: range, count: int, units: Units) -> PolePage:
    """Return one sheet: strips number ``places`` of ``count``."""
    step = step_ticks(units)
    least, most = places.start * step, places.stop * step
    here = [(run, mark) for run, mark in marks if least <= (mark.printed or 0) < most]
    return PolePage(
        kind="pole",
        key=f"pole-{wall}-{places.start}",
        landscape=False,
        title=say("packet-pole-title", wall=wall),
        beside=say("packet-pole-part", least=show(least, units), most=show(most, units)),
        pieces=[_piece(place, count, marks, units) for place in places],
        check=Check(square=CHECK_SQUARE_MM, rule=CHECK_RULE_MM),
        list_title=say("packet-pole-list"),
        marks=[ListedMark(write=mark.write, name=mark.name) for _, mark in here],
    )


def _piece(place: int, count: int, marks: list[tuple[RunPlan, Mark]], units: Units) -> Piece:
    """Return one strip."""
    start = place * step_ticks(units)
    length = step_ticks(units) / TICKS_PER_MM
    width = length + _OVERLAP
    matches = [MatchLine(x=0.0, text_x=0.6, letter=_letter(place - 1) if place else say("packet-pole-start"))]
    if place + 1 < count:
        matches.append(MatchLine(x=length, text_x=length + 0.6, letter=_letter(place)))
    drawn: list[PoleMark] = []
    for upper in (True, False):
        row = [
            ((mark.printed or 0) / TICKS_PER_MM - start / TICKS_PER_MM, mark.write)
            for run, mark in marks
            if (run.row == "wall") == upper
        ]
        drawn.extend(_lay_labels(sorted(spot for spot in row if 0 <= spot[0] <= width), width, upper=upper))
    return Piece(width=width, height=_HEIGHT, matches=matches, marks=drawn, ticks=_ticks(start, width, units))


def _letter(place: int) -> str:
    """Return the match letter after strip ``place``: A to Z, then AA, AB and on."""
    first, last = divmod(place, 26)
    return (chr(ord("A") + first - 1) if first else "") + chr(ord("A") + last)


def _lay_labels(spots: list[tuple[float, str]], width: float, *, upper: bool) -> list[PoleMark]:
    """Give every label of one row a lane of its own: right of its mark, or left of it near the end."""
    taken: list[list[tuple[float, float]]] = [[] for _ in range(_LANES)]
    drawn = []
    for x, write in spots:
        long = _LETTER_WIDTH * len(write)
        right_fits = x + 0.8 + long <= width
        left = x + 0.8 if right_fits else x - 0.8 - long
        lane = next(
            (
                at
                for at, spans in enumerate(taken)
                if all(left > end or left + long < begin for begin, end in spans)
            ),
            _LANES - 1,
        )
        taken[lane].append((left - 0.4, left + long + 0.4))
        y = 0.4 + lane * _LANE if upper else _HEIGHT - 0.4 - (lane + 1) * _LANE
        drawn.append(
            PoleMark(
                x=x,
                upper=upper,
                length=_HEIGHT / 2 - _RULE_BAND,
                write=write,
                text_x=left,
                text_y=y,
                text_width=long,
                text_right=not right_fits,
            )
        )
    return drawn


def _ticks(start: int, width: float, units: Units) -> list[RuleTick]:
    """Return the rule between the rows: every inch or 25 mm, numbered from START but at match lines."""
    pitch = TICKS_PER_INCH if units == Units.INCH else 25 * TICKS_PER_MM
    end = start + round(width * TICKS_PER_MM)
    first = -(-start // pitch) * pitch
    return [
        RuleTick(
            x=(at - start) / TICKS_PER_MM,
            number="" if (at - start) % step_ticks(units) == 0 else show(at, units),
        )
        for at in range(first, end + 1, pitch)
    ]
