"""Deleting a job with its photos: asked twice, by the machine that runs Setline alone."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Depends, Form, HTTPException, Request
from fastapi.responses import RedirectResponse, Response

from setline.web.photo_places import JobPhotos
from setline.web.planning import Standing
from setline.web.render import Frame, render
from setline.web.session import Device, Role
from setline.web.site import Writer, WriterPage, site_of
from setline.wording import say

__all__ = ["router"]

router = APIRouter()


def host(device: Writer) -> Device:
    """Return who is asking, if it is the machine that runs Setline."""
    if device.role is not Role.HOST:
        raise HTTPException(403, say("host-only"))
    return device


Host = Annotated[Device, Depends(host)]


@dataclass(frozen=True, slots=True, kw_only=True)
class DeletePage:
    """The question whether to delete a job.

    Attributes:
        entries: How many entries it has.
        photos: How many photos.
        is_second: Whether it was asked once already.
    """

    entries: int
    photos: int
    is_second: bool


@router.get("/j/{j}/delete")
def ask(request: Request, standing: WriterPage, device: Host) -> Response:
    """Ask whether to delete a job."""
    return _ask(request, standing, device, is_second=False)


@router.post("/j/{j}/delete")
def delete(
    request: Request, standing: WriterPage, device: Host, sure: Annotated[str, Form(max_length=3)] = ""
) -> Response:
    """Ask once more; and, asked twice, delete the job."""
    if sure != "yes":
        return _ask(request, standing, device, is_second=True)
    site_of(request).store.delete_job(standing.job_id)
    return RedirectResponse("/jobs?told=job-is-deleted", status_code=303)


def _ask(request: Request, standing: Standing, device: Device, *, is_second: bool) -> Response:
    """Return the page with the question."""
    page = DeletePage(
        entries=standing.revision,
        photos=len(JobPhotos(site_of(request), standing.job_id).all),
        is_second=is_second,
    )
    frame = Frame(title=say("page-delete"), device=device, standing=standing)
    return render(request, "delete_job.html", frame, page)
