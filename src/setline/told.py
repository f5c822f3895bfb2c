"""A plan told: numbers as they are printed and the short sentences that screen, paper and terminal share.

Numbers were rounded once, in the plan; ``?`` stands where nothing supports one.
"""

from __future__ import annotations

from dataclasses import dataclass

from setline.lengths import Rounding, Units, fine_step, mark_step, round_to, show
from setline.result import Doubts, Figure, Finding, Mark, Plan, RunPlan, SetUpLine
from setline.wording import say

__all__ = [
    "WallDiffers",
    "cost_words",
    "finding_words",
    "number",
    "risk_lines",
    "strike_words",
    "tops_words",
    "wall_differs",
    "walls_with_runs",
    "why_elsewhere",
    "within",
]

UNKNOWN = "?"


@dataclass(frozen=True, slots=True, kw_only=True)
class WallDiffers:
    """Where the marks on a wall say other numbers than the plan.

    Attributes:
        wall: The wall's letter.
        by: The most that one of them differs. [ticks]
        first: The leftmost such mark as it was struck. [ticks]
        marks: All of them.
        text: The same as a sentence.
    """

    wall: str
    by: int
    first: int
    marks: tuple[Mark, ...]
    text: str


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


def wall_differs(plan: Plan) -> tuple[WallDiffers, ...]:
    """Return the walls whose struck marks say other numbers than the plan, each with the sentence to show.

    Marks at boxes that stand are left out: nothing will be set to them again.
    """
    found: dict[str, list[Mark]] = {}
    for run in plan.runs:
        for place, mark in enumerate(run.marks):
            beside = (*run.items[max(0, place - 1) : place], *run.items[place : place + 1])
            if mark.struck is None or mark.printed is None or mark.struck == mark.printed:
                continue
            if not any(item.is_set for item in beside):
                found.setdefault(run.wall, []).append(mark)
    return tuple(_differs(wall, marks, Units(plan.units)) for wall, marks in found.items())


def _differs(wall: str, marks: list[Mark], units: Units) -> WallDiffers:
    """Return how far the marks on a wall are off the plan."""
    pairs = [(mark.struck or 0, mark.printed or 0) for mark in marks]
    by, first = max(abs(struck - printed) for struck, printed in pairs), min(struck for struck, _ in pairs)
    text = say("wall-differs", wall=wall, by=show(by, units), first=show(first, units))
    return WallDiffers(wall=wall, by=by, first=first, marks=tuple(marks), text=text)


def why_elsewhere(run: RunPlan, place: int, units: Units) -> str:
    """Return why the plan does not go by a mark as it is on the wall; nothing where it does.

    Args:
        run: The mark's run.
        place: The mark's place in it.
        units: The job's tape.
    """
    mark, joint = run.marks[place], run.joints[place]
    if mark.struck is None or mark.printed is None or mark.struck == mark.printed:
        return ""
    if mark.at.value is None or joint.chosen is None:
        return ""
    struck, to_mark = show(mark.struck, units), mark.at.value - joint.chosen
    if joint.earliest is None or joint.latest is None:
        return say("elsewhere-with-others", struck=struck)
    least = round_to(joint.earliest + to_mark, mark_step(units), Rounding.UP)
    most = round_to(joint.latest + to_mark, mark_step(units), Rounding.DOWN)
    if least <= mark.struck <= most:
        return say("elsewhere-with-others", struck=struck)
    if least >= most:
        return say("elsewhere-fixed", struck=struck, at=show(mark.printed, units))
    return say("elsewhere-too-far", struck=struck, least=show(least, units), most=show(most, units))
