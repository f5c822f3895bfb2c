"""What to read next: which spot would help the line or a shim most, and why."""

from __future__ import annotations

from typing import TypedDict

from setline.lengths import Units, show
from setline.result import Plan, Shim
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


def next_page(plan: Plan) -> NextPage:
    """Return the data of the page: the points that print as ``?``, one row a spot."""
    units = Units(plan.units)
    spots: dict[tuple[str, int, int], list[Shim]] = {}
    for shim in plan.shims:
        if shim.printed is None:
            spots.setdefault((shim.wall, shim.u, shim.out), []).append(shim)
    rows = [
        NextRow(
            where=say("packet-next-spot", wall=wall, u=show(u, units), out=_out(out, units)),
            why=say("packet-next-unknown", points=", ".join(shim.name for shim in shims)),
        )
        for (wall, u, out), shims in spots.items()
    ]
    lines = [] if rows else [say("packet-next-none")]
    return NextPage(kind="next", key="next", landscape=False, beside="", lines=lines, rows=rows)


def _out(out: int, units: Units) -> str:
    return say("packet-out", out=show(out, units)) if out else say("packet-at-wall")
