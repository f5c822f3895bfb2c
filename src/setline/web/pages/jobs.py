"""The jobs there are, and starting one."""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Annotated

from fastapi import APIRouter, File, Form, HTTPException, Request, UploadFile
from fastapi.responses import RedirectResponse, Response

from setline.errors import InputError
from setline.field_book.transfer import import_job
from setline.job.read import read_job
from setline.job.starter import starter
from setline.job.write import to_dict
from setline.lengths import Units
from setline.web.planning import Standing
from setline.web.render import Frame, render
from setline.web.session import Device, Role
from setline.web.site import Site, Visitor, Writer, site_of
from setline.web.writing import new_act
from setline.wording import say

__all__ = ["router", "start_job"]

router = APIRouter()

MOST_FILE = 2_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class JobsPage:
    """The list of jobs.

    Attributes:
        jobs: Every job, the newest last.
    """

    jobs: tuple[Standing, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NewPage:
    """The form for a new job.

    Attributes:
        act: The form's act.
        name: What was typed.
        tape: Which tape was chosen.
        strong: What the crew's strong is worth.
        sentence: What was wrong.
    """

    act: str
    name: str = ""
    tape: str = "inch"
    strong: str = "1/32"
    sentence: str = ""


@router.get("/")
def front() -> Response:
    """Lead to the jobs."""
    return RedirectResponse("/jobs", status_code=303)


@router.get("/jobs")
def jobs(request: Request, device: Visitor) -> Response:
    """Show every job; a guest sees the one of their link."""
    site = site_of(request)
    ids = (device.job,) if device.role is Role.GUEST and device.job else site.store.job_ids()
    page = JobsPage(jobs=tuple(site.planner.standing(job) for job in ids))
    return render(request, "jobs.html", Frame(title=say("page-jobs"), device=device), page)


@router.get("/jobs/new")
def new(request: Request, device: Writer) -> Response:
    """Show the form for a new job."""
    frame = Frame(title=say("page-new"), device=device)
    return render(request, "new.html", frame, NewPage(act=new_act()))


@router.post("/jobs/new")
def make(
    request: Request,
    device: Writer,
    act: Annotated[str, Form(pattern=r"^[0-9a-f]{20}$")],
    name: Annotated[str, Form()] = "",
    tape: Annotated[str, Form()] = "inch",
    strong: Annotated[str, Form()] = "1/32",
) -> Response:
    """Start a job from the form: an empty room that asks for its first readings."""
    page = NewPage(act=act, name=name[:200], tape=tape[:20], strong=strong[:20])
    sentence = ""
    if not 0 < len(name.strip()) <= 80:
        sentence = say("new-needs-name")
    elif tape not in set(Units):
        sentence = say("new-needs-tape")
    elif tape == "inch" and strong not in {"1/64", "1/32", "1/16"}:
        sentence = say("new-needs-strong")
    if sentence:
        frame = Frame(title=say("page-new"), device=device)
        told = NewPage(act=act, name=page.name, tape=page.tape, strong=page.strong, sentence=sentence)
        return render(request, "new.html", frame, told, status=422)
    document: dict[str, object] = {"format": 1, "job": {"name": name.strip(), "tape": tape}, "room": {}}
    if tape == "inch":
        document["job"] = {"name": name.strip(), "tape": tape, "strong": strong}
    job = start_job(site_of(request), device, document, act=act)
    return RedirectResponse(f"/j/{job}", status_code=303)


@router.post("/jobs/import")
def bring_in(
    request: Request,
    device: Writer,
    act: Annotated[str, Form(pattern=r"^[0-9a-f]{20}$")],
    file: Annotated[UploadFile, File()],
) -> Response:
    """Start a job from a job file; its comments are not kept, and the page says so."""
    content = file.file.read(MOST_FILE + 1)
    if len(content) > MOST_FILE:
        raise HTTPException(413, say("too-large"))
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as wrong:
        raise InputError(say("import-not-text")) from wrong
    is_json = (file.filename or "").lower().endswith(".json")
    document = to_dict(read_job(text, "json" if is_json else "toml"))
    job = start_job(site_of(request), device, document, act=act)
    return RedirectResponse(f"/j/{job}", status_code=303)


@router.post("/jobs/example")
def example(
    request: Request, device: Writer, act: Annotated[str, Form(pattern=r"^[0-9a-f]{20}$")]
) -> Response:
    """Start an example room to try things in."""
    document = to_dict(read_job(starter(say("example-job"), Units.INCH), "toml"))
    return RedirectResponse(f"/j/{start_job(site_of(request), device, document, act=act)}", status_code=303)


def start_job(site: Site, device: Device, document: dict[str, object], *, act: str) -> str:
    """Start a job from a document; the same act starts the same job.

    Returns:
        The job's id.
    """
    job = f"j{act[:12]}" if act else f"j{secrets.token_hex(6)}"
    now = datetime.now(UTC).isoformat(timespec="seconds")
    entries = import_job(document, device.id, job=job, act=act, by=device.name, at=now)
    if job not in site.store.job_ids():
        site.store.add(entries, made_at=now)
    return job
