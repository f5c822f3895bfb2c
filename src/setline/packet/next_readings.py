"""What to read next: which spot would help the line most, which points print as ``?``, and why."""

from __future__ import annotations

from typing import TypedDict

from setline.lengths import Units, show
from setline.result import Plan, Shim
from setline.result.doubts import Doubts
from setline.told import risk_lines
from setline.wording import say

__all__ = ["NextPage", "NextRow", "next_page"]


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
    lines = [] if doubts is None else risk_lines(doubts, units)
    readings = () if doubts is None else doubts.next_readings
    rows = [NextRow(where=reading.spot, why=reading.would_settle) for reading in readings]
    unknown = _unknown(plan, units)
    if not unknown:
        lines.append(say("packet-next-all-read"))
    return NextPage(kind="next", key="next", landscape=False, beside="", lines=lines, rows=[*rows, *unknown])


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
