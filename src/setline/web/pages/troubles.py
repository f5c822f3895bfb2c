"""Every conflict and clash, the worst first, each with its ways out."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Request
from fastapi.responses import Response

from setline.field_book.unsettled import unsettled_findings
from setline.result import Finding, Rank
from setline.web.menu import Group
from setline.web.render import Frame, render
from setline.web.site import JobPage, Visitor
from setline.web.ways import Told, told
from setline.wording import say

__all__ = ["router"]

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class TroublesPage:
    """What stands in the way.

    Attributes:
        loud: Stops and decides.
        quiet: Watches and notes.
        unsettled: Places with two people's values.
        faults: Why the job makes no plan, as sentences.
        is_planned: Whether there is a plan.
    """

    loud: tuple[Told, ...]
    quiet: tuple[Told, ...]
    unsettled: tuple[Finding, ...]
    faults: tuple[str, ...]
    is_planned: bool


@router.get("/j/{j}/troubles")
def troubles(request: Request, standing: JobPage, device: Visitor) -> Response:
    """Show every finding, and every place that two people read differently."""
    plan = standing.plan
    found = () if plan is None else tuple(told(standing, finding) for finding in plan.findings)
    loud = {Rank.STOP, Rank.DECIDE}
    faults = tuple(map(str, standing.folded.faults)) if standing.job is None else ()
    page = TroublesPage(
        loud=tuple(each for each in found if each.finding.rank in loud),
        quiet=tuple(each for each in found if each.finding.rank not in loud),
        unsettled=unsettled_findings(standing.folded.unsettled),
        faults=faults if standing.trouble is None else (*faults, standing.trouble),
        is_planned=plan is not None,
    )
    frame = Frame(
        title=say("page-troubles"),
        device=device,
        standing=standing,
        group=Group.PLAN,
        styles=("plan.css",),
    )
    return render(request, "troubles.html", frame, page)
