"""What to read next: which spot would help the line most, which points print as ``?``, and why."""

from __future__ import annotations

from typing import TypedDict

from setline.lengths import Rounding, Units, fine_step, round_to, show
from setline.result import Plan, Shim
from setline.result.doubts import Doubts, HighSpotRisk, NextReading
from setline.wording import say

__all__ = ["NextPage", "NextRow", "next_page", "risk_lines"]


class NextRow(TypedDict):
    """One reading to take."""

    where: str
    why: str


class NextPage(TypedDict):
    """Data of the page of readings to take."""

    kind: str
    key: str
    landscape: bool
    beside: str
    lines: list[str]
    rows: list[NextRow]


def next_page(plan: Plan, doubts: Doubts | None) -> NextPage:
    """Return the data of the page.

    Args:
        plan: The plan, for the points that print as ``?``.
        doubts: How sure it is and what to read next, if that was worked out.

    Returns:
        The risk in sentences; then a row a reading: first what helps the line, then what a ``?`` waits for.
    """
    units = Units(plan.units)
    lines = [] if doubts is None else [*risk_lines(doubts.high_spot, units), *_said(doubts)]
    rows = [] if doubts is None else [_reading(reading, units) for reading in doubts.next_readings]
    unknown = _unknown(plan, units)
    if not unknown:
        lines.append(say("packet-next-all-read"))
    return NextPage(kind="next", key="next", landscape=False, beside="", lines=lines, rows=[*rows, *unknown])


def risk_lines(risk: HighSpotRisk | None, units: Units) -> list[str]:
    """Return how likely a spot under the boxes stands over the line, as sentences."""
    if risk is None:
        return []
    odds = max(1, round(100 * risk.odds_of_a_move))
    key = "packet-risk-settled" if risk.settled else "packet-risk-open"
    lines = [say(key, move=show(risk.move, units), odds=odds)]
    likely = [f"{spot.point} ({round(100 * spot.odds)} in 100)" for spot in risk.where if spot.odds >= 0.05]
    if likely and not risk.settled:
        lines.append(say("packet-risk-where", spots=", ".join(likely)))
    return lines


def _said(doubts: Doubts) -> list[str]:
    """Return what else the doubts have to say."""
    return [f"{say(f'packet-rank-{finding.rank}')}: {finding.text}" for finding in doubts.findings]


def _reading(reading: NextReading, units: Units) -> NextRow:
    """Return one reading with what it settles and how much surer the line is then."""
    before, after = (
        show(round_to(ticks, fine_step(units), Rounding.UP), units)
        for ticks in (reading.within_before, reading.within_after)
    )
    again = say("packet-next-again") + " " if reading.again else ""
    gain = say("packet-next-gain", before=before, after=after) if after != before else ""
    return NextRow(where=reading.spot, why=f"{again}{reading.would_settle} {gain}".strip())


def _unknown(plan: Plan, units: Units) -> list[NextRow]:
    """Return a row for each spot that a ``?`` waits for."""
    spots: dict[tuple[str, int, int], list[Shim]] = {}
    for shim in plan.shims:
        if shim.printed is None:
            spots.setdefault((shim.wall, shim.u, shim.out), []).append(shim)
    return [
        NextRow(
            where=say("packet-next-spot", wall=wall, u=show(u, units), out=_out(out, units)),
            why=say("packet-next-unknown", points=", ".join(shim.name for shim in shims)),
        )
        for (wall, u, out), shims in spots.items()
    ]


def _out(out: int, units: Units) -> str:
    return say("packet-out", out=show(out, units)) if out else say("packet-at-wall")
