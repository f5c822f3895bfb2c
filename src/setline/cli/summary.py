"""A plan in the terminal: the struck line first, then what stops, then wall by wall, in 80 columns."""

from __future__ import annotations

from setline.cli.terminal import wrapped
from setline.lengths import Units, show
from setline.result import Finding, HighSpot, Plan, Rank, RunPlan
from setline.result.doubts import Doubts
from setline.told import cost_words, finding_words, number, risk_lines, strike_words, tops_words, within
from setline.wording import say

__all__ = ["finding_lines", "summary"]

_QUIET_SHOWN = 6
"""So many findings that only ask to be looked at; the packet has them all."""


def summary(plan: Plan, doubts: Doubts | None = None) -> list[str]:
    """Return the plan in lines of at most 80 columns.

    Args:
        plan: Any plan, solved or not.
        doubts: How sure it is and what to read next, if that was worked out.

    Returns:
        Title, struck line, high spot, findings that stop or ask, walls, shims, the other findings, what to
        read next.
    """
    units = Units(plan.units)
    loud = {Rank.STOP, Rank.DECIDE}
    numbered = list(enumerate(plan.findings, start=1))
    lines = [say("cli-title", job=plan.job_name, revision=plan.revision, check=plan.check_code), ""]
    lines += _line(plan, units)
    for place, finding in numbered:
        if finding.rank in loud:
            lines += ["", *finding_lines(place, finding)]
    lines += ["", *(_run(run, units) for run in plan.runs), *_shims(plan)]
    quiet = [(place, finding) for place, finding in numbered if finding.rank not in loud]
    if quiet:
        lines.append("")
    for place, finding in quiet[:_QUIET_SHOWN]:
        lines += finding_lines(place, finding)
    if len(quiet) > _QUIET_SHOWN:
        lines.append(say("cli-more-findings", count=len(quiet) - _QUIET_SHOWN))
    if doubts is not None and (said := _next(doubts, units)):
        lines += ["", *said]
    return [piece for line in lines for piece in wrapped(line)]


def _line(plan: Plan, units: Units) -> list[str]:
    """Return the struck line, the tops below it, its doubt, the other set-ups and the high spot."""
    lines = []
    for line in plan.level_line.set_ups:
        text, way = strike_words(line, units)
        facts = {"set_up": line.set_up, "strike": text, "way": way}
        if not line.in_use:
            lines.append(say("cli-other-set-up", **facts))
        elif line.printed_strike is None:
            lines.append(say("cli-no-line"))
        else:
            doubt = within(line.strike, units)
            tops = tops_words(line, plan.level_line.clearance, units)
            said = f"{say('cli-strike', **facts)} {tops}"
            lines.append(f"{said} {doubt[0].upper()}{doubt[1:]}." if doubt else said)
    if not lines:
        lines.append(say("cli-no-line"))
    spot = plan.level_line.high_spot
    return lines if spot is None else [*lines, _high_spot(spot, units)]


def _high_spot(spot: HighSpot, units: Units) -> str:
    """Return where the high spot is."""
    out = say("packet-out", out=show(spot.out, units)) if spot.out else say("packet-at-wall")
    return say("cli-high-spot", point=spot.point, wall=spot.wall, u=show(spot.u, units), out=out)


def finding_lines(place: int, finding: Finding) -> list[str]:
    """Return a finding with its ways out, each a line.

    Args:
        place: Its number in the list of findings, the same on paper.
        finding: The finding.
    """
    rank = say(f"packet-rank-{finding.rank}")
    lines = [say("cli-finding", n=place, rank=rank, text=finding_words(finding))]
    for remedy in finding.remedies:
        cost = cost_words(remedy.hours, remedy.days)
        lines.append(say("cli-remedy", text=remedy.text) + (f" ({cost})" if cost else ""))
    return lines


def _next(doubts: Doubts, units: Units) -> list[str]:
    """Return the risk of a higher spot and the readings to take next."""
    return [*risk_lines(doubts, units), *(reading.would_settle for reading in doubts.next_readings)]


def _run(run: RunPlan, units: Units) -> str:
    """Return whether a run fits, and between where."""
    if not run.solved:
        return say("cli-run-short", name=run.name, over=number(run.overrun, units))
    count = sum(item.kind == "box" for item in run.items)
    boxes = say("cli-one-box") if count == 1 else say("cli-boxes", count=count)
    ends = {"left": number(run.left_end.value, units), "right": number(run.right_end.value, units)}
    return say("cli-run-fits", name=run.name, boxes=boxes, marks=len(run.marks), **ends)


def _shims(plan: Plan) -> list[str]:
    """Return how many points there are, how many are not known and how many are over the limit."""
    if not plan.shims:
        return []
    unknown = sum(shim.printed is None for shim in plan.shims)
    over = sum(shim.over_limit for shim in plan.shims)
    said = [say("cli-shims", count=len(plan.shims))]
    said += [say("cli-shims-unknown", count=unknown)] if unknown else []
    said += [say("cli-shims-over", count=over)] if over else []
    return [", ".join(said) + "."]
