"""What to do now: one next thing, then what stands."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, Request
from fastapi.responses import Response

from setline.result import Finding, Rank
from setline.web.next_action import NextAction, next_action
from setline.web.render import Frame, render
from setline.web.site import JobPage, Visitor
from setline.web.strike_told import StrikeTold, strike_told

__all__ = ["router"]

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class HomePage:
    """A job's first page.

    Attributes:
        next: The one thing to do now.
        strike: The line to strike, or None while nothing supports one.
        runs: Each run with whether it fits and by how much it is short.
        troubles: Stops and decides, the worst first.
        faults: Why the job makes no plan yet, as sentences; none before a wall is named.
    """

    next: NextAction
    strike: StrikeTold | None
    runs: tuple[tuple[str, bool, int | None], ...]
    troubles: tuple[Finding, ...]
    faults: tuple[str, ...]


@router.get("/j/{j}")
def home(request: Request, standing: JobPage, device: Visitor) -> Response:
    """Show what to do now."""
    plan = standing.plan
    has_walls = bool(standing.folded.document.get("room", {}).get("walls"))
    page = HomePage(
        next=next_action(standing),
        strike=strike_told(standing),
        runs=() if plan is None else tuple((run.name, run.solved, run.overrun) for run in plan.runs),
        troubles=()
        if plan is None
        else tuple(found for found in plan.findings if found.rank in {Rank.STOP, Rank.DECIDE}),
        faults=tuple(map(str, standing.folded.faults)) if standing.job is None and has_walls else (),
    )
    frame = Frame(title=standing.name, device=device, standing=standing)
    return render(request, "home.html", frame, page)
