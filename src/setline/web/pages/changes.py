"""What a re-plan changed, row by row, beside what stood before; taking it, another way, or leaving it."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Form, HTTPException, Request
from fastapi.responses import RedirectResponse, Response

from setline.result import Plan, Rank
from setline.stages.changes import ChangeKind, PlanChange, changes
from setline.stages.other_ways import OtherWay, other_ways
from setline.stages.recording import agree_all
from setline.told import WallDiffers, wall_differs
from setline.web.before import as_of, before_revision
from setline.web.menu import Group
from setline.web.planning import Standing
from setline.web.recorded import keep_changes
from setline.web.render import Frame, render
from setline.web.site import JobPage, Site, Visitor, Writer, WriterPage, site_of
from setline.web.strips import Picture, strip_picture
from setline.web.ways import Told, told
from setline.web.writing import is_kept, new_act, way_back
from setline.wording import say

__all__ = ["router"]

router = APIRouter()

Act = Annotated[str, Form(pattern=r"^[0-9a-f]{20}$")]
HEADLINES = (ChangeKind.SET, ChangeKind.TAKEN_OUT, ChangeKind.RUN)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """A wall's strip as it was and as it is."""

    wall: str
    before: Picture
    after: Picture


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangesPage:
    """What one re-plan changed.

    Attributes:
        act: The form's act.
        n: The revision it led to.
        headlines: What came about, as sentences.
        rows: What moved.
        strike: Marks on the wall that say other numbers now.
        conflicts: What fits no more, with its ways out.
        is_newest: Whether the plan still says so.
        has_other_ways: Whether there may be another way.
        may_agree: Whether a yes would write anything.
        differs: Where plan and wall differ by now.
        walls: The strips of the walls in which something moved, for a wide screen.
    """

    act: str
    n: int
    headlines: tuple[str, ...]
    rows: tuple[PlanChange, ...]
    strike: tuple[PlanChange, ...]
    conflicts: tuple[Told, ...]
    is_newest: bool
    has_other_ways: bool
    may_agree: bool
    differs: tuple[WallDiffers, ...]
    walls: tuple[Pair, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownWay:
    """Another way as it is offered.

    Attributes:
        key: Its name in the form.
        way: The way.
        rows: What it changes beside how things stood.
    """

    key: str
    way: OtherWay
    rows: tuple[PlanChange, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherWaysPage:
    """Other ways to go on.

    Attributes:
        act: The forms' act.
        n: The revision they start from.
        ways: Up to three.
    """

    act: str
    n: int
    ways: tuple[ShownWay, ...]


@router.get("/j/{j}/changes/{n}")
def show_changes(request: Request, standing: JobPage, device: Visitor, n: int) -> Response:
    """Show what a re-plan changed."""
    before, after = _plans(site_of(request), standing, n)
    rows = changes(before, after)
    now = standing.plan
    stops = [found for found in after.findings if found.rank is Rank.STOP]
    known = {(found.where, found.text) for found in before.findings}
    fresh = [found for found in stops if (found.where, found.text) not in known]
    is_newest = now is not None and _numbers(now) == _numbers(after)
    assert standing.job is not None, "a planned job is whole"
    page = ChangesPage(
        act=new_act(),
        n=n,
        headlines=tuple(
            row.text
            for row in rows
            if row.kind in HEADLINES and not (is_newest and any(row.text == found.text for found in fresh))
        ),
        rows=tuple(row for row in rows if row.kind not in HEADLINES),
        strike=tuple(row for row in rows if row.on_wall),
        conflicts=tuple(told(standing, found) for found in fresh) if is_newest else (),
        is_newest=is_newest,
        has_other_ways=is_newest
        and any(row.kind in (ChangeKind.MARK, ChangeKind.PIN, ChangeKind.RUN) for row in rows),
        may_agree=is_newest and now is not None and bool(agree_all(now, standing.job.record)),
        differs=() if now is None else wall_differs(now),
        walls=_walls(before, after, rows),
    )
    return render(request, "changes.html", _frame(standing, device, "page-changes"), page)


@router.get("/j/{j}/changes/{n}/other")
def show_other_ways(request: Request, standing: JobPage, device: Visitor, n: int) -> Response:
    """Show other ways to go on, each with what it keeps and what it changes."""
    before, _ = _plans(site_of(request), standing, n)
    ways = tuple(
        ShownWay(key=_key(way), way=way, rows=_moved(changes(before, way.plan)))
        for way in _other_ways(site_of(request), standing, n)
    )
    page = OtherWaysPage(act=new_act(), n=n, ways=ways)
    return render(request, "other_ways.html", _frame(standing, device, "page-other-ways"), page)


@router.post("/j/{j}/changes/{n}/other")
def take_other_way(
    request: Request,
    standing: WriterPage,
    device: Writer,
    n: int,
    act: Act,
    key: Annotated[str, Form(max_length=20)] = "",
) -> Response:
    """Take another way: what it changes is written into the job."""
    job = f"/j/{standing.job_id}"
    if is_kept(standing, act):
        return RedirectResponse(f"{job}/changes/{standing.revision}", status_code=303)
    way = next((way for way in _other_ways(site_of(request), standing, n) if _key(way) == key), None)
    if way is None:
        raise HTTPException(409, say("way-gone"))
    keep_changes(site_of(request), standing, device, way.change, act=act)
    now = site_of(request).store.revision(standing.job_id)
    return RedirectResponse(f"{job}/changes/{now}", status_code=303)


@router.post("/j/{j}/agree")
def agree(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Act,
    seen: Annotated[int, Form(ge=0)] = 0,
    back: Annotated[str, Form(max_length=300)] = "",
) -> Response:
    """Say yes to the plan: its line and every mark are agreed as they are printed.

    Args:
        request: What was asked.
        standing: The job.
        device: Who says so.
        act: The form's act.
        seen: The revision that the page showed; where the plan says other numbers by now, nobody has said yes
            to those.
        back: The page to go back to.
    """
    site, plan, job = site_of(request), standing.plan, standing.job
    if is_kept(standing, act):
        return RedirectResponse(f"{way_back(standing, back)}?told=plan-agreed", status_code=303)
    shown = as_of(site.planner, standing, seen).plan if seen else plan
    if plan is None or job is None or shown is None or _numbers(shown) != _numbers(plan):
        raise HTTPException(409, say("plan-moved-on"))
    keep_changes(site, standing, device, agree_all(plan, job.record), act=act)
    return RedirectResponse(f"{way_back(standing, back)}?told=plan-agreed", status_code=303)


def _frame(standing: Standing, device: Visitor, title: str) -> Frame:
    return Frame(
        title=say(title), device=device, standing=standing, group=Group.SET, styles=("plan.css", "set.css")
    )


def _plans(site: Site, standing: Standing, n: int) -> tuple[Plan, Plan]:
    """Return the plan before the act that led to a revision, and the plan at it."""
    if not 1 <= n <= standing.revision:
        raise HTTPException(404, say("no-such-page"))
    after = as_of(site.planner, standing, n).plan
    before = before_revision(site.planner, standing, n).plan
    if before is None or after is None:
        raise HTTPException(404, say("nothing-to-compare"))
    return before, after


def _numbers(plan: Plan) -> tuple[object, ...]:
    """Return every number of a plan that a yes would write."""
    marks = tuple((mark.name, mark.printed) for run in plan.runs for mark in run.marks)
    lines = tuple((line.set_up, line.printed_level) for line in plan.level_line.set_ups)
    return (*marks, *lines)


def _moved(rows: tuple[PlanChange, ...]) -> tuple[PlanChange, ...]:
    return tuple(row for row in rows if row.kind not in HEADLINES)


def _walls(before: Plan, after: Plan, rows: tuple[PlanChange, ...]) -> tuple[Pair, ...]:
    """Return the strips of the walls in which marks moved."""
    marks = {row.name for row in rows if row.kind is ChangeKind.MARK}
    walls = {run.wall for run in after.runs for mark in run.marks if mark.name in marks}
    return tuple(
        Pair(
            wall=wall,
            before=strip_picture(before, wall, name=f"before-{wall}"),
            after=strip_picture(after, wall, name=f"after-{wall}"),
        )
        for wall in sorted(walls)
    )


def _other_ways(site: Site, standing: Standing, n: int) -> tuple[OtherWay, ...]:
    """Return the other ways from a revision, if the plan still says what it said then."""
    before, after = _plans(site, standing, n)
    job, now = standing.job, standing.plan
    if now is None or job is None or _numbers(now) != _numbers(after):
        return ()
    return standing.remembered(f"other ways {n}", lambda: other_ways(job, before, now))


def _key(way: OtherWay) -> str:
    """Return a way's name: a digest of what it says."""
    return hashlib.sha256(f"{way.kind}\n{way.text}".encode()).hexdigest()[:12]
