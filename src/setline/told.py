"""A plan told: numbers as they are printed and the short sentences that screen, paper and terminal share.

Numbers were rounded once, in the plan; ``?`` stands where nothing supports one.
"""

from __future__ import annotations

from setline.lengths import Rounding, Units, fine_step, round_to, show
from setline.result import Doubts, Figure, Finding, Plan, RunPlan, SetUpLine
from setline.wording import say

__all__ = [
    "cost_words",
    "finding_words",
    "number",
    "risk_lines",
    "strike_words",
    "tops_words",
    "walls_with_runs",
    "within",
]

UNKNOWN = "?"


def number(ticks: int | None, units: Units) -> str:
    """Return a length as it is printed, or ``?`` where there is none."""
    return UNKNOWN if ticks is None else show(ticks, units)


def within(figure: Figure, units: Units) -> str:
    """Return ``within 1/32``, the doubt rounded up to what a tape shows; nothing if none was worked out."""
    if not figure.within or figure.value is None:
        return ""
    doubt = round_to(figure.within, fine_step(units), Rounding.UP)
    return say("packet-within", doubt=show(doubt, units))


def _down(ticks: int | None, line: SetUpLine, units: Units) -> tuple[str, str]:
    """Return a number measured from a laser line and the way to measure it: a negative one goes up."""
    if ticks is None:
        return UNKNOWN, say("packet-down")
    near = "" if line.is_exact else "~"
    return near + show(abs(ticks), units).removeprefix("~"), say("packet-up" if ticks < 0 else "packet-down")


def strike_words(line: SetUpLine, units: Units) -> tuple[str, str]:
    """Return the struck line's number and its way, ``13 3/8`` and ``DOWN``."""
    return _down(line.printed_strike, line, units)


def tops_words(line: SetUpLine, clearance: int, units: Units) -> str:
    """Return where the box tops are: ``Box tops are 1/8 below it (13 1/2 down)``."""
    level, way = _down(line.printed_level, line, units)
    facts = {"clearance": show(clearance, units), "level": level, "way": way.lower()}
    return say("packet-tops" if clearance else "packet-tops-at-line", **facts)


def finding_words(finding: Finding) -> str:
    """Return a finding's place and sentence in one breath; one that names its place is left as it is."""
    if finding.where.casefold() in finding.text.casefold():
        return finding.text
    return f"{finding.where}: {finding.text}"


def walls_with_runs(plan: Plan) -> dict[str, tuple[RunPlan, ...]]:
    """Return the runs of each wall that has any, in the plan's order of walls."""
    names = [wall.name for wall in plan.walls if any(run.wall == wall.name for run in plan.runs)]
    return {name: tuple(run for run in plan.runs if run.wall == name) for name in names}


def cost_words(hours: float, days: float) -> str:
    """Return what a way out costs in hours and days of waiting, or nothing where it costs neither."""
    said = [say("packet-hours", hours=f"{hours:g}")] if hours else []
    if days:
        said.append(say("packet-one-day") if days == 1 else say("packet-days", days=f"{days:g}"))
    return ", ".join(said)


def risk_lines(doubts: Doubts, units: Units) -> list[str]:
    """Return the risk of a higher spot, and whether enough was read for the line or what its doubts say.

    Args:
        doubts: How sure the plan is.
        units: The crew's tape.
    """
    risk = doubts.high_spot
    if risk is None:
        return [finding.text for finding in doubts.findings]
    odds = say(
        "packet-risk", odds=round(100 * risk.odds), most=show(max(0, _up(risk.nine_in_ten, units)), units)
    )
    if risk.settled:
        return [odds, say("packet-risk-settled", move=show(risk.move, units))]
    return [odds, *(finding.text for finding in doubts.findings)]


def _up(ticks: int, units: Units) -> int:
    """Return a doubtful height, up to what a tape shows."""
    return round_to(ticks, fine_step(units), Rounding.UP)
