"""The floor as found, to show the client: heights, flatness, what limits the line, every reading; to sign."""

from __future__ import annotations

from typing import TypedDict

from setline.lengths import Rounding, Units, fine_step, round_to, shim_step, show, show_feet
from setline.packet.picture import Picture
from setline.result import BandLimit, FallOption, FlatnessLine, FloorSpot, Plan
from setline.rules.rule import RuleBook
from setline.told import UNKNOWN, cost_words, number, within
from setline.wording import say

__all__ = ["FloorPage", "floor_page"]


class FlatnessRow(TypedDict):
    """How flat one line of readings is."""

    name: str
    gap: str
    at: str
    slope: str
    numbers: str


class LimitRow(TypedDict):
    """One limit on the height of the tops."""

    owner: str
    side: str
    tops: str


class OptionRow(TypedDict):
    """One way to live with a floor that falls too far."""

    what: str
    lowered: str
    greatest: str
    trim: str
    cost: str


class ReadingRow(TypedDict):
    """One floor reading as the tape showed it."""

    spot: str
    down: str


class FloorPage(TypedDict):
    """Data of the floor page."""

    kind: str
    key: str
    landscape: bool
    beside: str
    picture: Picture
    lines: list[str]
    flatness: list[FlatnessRow]
    gap_head: str
    slope_head: str
    band: list[LimitRow]
    options: list[OptionRow]
    readings: list[ReadingRow]


def floor_page(plan: Plan, book: RuleBook, picture: Picture) -> FloorPage:
    """Return the data of the floor page.

    Args:
        plan: The plan.
        book: The rules, for the length of the straightedge.
        picture: The floor picture.
    """
    units = Units(plan.units)
    straightedge = book.length("straightedge")
    edge = show_feet(straightedge) if units == Units.INCH else show(straightedge, units)
    return FloorPage(
        kind="floor",
        key="floor",
        landscape=True,
        beside=say("packet-floor-count", count=len(plan.floor.spots)),
        picture=picture,
        lines=_lines(plan, units),
        flatness=[_flatness(line, units) for line in plan.floor.flatness],
        gap_head=say("packet-floor-gap", edge=edge),
        slope_head=say("packet-floor-slope", edge=edge),
        band=[_limit(limit, units) for limit in plan.level_line.band.limits],
        options=[_option(option, units) for option in plan.level_line.options],
        readings=[_reading(spot) for spot in plan.floor.spots],
    )


def _lines(plan: Plan, units: Units) -> list[str]:
    """Return the high spot and the fall from it to the lowest reading, as sentences."""
    heights = [spot for spot in plan.floor.spots if spot.z is not None and not spot.on_covering]
    said = []
    spot = plan.level_line.high_spot
    if spot is not None:
        said.append(
            say(
                "packet-floor-high",
                wall=spot.wall,
                u=show(spot.u, units),
                doubt=_doubt(within(spot.height, units)),
            )
        )
    if len(heights) > 1:
        least = min(heights, key=lambda spot: (spot.z or 0, spot.address))
        most = max(heights, key=lambda spot: (spot.z or 0, spot.address))
        fall = (most.z or 0) - (least.z or 0)
        said.append(say("packet-floor-fall", fall=show(fall, units), low=least.address, high=most.address))
    return said


def _doubt(text: str) -> str:
    return f", {text}" if text else ""


def _flatness(line: FlatnessLine, units: Units) -> FlatnessRow:
    """Return how flat a line is, to what a shim can take up."""
    gap, slope = (
        None if figure.value is None else round_to(figure.value, shim_step(units), Rounding.NEAREST_UP)
        for figure in (line.gap, line.slope)
    )
    numbers = "" if line.ff is None or line.fl is None else f"FF {line.ff:.0f}, FL {line.fl:.0f}"
    return FlatnessRow(
        name=line.name,
        gap=number(gap, units),
        at="" if gap is None else show(line.gap_at, units),
        slope=_slope(slope, units),
        numbers=numbers,
    )


def _slope(slope: int | None, units: Units) -> str:
    """Return a fall with its way, as seen facing the wall."""
    if slope is None:
        return UNKNOWN
    if slope == 0:
        return say("packet-slope-level")
    key = "packet-slope-right-up" if slope > 0 else "packet-slope-right-down"
    return say(key, slope=show(abs(slope), units))


def _limit(limit: BandLimit, units: Units) -> LimitRow:
    """Return a limit as a distance from the laser line, like every other height on paper."""
    side = say("packet-limit-least" if limit.is_least else "packet-limit-most")
    if limit.tops.value is None:
        return LimitRow(owner=limit.owner, side=side, tops=UNKNOWN)
    down = round_to(-limit.tops.value, fine_step(units), Rounding.NEAREST_UP)
    key = "packet-tops-down" if down >= 0 else "packet-tops-up"
    return LimitRow(owner=limit.owner, side=side, tops=say(key, tops=show(abs(down), units)))


def _option(option: FallOption, units: Units) -> OptionRow:
    trims = ", ".join(say("packet-trim", box=box, trim=show(trim, units)) for box, trim in option.trims)
    return OptionRow(
        what=option.what,
        lowered=show(option.lowered, units),
        greatest=show(option.greatest_shim, units),
        trim=trims,
        cost=cost_words(option.hours, option.days),
    )


def _reading(spot: FloorSpot) -> ReadingRow:
    return ReadingRow(spot=spot.address, down=spot.typed)
