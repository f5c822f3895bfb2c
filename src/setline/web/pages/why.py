"""What a number rests on: readings, arithmetic, the rule; for every mark, shim and line of the plan."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import RedirectResponse, Response

from setline.errors import NotInPlan
from setline.packet.why import Why, look_up, printed_value, why
from setline.result import Plan
from setline.stages.changes import edge_said
from setline.web.menu import Group
from setline.web.planning import Standing
from setline.web.render import Frame, render
from setline.web.session import Device
from setline.web.site import JobPage, Visitor
from setline.wording import say

__all__ = ["router"]

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingRow:
    """A reading behind a number: as typed, and where it is read again, or nothing."""

    text: str
    address: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WhyPage:
    """What a number rests on.

    Attributes:
        why: The answer.
        said: What the number is of, in words, or nothing where its name says it.
        readings: The readings behind it.
        page: Where the number stands: the address.
        page_name: What that page is called.
    """

    why: Why
    said: str
    readings: tuple[ReadingRow, ...]
    page: str
    page_name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WhyListPage:
    """Every number that can be asked.

    Attributes:
        groups: Heading -> name and number of each.
        asked: A name that was asked for and is none.
        sentence: What to say to it.
        nearest: Names that look like it.
    """

    groups: dict[str, tuple[tuple[str, str], ...]]
    asked: str = ""
    sentence: str = ""
    nearest: tuple[str, ...] = ()


@router.get("/j/{j}/why")
def every_number(request: Request, standing: JobPage, device: Visitor, name: str = "") -> Response:
    """Show every number that can be asked, or lead to the one of a name that was typed."""
    plan = standing.plan
    if plan is not None and name.strip():
        try:
            found = look_up(plan, name[:120])
        except NotInPlan as wrong:
            return _list(request, standing, device, wrong=wrong)
        return RedirectResponse(f"/j/{standing.job_id}/why/{quote(found)}", status_code=303)
    return _list(request, standing, device)


@router.get("/j/{j}/why/{name:path}")
def one_number(request: Request, standing: JobPage, device: Visitor, name: str) -> Response:
    """Show what a number rests on."""
    plan, book = standing.plan, standing.book
    if plan is None or book is None:
        raise HTTPException(409, say("why-no-plan"))
    try:
        found = why(plan, look_up(plan, name[:120]), book)
    except NotInPlan as wrong:
        return _list(request, standing, device, wrong=wrong)
    address, page_name = _stands_on(standing, plan, found.name)
    page = WhyPage(
        why=found,
        said=_said(plan, found.name),
        readings=tuple(_reading(standing, plan, text) for text in found.readings),
        page=address,
        page_name=page_name,
    )
    frame = Frame(title=found.name, device=device, standing=standing, group=Group.PLAN, styles=("plan.css",))
    return render(request, "why.html", frame, page)


def _list(
    request: Request, standing: Standing, device: Device, *, wrong: NotInPlan | None = None
) -> Response:
    """Return the list of every number."""
    page = WhyListPage(
        groups={} if standing.plan is None else _groups(standing.plan),
        asked="" if wrong is None else wrong.asked,
        sentence="" if wrong is None else say("why-not-there", asked=wrong.asked),
        nearest=() if wrong is None else wrong.nearest,
    )
    frame = Frame(
        title=say("page-why"), device=device, standing=standing, group=Group.PLAN, styles=("plan.css",)
    )
    return render(request, "why_list.html", frame, page, status=404 if wrong else 200)


def _groups(plan: Plan) -> dict[str, tuple[tuple[str, str], ...]]:
    """Return every name with its number, under the line, its run or its box."""
    groups: dict[str, list[tuple[str, str]]] = {}
    runs = {name: run.name for run in plan.runs for name in (*_ends(run.name), *(m.name for m in run.marks))}
    boxes = {shim.name: say("box-title", number=shim.box) for shim in plan.shims}
    for name in plan.named:
        heading = runs.get(name) or boxes.get(name) or say("why-of-line")
        groups.setdefault(heading, []).append((name, printed_value(plan, name)))
    return {heading: tuple(rows) for heading, rows in groups.items()}


def _ends(run: str) -> tuple[str, str]:
    """Return the names of a run's two ends."""
    return f"{run} left end", f"{run} right end"


def _said(plan: Plan, name: str) -> str:
    """Return what a number is of, in words, where its name alone does not say it."""
    for run in plan.runs:
        for place, mark in enumerate(run.marks):
            if mark.name == name:
                return say("why-of-mark", edge=edge_said(run, place), wall=run.wall)
        if name in _ends(run.name):
            return say("why-of-end", run=run.name, wall=run.wall)
    for shim in plan.shims:
        if shim.name == name:
            return say("why-of-shim", kind=shim.kind, box=shim.box)
    if name.startswith("limit "):
        return say("why-of-limit")
    if name.endswith(" strike"):
        return say("why-of-strike", set_up=name.removesuffix(" strike"))
    return say("why-of-high-spot") if name == "high spot" else say("why-of-tops")


def _stands_on(standing: Standing, plan: Plan, name: str) -> tuple[str, str]:
    """Return the address and name of the page that a number stands on."""
    job = f"/j/{standing.job_id}"
    for run in plan.runs:
        if name in _ends(run.name) or any(mark.name == name for mark in run.marks):
            return f"{job}/marks/{run.wall}", say("page-marks", wall=run.wall)
    if any(shim.name == name for shim in plan.shims):
        return f"{job}/shims", say("page-shims")
    return f"{job}/floor", say("page-floor")


def _reading(standing: Standing, plan: Plan, text: str) -> ReadingRow:
    """Return a reading, with the page where it is read again if it is one of the floor."""
    address = text.partition(": ")[0]
    is_floor = any(spot.address == address for spot in plan.floor.spots)
    key = quote(f"floor {address.partition(' ')[2]}")
    again = f"/j/{standing.job_id}/walk?at={key}&again=yes" if is_floor else ""
    return ReadingRow(text=text, address=again)
