"""Taking back the last thing kept."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Annotated

from fastapi import APIRouter, Form, Request
from fastapi.responses import RedirectResponse, Response

from setline.field_book.place_words import place_words
from setline.field_book.undo import undo as take_back
from setline.web.render import Frame, render
from setline.web.site import Writer, WriterPage, site_of
from setline.web.writing import keep_entries, way_back
from setline.wording import say

__all__ = ["router"]

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class UndoPage:
    """The question whether to undo what somebody else has built on.

    Attributes:
        built: What stands over it by now: place, who, value.
        act: The act that would be undone.
        back: Where to go afterwards.
    """

    built: tuple[tuple[str, str, str], ...]
    act: str
    back: str


@router.post("/j/{j}/undo")
def undo(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Annotated[str, Form(max_length=120)] = "",
    back: Annotated[str, Form(max_length=300)] = "",
    anyhow: Annotated[str, Form(max_length=3)] = "",
) -> Response:
    """Take back the last act of this device; ask first where another device has built on it.

    Args:
        request: What was asked.
        standing: The job.
        device: Who asks.
        act: The act that the page offered to undo: pressed again, it undoes no second one.
        back: The page to go back to.
        anyhow: ``yes`` once the question was answered.
    """
    leads = way_back(standing, back)
    now = datetime.now(UTC).isoformat(timespec="seconds")
    found = take_back(
        standing.entries, device.id, by=device.name, at=now, only=act, over_others=anyhow == "yes"
    )
    if found is None:
        return RedirectResponse(f"{leads}?told=nothing-to-undo", status_code=303)
    if found.built_on and anyhow != "yes":
        built = tuple((place_words(entry.place), entry.by, str(entry.value)[:80]) for entry in found.built_on)
        page = UndoPage(built=built, act=found.name, back=leads)
        frame = Frame(title=say("page-undo"), device=device, standing=standing)
        return render(request, "undo.html", frame, page, status=409)
    keep_entries(site_of(request), standing, found.entries)
    return RedirectResponse(f"{leads}?told=took-back", status_code=303)
