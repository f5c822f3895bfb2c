"""Printing: which pages, on which paper; made in the background, the one before offered meanwhile."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Annotated

from fastapi import APIRouter, Form, HTTPException, Request
from fastapi.responses import JSONResponse, RedirectResponse, Response

from setline.field_book.prints import Prints
from setline.lengths import Units
from setline.packet import KINDS, packet
from setline.told import WallDiffers, wall_differs
from setline.web.making import STEPS, Making, State
from setline.web.menu import Group
from setline.web.planning import Standing
from setline.web.printed import OldPaper, numbers_of, old_paper
from setline.web.render import Frame, render
from setline.web.site import JobPage, Site, Visitor, Writer, WriterPage, site_of
from setline.wording import say

__all__ = ["PACKETS", "router"]

router = APIRouter()

PACKETS: dict[str, tuple[str, ...]] = {
    "whole": KINDS,
    "wall": ("cover", "marks", "shims", "as_set"),
    "shop": ("cover", "pole"),
    "others": ("cover", "findings", "floor", "next"),
}
"""The ready packets and their kinds of page."""

PAPERS = ("letter", "a4")


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintPage:
    """The page for printing.

    Attributes:
        can_print: Whether there is a plan to print.
        paper: The paper that is chosen to begin with.
        old: What of the last paper is old, or None.
        differs: Where plan and wall differ.
        check_code: The plan's check code: a PDF with another one is of an earlier plan.
        working: What is being made.
        ready: What can be taken, the newest first.
        failed: What could not be made.
        steps: How many steps a PDF takes.
        stops: Whether something must not be set, so that the packet says so.
        kinds: Every kind of page that can be picked.
    """

    can_print: bool
    paper: str
    old: OldPaper | None
    differs: tuple[WallDiffers, ...]
    check_code: str
    working: tuple[Making, ...]
    ready: tuple[Making, ...]
    failed: tuple[Making, ...]
    steps: int
    stops: bool
    kinds: tuple[str, ...] = KINDS


@router.get("/j/{j}/print")
def show(request: Request, standing: JobPage, device: Visitor) -> Response:
    """Show what can be printed, what is being made and what is ready."""
    site, plan, job = site_of(request), standing.plan, standing.job
    made = site.maker.of_job(standing.job_id)
    latest = Prints(site.store.database).latest(standing.job_id)
    page = PrintPage(
        can_print=plan is not None,
        paper=(job.job.paper if job is not None else None)
        or ("a4" if job is not None and job.job.tape is Units.METRIC else "letter"),
        old=None if plan is None else old_paper(plan, latest),
        differs=() if plan is None else wall_differs(plan),
        check_code="" if plan is None else plan.check_code,
        working=tuple(each for each in made if each.state is State.WORKING),
        ready=tuple(each for each in made if each.state is State.READY),
        failed=tuple(each for each in made if each.state is State.FAILED),
        steps=len(STEPS) - 1,
        stops=plan is not None and any(not run.solved for run in plan.runs),
    )
    frame = Frame(
        title=say("page-print"),
        device=device,
        standing=standing,
        group=Group.PAPER,
        scripts=("print.js",),
        styles=("set.css",),
    )
    return render(request, "print.html", frame, page)


@router.post("/j/{j}/print")
def make(
    request: Request,
    standing: WriterPage,
    _: Writer,
    ready: Annotated[str, Form(max_length=10)] = "",
    kinds: Annotated[list[str], Form()] = [],  # noqa: B006 - FastAPI copies it
    paper: Annotated[str, Form(max_length=10)] = "",
) -> Response:
    """Begin a PDF of a ready packet, or of the pages picked."""
    if ready and ready not in PACKETS:
        raise HTTPException(422, say("print-no-such-packet"))
    wanted = PACKETS[ready] if ready else tuple(kind for kind in KINDS if kind in kinds)
    if not wanted:
        raise HTTPException(422, say("print-pick-pages"))
    if paper not in PAPERS:
        raise HTTPException(422, say("print-pick-paper"))
    if standing.plan is None:
        raise HTTPException(409, say("no-plan-yet"))
    _begin(site_of(request), standing, ready or "picked", wanted, paper)
    return RedirectResponse(f"/j/{standing.job_id}/print", status_code=303)


@router.get("/j/{j}/print/state")
def state(request: Request, standing: JobPage, _: Visitor) -> Response:
    """Say how far each PDF is, for the page's script."""
    made = site_of(request).maker.of_job(standing.job_id)
    return JSONResponse(
        {
            "ok": True,
            "made": [
                {"key": each.key, "state": each.state, "step": each.steps_done, "of": len(STEPS) - 1}
                for each in made
            ],
        }
    )


@router.get("/j/{j}/print/{key}.pdf")
def take(request: Request, standing: JobPage, _: Visitor, key: str) -> Response:
    """Give a PDF that is ready."""
    made = site_of(request).maker.find(standing.job_id, key[:64])
    if made is None or made.state is not State.READY:
        raise HTTPException(404, say("print-not-kept"))
    headers = {
        "content-disposition": f'attachment; filename="{made.file}"',
        "cache-control": "no-store",
    }
    return Response(made.pdf, media_type="application/pdf", headers=headers)


@router.post("/j/{j}/print/by-hand")
def by_hand(request: Request, standing: WriterPage, _: Writer) -> Response:
    """Keep that the last paper was put right by hand: it counts as printed with the plan's numbers."""
    if standing.plan is not None:
        prints = Prints(site_of(request).store.database)
        prints.put_right(standing.job_id, numbers_of(standing.plan))
    return RedirectResponse(f"/j/{standing.job_id}/print", status_code=303)


def _begin(site: Site, standing: Standing, name: str, kinds: tuple[str, ...], paper: str) -> Making:
    """Begin a PDF, with the letter that its numbers ask for."""
    plan, job, book = standing.plan, standing.job, standing.book
    assert plan is not None, "there is a plan to print"
    assert job is not None, "a planned job is whole"
    assert book is not None, "a planned job has rules"
    noted = Prints(site.store.database).note(
        standing.job_id,
        numbers_of(plan),
        first=job.job.revision,
        check_code=plan.check_code,
        at=datetime.now(UTC).isoformat(timespec="seconds"),
    )
    lettered = replace(plan, revision=noted.revision)

    def work(step: Callable[[str], None]) -> bytes:
        step("odds")
        doubts = standing.doubts
        step("pages")
        return packet(lettered, job, book, paper=paper, doubts=doubts, kinds=kinds)

    said = "\n".join((standing.job_id, plan.check_code, noted.revision, paper, *kinds))
    return site.maker.ask(
        Making(
            key=hashlib.sha256(said.encode()).hexdigest()[:16],
            job=standing.job_id,
            check_code=plan.check_code,
            title=say(
                "print-title",
                packet=_title(name, kinds),
                revision=noted.revision,
                paper=say(f"paper-{paper}"),
            ),
            file=f"{_plain(standing.name)}-{name}-rev-{noted.revision}.pdf",
        ),
        work,
        lambda: site.feed.tell(standing.job_id, standing.revision),
    )


def _title(name: str, kinds: tuple[str, ...]) -> str:
    """Return what a packet is called; one that was picked is called by its pages."""
    if name != "picked":
        return say(f"packet-{name}")
    return ", ".join(say(f"print-kind-{kind}") for kind in kinds)


def _plain(name: str) -> str:
    """Return a name as a file's name: ASCII letters, digits and hyphens."""
    return re.sub(r"[^A-Za-z0-9]+", "-", name).strip("-").lower()[:60] or "job"
