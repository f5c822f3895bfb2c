"""The one thing to do next on a job, in the order of the work."""

from __future__ import annotations

from dataclasses import dataclass

from setline.result import Rank
from setline.web.planning import Standing
from setline.wording import say

__all__ = ["NextAction", "next_action"]


@dataclass(frozen=True, slots=True, kw_only=True)
class NextAction:
    """What to do, why, and where.

    Attributes:
        do: What the button says.
        why: A sentence.
        address: Where the button leads.
    """

    do: str
    why: str
    address: str


def next_action(standing: Standing) -> NextAction:
    """Return the next thing to do: outline, order, runs, floor, troubles, marks, in that order."""
    job, document = f"/j/{standing.job_id}", standing.folded.document
    plan = standing.plan
    if not document.get("room", {}).get("walls"):
        return _go("start-outline", f"{job}/room")
    if not document.get("order", {}).get("boxes"):
        return _go("take-order", f"{job}/order")
    if not document.get("runs"):
        return _go("arrange", f"{job}/run/{document['room']['walls'][0].get('name', 'A')}")
    if plan is None:
        return _go("mend", f"{job}/readings")
    if plan.level_line.tops.value is None:
        return _go("read-floor", f"{job}/walk")
    if any(found.rank is Rank.STOP for found in plan.findings):
        return _go("cure", f"{job}/troubles")
    return _go("strike", f"{job}/marks/{plan.runs[0].wall}" if plan.runs else f"{job}/floor")


def _go(key: str, address: str) -> NextAction:
    """Return one action with its words."""
    return NextAction(do=say(f"next-{key}"), why=say(f"next-{key}-why"), address=address)
