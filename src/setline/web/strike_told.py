"""The struck line as the pages tell it: the number first, how sure it is, then from where."""

from __future__ import annotations

from dataclasses import dataclass

from setline.lengths import Units, show
from setline.result import HighSpot, Plan, Rank, SetUpLine
from setline.told import strike_words, tops_words, within
from setline.web.planning import Standing
from setline.wording import say

__all__ = ["StrikeTold", "high_spot_words", "line_is_stopped", "strike_told"]

_AGAINST = frozenset({"no-line-fits", "line-too-low", "line-too-high", "line-not-tied"})
"""Stops that say not to set to the line that is told."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StrikeTold:
    """The line to strike.

    Attributes:
        number: Its number and way, such as ``13 3/8 DOWN``.
        within: How sure it is, such as ``within 1/16``, or nothing.
        name: Its name in the plan, to ask why.
        source: The laser line that it is measured from, in words.
        tops: Where the box tops are, as a sentence.
        high: Where the high spot is, as a sentence, or nothing.
        others: The same line from every other set-up: its sentence and its name in the plan.
        struck: What is on the wall already, or nothing.
        stopped: Whether something stands against setting to it.
    """

    number: str
    within: str
    name: str
    source: str
    tops: str
    high: str
    others: tuple[tuple[str, str], ...]
    struck: str
    stopped: bool


def strike_told(standing: Standing) -> StrikeTold | None:
    """Return the struck line of a job, or None while nothing supports one."""
    plan = standing.plan
    if plan is None or standing.job is None:
        return None
    line = next((each for each in plan.level_line.set_ups if each.in_use), None)
    if line is None or line.printed_strike is None:
        return None
    units = Units(plan.units)
    struck = standing.job.record.struck_lines[:1]
    return StrikeTold(
        number=" ".join(strike_words(line, units)),
        within=within(line.strike, units),
        name=f"{line.set_up} strike",
        source=say("packet-from-laser", set_up=line.set_up),
        tops=tops_words(line, plan.level_line.clearance, units),
        high=high_spot_words(plan),
        others=tuple(_other(each, units) for each in plan.level_line.set_ups if not each.in_use),
        struck=say("line-is-struck", line=struck[0].name, at=struck[0].down.typed) if struck else "",
        stopped=line_is_stopped(plan),
    )


def line_is_stopped(plan: Plan) -> bool:
    """Return whether something stands against setting to the line that is told."""
    return any(each.code in _AGAINST for each in plan.findings if each.rank is Rank.STOP)


def _other(line: SetUpLine, units: Units) -> tuple[str, str]:
    """Return the line as measured from a set-up that is not in use, and its name in the plan."""
    text, way = strike_words(line, units)
    said = say("packet-other-set-up", set_up=line.set_up, strike=text, way=way.lower())
    return said, f"{line.set_up} strike"


def high_spot_words(plan: Plan) -> str:
    """Return where the high spot is, or nothing where none is known."""
    spot = plan.level_line.high_spot
    return "" if spot is None else _spot(spot, Units(plan.units))


def _spot(spot: HighSpot, units: Units) -> str:
    """Return where a high spot is, in one sentence."""
    out = say("packet-out", out=show(spot.out, units)) if spot.out else say("packet-at-wall")
    return say("floor-high-is", point=spot.point, wall=spot.wall, u=show(spot.u, units), out=out)
