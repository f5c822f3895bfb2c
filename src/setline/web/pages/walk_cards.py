"""What stands between readings: beginning or leaving a group, a moved laser, floor to come, a whole table."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Form, HTTPException, Request
from fastapi.responses import RedirectResponse, Response
from starlette.datastructures import FormData

from setline.errors import InputError
from setline.field_book.places import pointer
from setline.web.pages.walk import Act, LongText, page_of, question_at, show_walk
from setline.web.site import Writer, WriterPage, site_of
from setline.web.walk.context import ENOUGH, EVERY, STARTED, group_place, kept_place, laser_place
from setline.web.walk.keeping import Written, keep_written, of_reading, of_skip
from setline.web.walk.spots import WalkGroup
from setline.web.walk.typed import read_typed
from setline.web.walk.walk_plan import COVERINGS_SAID, Walk, walk_of
from setline.web.writing import keep
from setline.wording import say

__all__ = ["router"]

router = APIRouter()

_WHEN = ("laid", "before boxes", "after boxes")
_REACHES = ("wall", "toe")
_LONGEST_NAME = 60


@router.post("/j/{j}/walk/group")
def group(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Act,
    which: Annotated[str, Form(max_length=20)],
    said: Annotated[str, Form(max_length=20)],
) -> Response:
    """Begin a group, want all of it, or leave it at what was read."""
    if which not in set(WalkGroup) or said not in (STARTED, EVERY, ENOUGH):
        raise HTTPException(422, say("form-fields", fields="which, said"))
    keep(site_of(request), standing, device, {group_place(which): said}, act=act)
    return _back(standing.job_id)


@router.post("/j/{j}/walk/moved")
def moved(request: Request, standing: WriterPage, device: Writer, act: Act) -> Response:
    """Start a new set-up: the laser was moved."""
    context = walk_of(standing).context
    numbers = [
        int(found[1])
        for name in (*context.set_ups, context.set_up)
        if (found := re.fullmatch(r"S(\d{1,4})", name))
    ]
    if context.set_up in context.set_ups:
        name = f"S{max(numbers, default=0) + 1}"
        keep(site_of(request), standing, device, {laser_place(): name}, act=act)
    return _back(standing.job_id)


@router.post("/j/{j}/walk/let-stand")
def let_stand(
    request: Request, standing: WriterPage, device: Writer, act: Act, place: LongText, typed: LongText
) -> Response:
    """Let an odd reading stand as it is: somebody looked at it."""
    keep(site_of(request), standing, device, {kept_place(place): typed}, act=act)
    return RedirectResponse(f"/j/{standing.job_id}/readings?show=asks", status_code=303)


@router.post("/j/{j}/walk/covering")
def covering(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Act,
    comes: Annotated[str, Form(max_length=20)] = "",
    name: LongText = "",
    thickness: LongText = "",
    when: Annotated[str, Form(max_length=20)] = "after boxes",
    reaches: Annotated[str, Form(max_length=20)] = "wall",
) -> Response:
    """Keep what floor is to come, or that nothing is, or that nobody knows."""
    walked = walk_of(standing)
    site = site_of(request)
    if comes in ("nothing", "unknown"):
        keep(site, standing, device, {COVERINGS_SAID: comes}, act=act)
        return _back(standing.job_id)
    form = {"comes": comes, "name": name, "thickness": thickness, "when": when, "reaches": reaches}
    typed = read_typed(thickness, walked.context.tape)
    if not name.strip() or typed.ticks is None or when not in _WHEN or reaches not in _REACHES:
        sentence = typed.sentence if name.strip() and thickness.strip() else say("walk-covering-needs")
        page = replace(page_of(walked), typed=replace(typed, sentence=sentence), form=form)
        if page.card is None or page.card.kind != "coverings":  # the walk went on
            raise InputError(sentence)
        return show_walk(request, standing, device, page, status=422)
    start = ("floor", "coverings", name.strip()[:_LONGEST_NAME])
    values: dict[str, Any] = {
        pointer((*start, "thickness")): typed.text,
        pointer((*start, "when")): when,
        pointer((*start, "reaches")): reaches,
    }
    keep(site, standing, device, values, act=act)
    return _back(standing.job_id)


async def sent_form(request: Request) -> FormData:
    """Return the form that was sent, whatever its fields are called."""
    return await request.form()


SentForm = Annotated[FormData, Depends(sent_form)]


@router.post("/j/{j}/walk/table")
def table(request: Request, standing: WriterPage, device: Writer, form: SentForm) -> Response:
    """Keep every line of a table that was typed; what asks comes back with what was typed there."""
    act = str(form.get("act", ""))
    if not re.fullmatch(r"[0-9a-f]{20}", act):
        raise InputError(say("form-fields", fields="act"))
    lines = {
        key.removeprefix("text "): str(value) for key, value in form.multi_items() if key.startswith("text ")
    }
    overs = {
        key.removeprefix("over "): str(value) for key, value in form.multi_items() if key.startswith("over ")
    }
    walked = walk_of(standing)
    written, asked = _written(walked, lines, overs)
    new = keep_written(site_of(request), standing, device, written, act=act)
    if not asked:
        return _back(standing.job_id)
    page = page_of(walk_of(site_of(request).planner.standing(standing.job_id)))
    rows = tuple(
        replace(row, text=lines[row.spot.key], sentence=asked[row.spot.key]) if row.spot.key in asked else row
        for row in page.rows
    )
    told = " ".join((say("walk-table-kept", count=new), say("walk-table-asks")))
    return show_walk(request, standing, device, replace(page, rows=rows, kept=told), status=422)


def _written(
    walked: Walk, lines: dict[str, str], overs: dict[str, str]
) -> tuple[list[Written], dict[str, str]]:
    """Return what a table's lines write, and key -> sentence for those that ask."""
    written: list[Written] = []
    asked: dict[str, str] = {}
    for key, text in lines.items():
        spot = walked.spot(key)
        if spot is None or not text.strip() or text.strip() == spot.typed:
            continue
        typed = read_typed(text[:400], walked.context.tape)
        if typed.skip:
            written += of_skip(walked.context, spot, typed.skip)
        elif typed.ticks is None:
            asked[key] = " ".join((typed.sentence, *(each.label for each in typed.choices)))
        elif (question := question_at(walked, spot, typed.text, typed.ticks)) is not None:
            asked[key] = question.sentence
        else:
            over = tuple(overs.get(key, "").split())
            written += of_reading(walked.context, spot, typed.text, "keep", over)
    return written, asked


def _back(job: str) -> Response:
    """Lead back to the walk."""
    return RedirectResponse(f"/j/{job}/walk?same=yes", status_code=303)
