"""One way out: what it would change, shown before it is taken."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Form, HTTPException, Request
from fastapi.responses import RedirectResponse, Response

from setline.result import Finding, Plan, Rank
from setline.stages.changes import ChangeKind, changes
from setline.web.menu import Group
from setline.web.planning import Standing
from setline.web.render import Frame, render
from setline.web.site import JobPage, Visitor, Writer, WriterPage, site_of
from setline.web.strips import Picture, strip_picture
from setline.web.trying import Outcome, outcome, tried
from setline.web.ways import Told, Way, find_way, told, values_of
from setline.web.writing import is_kept, keep, new_act
from setline.wording import say

__all__ = ["router"]

router = APIRouter()

MOST_WALLS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """A wall's strip as it is and as it would be."""

    wall: str
    before: Picture
    after: Picture


@dataclass(frozen=True, slots=True, kw_only=True)
class RemedyPage:
    """A way out and what would come of it.

    Attributes:
        act: The form's act.
        told: The finding.
        way: The way out.
        cures: Whether the finding is gone once it is taken.
        outcome: What would change.
        walls: The strips of the walls that change.
        back: Where "Not this" leads.
    """

    act: str
    told: Told
    way: Way
    cures: bool
    outcome: Outcome
    walls: tuple[Pair, ...]
    back: str


@router.get("/j/{j}/remedy/{key}")
def show(request: Request, standing: JobPage, device: Visitor, key: str) -> Response:
    """Show what a remedy would change."""
    found = find_way(standing, key[:64])
    if found is None or not found[1].change or standing.plan is None:
        raise HTTPException(404, say("remedy-gone"))
    finding, remedy = found
    after = tried(site_of(request), standing, device, values_of(remedy)).plan
    if after is None:
        raise HTTPException(409, say("remedy-no-plan"))
    whole = told(standing, finding)
    page = RemedyPage(
        act=new_act(),
        told=whole,
        way=next(way for way in whole.ways if way.key == key),
        cures=not _still_there(finding, after),
        outcome=outcome(standing.plan, after),
        walls=_walls(standing.plan, after, finding),
        back=_back(standing, finding),
    )
    frame = Frame(
        title=say("page-remedy"),
        device=device,
        standing=standing,
        group=Group.PLAN,
        styles=("plan.css",),
    )
    return render(request, "remedy.html", frame, page)


@router.post("/j/{j}/remedy/{key}")
def take(
    request: Request,
    standing: WriterPage,
    device: Writer,
    key: str,
    act: Annotated[str, Form(pattern=r"^[0-9a-f]{20}$")],
) -> Response:
    """Take a remedy: what it changes is written into the job."""
    found = find_way(standing, key[:64])
    if is_kept(standing, act):
        return RedirectResponse(f"/j/{standing.job_id}/troubles?told=remedy-taken", status_code=303)
    if found is None or not found[1].change:
        raise HTTPException(409, say("remedy-gone"))
    finding, remedy = found
    keep(site_of(request), standing, device, values_of(remedy), act=act)
    return RedirectResponse(f"{_back(standing, finding)}?told=remedy-taken", status_code=303)


def _still_there(finding: Finding, after: Plan) -> bool:
    """Return whether a plan has the same finding, with whatever numbers."""
    return any(
        (other.code, other.where, other.rank) == (finding.code, finding.where, finding.rank)
        or (other.rank is Rank.STOP is finding.rank and other.where == finding.where)
        for other in after.findings
    )


def _walls(before: Plan, after: Plan, finding: Finding) -> tuple[Pair, ...]:
    """Return the strips of the walls in which something moves, the finding's own first."""
    runs = {run.name: run.wall for run in after.runs}
    moved = {
        wall
        for change in changes(before, after)
        if change.kind in (ChangeKind.MARK, ChangeKind.RUN, ChangeKind.OPENING, ChangeKind.FILLER)
        for name, wall in runs.items()
        if change.name.startswith(name)
    }
    own = runs.get(finding.where)
    ordered = sorted(moved | ({own} if own else set()), key=lambda wall: (wall != own, wall))
    return tuple(
        Pair(
            wall=wall,
            before=strip_picture(before, wall, name=f"before-{wall}"),
            after=strip_picture(after, wall, name=f"after-{wall}"),
        )
        for wall in ordered[:MOST_WALLS]
    )


def _back(standing: Standing, finding: Finding) -> str:
    """Return the page that a finding is told on: its run, else the troubles."""
    runs = () if standing.plan is None else standing.plan.runs
    wall = next((run.wall for run in runs if run.name == finding.where), None)
    return f"/j/{standing.job_id}/" + (f"run/{wall}" if wall else "troubles")
