"""The floor as found and the level line: one number, what binds it, and what would help."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from urllib.parse import quote

from fastapi import APIRouter, Request
from fastapi.responses import Response

from setline.drawings.band_column import limit_words
from setline.drawings.floor_picture import floor_picture
from setline.drawings.shapes import Frame
from setline.lengths import Units, show
from setline.packet.floor_page import FlatnessRow, floor_page
from setline.packet.picture import Picture as PaperPicture
from setline.result import BandLimit, Doubts, FallOption, Finding, NextReading, Plan, Rank
from setline.told import cost_words, risk_lines
from setline.web.menu import Group
from setline.web.planning import Standing
from setline.web.render import Frame as PageFrame
from setline.web.render import render
from setline.web.site import JobPage, Visitor
from setline.web.strike_told import StrikeTold, strike_told
from setline.web.strips import Picture, picture
from setline.web.ways import Told, Way, told
from setline.wording import say

__all__ = ["FLOOR_CODES", "router"]

router = APIRouter()

FLOOR_CODES = frozenset(
    {
        "no-floor-reading",
        "no-bearing-read",
        "no-line-fits",
        "line-too-low",
        "line-too-high",
        "line-not-tied",
        "line-above-high-spot",
        "floor-falls-too-far",
        "high-spot-unread",
        "not-read",
        "few-readings",
        "no-reading-across",
        "readings-disagree",
        "covering-not-known",
        "top-thickness-not-known",
        "ceiling-not-read",
        "floor-slope",
        "line-may-move",
        "laser-not-proved",
        "laser-out-of-rating",
        "closing-shot-off",
        "set-up-not-tied",
        "marks-disagree",
        "box-below-floor",
        "leg-out-of-range",
    }
)
"""Findings that are told beside the line: all of the floor, the laser and the feet of boxes."""
_FALLS = "floor-falls-too-far"
_PAPER = Frame(200.0, 260.0)
"""What a laptop shows without scrolling sideways. [mm]"""
_NO_PICTURE = PaperPicture(file="", width=0.0, height=0.0, alt="")


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitRow:
    """A limit on the height of the tops.

    Attributes:
        owner: What sets it.
        asks: What it asks, such as ``13 1/16 down or higher``.
        name: Its name in the plan.
        binds: Whether it is the one that binds at its end.
        relax: The cheapest way to relax it, with its cost, or nothing.
    """

    owner: str
    asks: str
    name: str
    binds: bool
    relax: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FallRow:
    """A way to live with a floor that falls too far, and the way that it is taken by, if it can be."""

    option: FallOption
    cost: str
    way: Way | None


@dataclass(frozen=True, slots=True, kw_only=True)
class NextRow:
    """A reading worth taking: where, what it would settle, and where it is taken."""

    spot: str
    settles: str
    address: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorPage:
    """The floor and the line.

    Attributes:
        strike: The line to strike, or None while nothing supports one.
        low: The limit that binds the tops from below, if any.
        high: The limit that binds them from above, if any.
        room: What lies between the two, as a sentence.
        limits: Every limit, the most binding first on each side.
        loud: What stops or asks, of the floor; a fall too far where no table tells of it.
        quiet: What is to know of it.
        falls: Ways to live with a floor that falls too far.
        lines: The floor's fall in sentences.
        next: Readings that would help most.
        risk: How likely a higher spot is, in sentences.
        picture: The floor from above, or None without readings.
        flatness: How flat each line of readings is.
        heads: What the columns of that table are called.
    """

    strike: StrikeTold | None = None
    low: LimitRow | None = None
    high: LimitRow | None = None
    room: str = ""
    limits: tuple[LimitRow, ...] = ()
    loud: tuple[Told, ...] = ()
    quiet: tuple[Told, ...] = ()
    falls: tuple[FallRow, ...] = ()
    lines: tuple[str, ...] = ()
    next: tuple[NextRow, ...] = ()
    risk: tuple[str, ...] = ()
    picture: Picture | None = None
    flatness: list[FlatnessRow] = field(default_factory=list)
    heads: tuple[str, str] = ("", "")


@router.get("/j/{j}/floor")
def floor(request: Request, standing: JobPage, device: Visitor) -> Response:
    """Show the floor, the line and what limits it."""
    plan = standing.plan
    frame = PageFrame(
        title=say("page-floor"), device=device, standing=standing, group=Group.PLAN, styles=("plan.css",)
    )
    page = FloorPage() if plan is None else _page(standing, plan)
    return render(request, "floor.html", frame, page)


def _page(standing: Standing, plan: Plan) -> FloorPage:
    """Return what the page shows of a plan."""
    assert standing.book is not None, "a planned job has its rules"
    band = plan.level_line.band
    limits = tuple(_limit(plan, limit) for limit in band.limits)
    paper = floor_page(plan, standing.book, _NO_PICTURE)
    findings = [each for each in plan.findings if each.code in FLOOR_CODES]
    told_here = tuple(told(standing, each) for each in findings)
    doubts = standing.doubts if plan.floor.spots else None
    return FloorPage(
        strike=strike_told(standing),
        low=next((each for each in limits if each.binds and each.owner == band.binds_low), None),
        high=next((each for each in limits if each.binds and each.owner == band.binds_high), None),
        room=_room(plan),
        limits=limits,
        loud=tuple(
            each for each in told_here if _is_loud(each.finding) and not _in_table(plan, each.finding)
        ),
        quiet=tuple(each for each in told_here if not _is_loud(each.finding)),
        falls=tuple(_falls(plan, told_here)),
        lines=tuple(paper["lines"]),
        next=tuple(_next(standing, doubts)),
        risk=() if doubts is None else tuple(risk_lines(doubts, Units(plan.units))),
        picture=standing.remembered("floor picture", lambda: picture(floor_picture(plan, _PAPER)))
        if plan.floor.spots
        else None,
        flatness=paper["flatness"],
        heads=(paper["gap_head"], paper["slope_head"]),
    )


def _is_loud(finding: Finding) -> bool:
    """Return whether a finding stops or asks."""
    return finding.rank in {Rank.STOP, Rank.DECIDE}


def _in_table(plan: Plan, finding: Finding) -> bool:
    """Return whether the table of ways to live with a fall tells a finding."""
    return finding.code == _FALLS and bool(plan.level_line.options)


def _limit(plan: Plan, limit: BandLimit) -> LimitRow:
    """Return a limit as it is told."""
    band = plan.level_line.band
    way = limit.remedies[0] if limit.remedies else None
    cost = "" if way is None else cost_words(way.hours, way.days)
    return LimitRow(
        owner=limit.owner,
        asks=limit_words(limit, Units(plan.units)),
        name=f"limit {limit.owner}",
        binds=limit.owner == (band.binds_low if limit.is_least else band.binds_high),
        relax="" if way is None else f"{way.text} {cost}".rstrip(),
    )


def _room(plan: Plan) -> str:
    """Return how far the two ends of the band lie apart, as a sentence."""
    band = plan.level_line.band
    if band.is_empty:
        return say("band-empty-sentence")
    if band.lowest is None:
        return say("band-none")
    if band.highest is None:
        return say("floor-no-highest")
    return say("floor-band-room", room=show(band.highest - band.lowest, Units(plan.units)))


def _falls(plan: Plan, findings: tuple[Told, ...]) -> Iterator[FallRow]:
    """Yield the rows of the trade-off table, each with the way it is taken by."""
    ways = [way for each in findings if each.finding.code == _FALLS for way in each.ways]
    for option in plan.level_line.options:
        yield FallRow(
            option=option,
            cost=cost_words(option.hours, option.days),
            way=next((way for way in ways if way.remedy.text.startswith(option.what)), None),
        )


def _next(standing: Standing, doubts: Doubts | None) -> Iterator[NextRow]:
    """Yield the readings that would help most, in the order to take them."""
    for reading in () if doubts is None else doubts.next_readings:
        yield NextRow(spot=reading.spot, settles=reading.would_settle, address=_walk_to(standing, reading))


def _walk_to(standing: Standing, reading: NextReading) -> str:
    """Return the page where a reading is taken."""
    return f"/j/{standing.job_id}/walk?at={quote(f'floor {reading.spot}')}&again=yes"
