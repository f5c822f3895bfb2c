"""Setting one box: one step a screen, each with its address on the page, and what was read once it stands.

All steps are one page, so that a phone that has it can go through them without signal. Which one shows is
said by the address's last part (``#shim``).
"""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Form, HTTPException, Query, Request
from fastapi.responses import RedirectResponse, Response

from setline.field_book.places import pointer
from setline.job.job import tape_of
from setline.lengths import show
from setline.result import Change
from setline.stages.changes import ChangeKind
from setline.stages.recording import take_out
from setline.web.as_set import Asked, answer_changes, questions
from setline.web.box_page import AsSetError, box_page, changed_by
from setline.web.menu import Group
from setline.web.planning import Standing
from setline.web.recorded import keep_changes
from setline.web.render import Frame, render
from setline.web.session import Device
from setline.web.set_order import BoxState, ListedBox, begun_place, set_order
from setline.web.site import JobPage, Visitor, Writer, WriterPage, site_of
from setline.web.walk.typed import Typed, read_typed
from setline.wording import say

__all__ = ["router"]

router = APIRouter()

CHECKS = ("top", "plumb", "flush", "twist")
REASONS = ("trouble", "moved", "wrong-box")

Act = Annotated[str, Form(pattern=r"^[0-9a-f]{20}$")]
Short = Annotated[str, Form(max_length=60)]


@router.get("/j/{j}/set/{b}")
def set_box_page(
    request: Request,
    standing: JobPage,
    device: Visitor,
    b: int,
    screws: Annotated[str, Query(max_length=5)] = "",
) -> Response:
    """Show one box, step by step; ``screws`` is ``later`` where it is set before they are in."""
    return _show(request, standing, device, _box(standing, b), screws_later=screws == "later")


@router.post("/j/{j}/set/{b}/begin")
def begin(
    request: Request,
    standing: WriterPage,
    device: Writer,
    b: int,
    act: Act,
    width: Short = "",
    here: Annotated[str, Form(max_length=3)] = "",
) -> Response:
    """Begin a box: others see who is at it; its real width is kept, if it was measured now."""
    box = _box(standing, b)
    written: list[Change] = []
    if width.strip():
        taken = _read(standing, width)
        if taken.ticks is None:
            wrong = AsSetError(key="fetch", typed=width, sentence=taken.sentence, choices=taken.choices)
            return _show(request, standing, device, box, wrong=wrong)
        written.append(Change(place=("order", "boxes", str(b), "measured"), value=taken.text))
    if here == "yes" and box.order.delivery != "here":
        written.append(Change(place=("order", "boxes", str(b), "delivery"), value="here"))
    keep_changes(site_of(request), standing, device, written, act=act, beside={begun_place(b): "begun"})
    return RedirectResponse(f"/j/{standing.job_id}/set/{b}#prepare", status_code=303)


@router.post("/j/{j}/set/{b}/true")
def true(
    standing: WriterPage,
    _: Writer,
    b: int,
    top: Annotated[str, Form(max_length=3)] = "",
    plumb: Annotated[str, Form(max_length=3)] = "",
    flush: Annotated[str, Form(max_length=3)] = "",
    twist: Annotated[str, Form(max_length=3)] = "",
) -> Response:
    """Go on if a box is true; else to what to do about the first check that it failed."""
    answers = {"top": top, "plumb": plumb, "flush": flush, "twist": twist}
    failed = next((check for check in CHECKS if answers[check] == "no"), None)
    where = "screw" if failed is None else f"no-{failed}"
    return RedirectResponse(f"/j/{standing.job_id}/set/{b}#{where}", status_code=303)


@router.post("/j/{j}/set/{b}/as-set")
def as_set(
    request: Request,
    standing: WriterPage,
    device: Writer,
    b: int,
    act: Act,
    key: Annotated[str, Form(max_length=20)],
    answer: Annotated[str, Form(max_length=10)] = "typed",
    text: Short = "",
    sure: Annotated[str, Form(max_length=3)] = "",
    screwed: Annotated[str, Form(max_length=3)] = "",
    seen: Annotated[int, Form(ge=0)] = 0,
) -> Response:
    """Keep one answer about a box that stands, and lead to the next question or to what it changed."""
    box = _box(standing, b)
    asked = questions(standing, box)
    at = next((place for place, each in enumerate(asked) if each.key == key), None)
    if (
        at is None
        or answer not in {"mark", "typed", "not-read"}
        or (answer == "mark" and not asked[at].on_mark)
    ):
        raise HTTPException(422, say("form-fields", fields="key, answer"))
    if answer == "typed":
        taken = _read(standing, text)
        wrong = _wrong(standing, asked[at], text, taken, is_sure=sure == "yes")
        if wrong is not None:
            return _show(request, standing, device, box, wrong=wrong, screws_later=screwed == "no")
        text = taken.text
    written = answer_changes(standing, box, asked[at], answer, text, screwed=screwed == "yes")
    keep_changes(
        site_of(request),
        standing,
        device,
        written,
        act=act,
        beside={begun_place(b): "begun"},
        seen=seen or None,
    )
    if at + 1 < len(asked):
        later = "?screws=later" if screwed == "no" else ""
        return RedirectResponse(f"/j/{standing.job_id}/set/{b}{later}#{asked[at + 1].key}", status_code=303)
    return RedirectResponse(f"/j/{standing.job_id}/set/{b}/done", status_code=303)


@router.get("/j/{j}/set/{b}/done")
def done(request: Request, standing: JobPage, _: Visitor, b: int) -> Response:
    """Lead to what a box changed, or on to the next box where it changed nothing but itself."""
    box = _box(standing, b)
    rows = changed_by(site_of(request), standing, b)
    if box.state is BoxState.SET and any(row.kind is not ChangeKind.SET for row in rows):
        return RedirectResponse(f"/j/{standing.job_id}/changes/{standing.revision}", status_code=303)
    return RedirectResponse(f"/j/{standing.job_id}/set/{b}#on", status_code=303)


@router.post("/j/{j}/set/{b}/screwed")
def screwed(request: Request, standing: WriterPage, device: Writer, b: int, act: Act) -> Response:
    """Keep that the screws of a box that stands are in."""
    if _box(standing, b).state is not BoxState.SET:
        raise HTTPException(409, say("on-not-yet"))
    change = Change(place=("record", "set", str(b), "screwed"), value=True)
    keep_changes(site_of(request), standing, device, (change,), act=act)
    return RedirectResponse(f"/j/{standing.job_id}/set/{b}#on", status_code=303)


@router.post("/j/{j}/set/{b}/out")
def out(
    request: Request,
    standing: WriterPage,
    device: Writer,
    b: int,
    act: Act,
    why: Annotated[str, Form(max_length=20)] = "",
) -> Response:
    """Take a box out again: all that was recorded of it is taken back, and why is kept beside the job."""
    if why not in REASONS:
        raise HTTPException(422, say("out-why-needed"))
    _box(standing, b)
    beside = {begun_place(b): None, pointer(("walk", "out", str(b))): say(f"out-{why}")}
    keep_changes(site_of(request), standing, device, take_out(b), act=act, beside=beside)
    return RedirectResponse(f"/j/{standing.job_id}/set?told=box-came-out", status_code=303)


def _box(standing: Standing, number: int) -> ListedBox:
    """Return a box of the list, or refuse one that stands in no run."""
    found = next((box for box in set_order(standing) if box.number == number), None)
    if found is None:
        raise HTTPException(404, say("box-in-no-run", number=number))
    return found


def _read(standing: Standing, text: str) -> Typed:
    """Return what was typed."""
    assert standing.job is not None, "a box in a run has a job"
    if not text.strip():
        return Typed(text="", sentence=say("walk-nothing-typed"))
    taken = read_typed(text, tape_of(standing.job))
    return Typed(text=text, sentence=say("walk-nothing-typed")) if taken.skip else taken


def _wrong(standing: Standing, asked: Asked, text: str, taken: Typed, *, is_sure: bool) -> AsSetError | None:
    """Return what to ask about an answer that was typed, or None if it is kept."""
    if taken.ticks is None:
        return AsSetError(key=asked.key, typed=text, sentence=taken.sentence, choices=taken.choices)
    assert standing.book is not None, "a box in a run has a job"
    assert standing.job is not None, "a box in a run has a job"
    if asked.planned_ticks is None or is_sure:
        return None
    off = taken.ticks - asked.planned_ticks
    if abs(off) <= standing.book.length("as-set-asks"):
        return None
    units = standing.job.job.tape
    sentence = say(
        "as-set-far", given=show(taken.ticks, units), by=show(abs(off), units), planned=asked.planned
    )
    return AsSetError(key=asked.key, typed=taken.text, sentence=sentence, may_stand=True)


def _show(
    request: Request,
    standing: Standing,
    device: Device,
    box: ListedBox,
    *,
    wrong: AsSetError | None = None,
    screws_later: bool = False,
) -> Response:
    """Return the page of a box."""
    frame = Frame(
        title=say("box-title", number=box.number),
        device=device,
        standing=standing,
        group=Group.SET,
        scripts=("set.js",),
        styles=("keypad.css", "set.css"),
        look="setting",
    )
    page = box_page(site_of(request), standing, device, box, wrong, screws_later=screws_later)
    return render(request, "set_box.html", frame, page, status=200 if wrong is None else 422)
