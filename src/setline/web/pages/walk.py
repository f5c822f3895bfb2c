"""The readings walk: one reading a screen, with the tape keys; or a card that says what comes and why."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from typing import Annotated, Any
from urllib.parse import quote

from fastapi import APIRouter, Form, HTTPException, Request
from fastapi.responses import JSONResponse, RedirectResponse, Response

from setline.web.menu import Group
from setline.web.planning import Standing
from setline.web.render import Frame, render
from setline.web.session import Device
from setline.web.site import JobPage, Visitor, Writer, WriterPage, site_of
from setline.web.walk.asks import Ask, asks_of
from setline.web.walk.context import WalkContext
from setline.web.walk.keeping import keep_written, of_reading, of_skip
from setline.web.walk.questions import Question, Way, neighbours, question_about
from setline.web.walk.rows import record_of
from setline.web.walk.spots import Kind, Spot, State, ticks_or_none
from setline.web.walk.typed import SKIPS, Typed, carried, read_typed
from setline.web.walk.walk_plan import Card, Walk, WalkPart, walk_of
from setline.web.writing import new_act
from setline.wording import say

__all__ = ["Act", "LongText", "page_of", "question_at", "router", "show_walk"]

router = APIRouter()

PAUSE = timedelta(minutes=30)
Act = Annotated[str, Form(pattern=r"^[0-9a-f]{20}$")]
LongText = Annotated[str, Form(max_length=400)]
_LASER = frozenset({Kind.FLOOR, Kind.CEILING, Kind.SILL, Kind.HEAD})
_WAYS: dict[str, Way] = {"keep": "keep", "other": "other", "first": "first", "both": "both"}
_SCRIPTS = ("keypad.js", "walk.js")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A spot in the table of its group.

    Attributes:
        spot: The spot.
        record: The same for the script.
        text: What was typed there and is not kept yet.
        sentence: What is asked about it.
    """

    spot: Spot
    record: dict[str, Any]
    text: str = ""
    sentence: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class WalkPage:
    """The walk's page.

    Attributes:
        act: The form's act.
        left: How many readings are still to be decided.
        spot: The reading that is asked, or None where a card stands.
        record: The same for the script.
        card: The card.
        rows: Every spot of the same group.
        others: What was read in other groups beside these, for the script.
        carried: Whole inches that are carried over, as text.
        units: Inch or metric.
        strong: What strong is worth. [ticks]
        jump: From this far off its neighbours a reading is asked about. [ticks]
        set_up: Where the laser stands.
        asks: What asks.
        was_long_ago: Whether the laser may have been moved since the last reading.
        kept: What was kept just now, as a sentence.
        typed: What was typed and is not kept yet.
        question: What is asked about it.
        form: A card's own form as it was sent, where something in it is asked about.
    """

    act: str
    left: int
    spot: Spot | None
    record: dict[str, Any] | None
    card: Card | None
    rows: tuple[Row, ...]
    others: tuple[dict[str, Any], ...]
    carried: str
    units: str
    strong: int
    jump: int
    set_up: str
    asks: tuple[Ask, ...]
    was_long_ago: bool
    kept: str = ""
    typed: Typed | None = None
    question: Question | None = None
    form: Mapping[str, str] = field(default_factory=dict)


@router.get("/j/{j}/walk")
def walk(
    request: Request,
    standing: JobPage,
    device: Visitor,
    at: str = "",
    again: str = "",
    kept: str = "",
    same: str = "",
) -> Response:
    """Show the next reading, or the one of the key ``at``; ``again`` reads it beside what stands there.

    Who may only look is led to the readings: a walk is for those who read.
    """
    if not device.may_write:
        return RedirectResponse(f"/j/{standing.job_id}/readings", status_code=303)
    walked = walk_of(standing)
    spot = walked.spot(at, again=again == "yes") if at else None
    if at and spot is None:
        raise HTTPException(404, say("no-such-page"))
    page = page_of(walked, spot, ask_laser=same != "yes" and not at)
    was = walked.by_key.get(kept)
    if was is not None and was.state is not State.OPEN:
        key = "walk-kept" if was.state is State.READ else "walk-skipped"
        page = replace(page, kept=say(key, spot=was.words, value=was.typed, why=was.skipped))
    return show_walk(request, standing, device, page)


@router.post("/j/{j}/walk")
def read(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Act,
    key: LongText,
    text: LongText = "",
    over: LongText = "",
    again: Annotated[str, Form(max_length=3)] = "",
    answer: LongText = "",
    choice: LongText = "",
    skip: Annotated[str, Form(max_length=20)] = "",
) -> Response:
    """Keep a reading, ask about it, or skip it.

    Args:
        request: What was asked.
        standing: The job.
        device: Who reads.
        act: The form's act.
        key: The spot's key.
        text: As typed.
        over: Ids that the page showed as standing there.
        again: ``yes`` for another take.
        answer: A question's answer: its way, a colon, the text.
        choice: One of the things the text could be, pressed in place of NEXT.
        skip: Why the spot is skipped.
    """
    walked = walk_of(standing)
    spot = walked.spot(key, again=again == "yes")
    if spot is None:
        raise HTTPException(404, say("no-such-page"))
    way, _, answered = answer.partition(":")
    if skip in SKIPS.values():
        return _skip(request, standing, device, walked, spot, skip, act)
    typed = _typed(walked, spot, choice or answered or text, ask_fraction=not choice and not answer)
    if typed.skip:
        return _skip(request, standing, device, walked, spot, typed.skip, act)
    if typed.ticks is None:
        empty = replace(typed, sentence=say("walk-nothing-typed")) if not typed.text.strip() else typed
        return show_walk(request, standing, device, replace(page_of(walked, spot), typed=empty), status=422)
    chosen = _WAYS.get(way, "again")
    question = None if chosen != "again" else question_at(walked, spot, typed.text, typed.ticks)
    if question is not None or way == "again":
        page = replace(page_of(walked, spot), typed=typed, question=question if way != "again" else None)
        return show_walk(request, standing, device, page, status=422)
    seen = tuple(over.split()) if over else ()
    written = of_reading(walked.context, spot, typed.text, chosen, seen)
    keep_written(site_of(request), standing, device, written, act=act)
    return _onwards(standing, spot.key)


@router.get("/j/{j}/walk/echo")
def echo(standing: JobPage, _: Visitor, key: str = "", text: str = "", again: str = "") -> Response:
    """Say what a text is, for the page's script: a length, a question with its buttons, or a skip."""
    walked = walk_of(standing)
    spot = walked.spot(key[:400], again=again == "yes")
    typed = (
        read_typed(text[:400], walked.context.tape)
        if spot is None
        else _typed(walked, spot, text[:400], ask_fraction=True)
    )
    return JSONResponse(
        {
            "ok": True,
            "text": typed.text,
            "ticks": typed.ticks,
            "note": typed.note,
            "sentence": typed.sentence,
            "skip": typed.skip,
            "choices": [{"label": each.label, "text": each.text} for each in typed.choices],
        }
    )


def _skip(
    request: Request, standing: Standing, device: Device, walked: Walk, spot: Spot, why: str, act: str
) -> Response:
    """Keep why a spot is skipped."""
    keep_written(site_of(request), standing, device, of_skip(walked.context, spot, why), act=act)
    return _onwards(standing, spot.key)


def _onwards(standing: Standing, key: str) -> Response:
    """Lead to the next reading, which says what was kept."""
    return RedirectResponse(f"/j/{standing.job_id}/walk?same=yes&kept={quote(key)}", status_code=303)


def _typed(walked: Walk, spot: Spot, text: str, *, ask_fraction: bool) -> Typed:
    """Return what a text is at a spot."""
    last = last_of_family(walked, spot)
    kept = carried(None if last is None else last.ticks, walked.context.units) if ask_fraction else None
    return read_typed(text, walked.context.tape, kept=kept, last="" if last is None else last.typed)


def last_of_family(walked: Walk, spot: Spot) -> Spot | None:
    """Return the reading of the same family just before a spot in the walk, else the last one read."""
    before: Spot | None = None
    for other in walked.part(spot.group).spots:
        if other.key == spot.key and before is not None:
            return before
        if other.family == spot.family and other.ticks is not None and other.key != spot.key:
            before = other
    return before


def question_at(walked: Walk, spot: Spot, text: str, ticks: int) -> Question | None:
    """Return what is odd about a reading at a spot, or None."""
    context = walked.context
    return question_about(
        spot,
        text,
        ticks,
        neighbours(spot, walked.by_key.values()),
        first=ticks_or_none(spot.first, context.tape) if spot.first else None,
        jump=context.book.length("reading-jump"),
        units=context.units,
    )


def page_of(walked: Walk, asked: Spot | None = None, *, ask_laser: bool = False) -> WalkPage:
    """Return the page for a spot, or for what comes next."""
    context = walked.context
    found = asked or walked.next()
    spot, card = (found, None) if isinstance(found, Spot) else (None, found)
    group = spot.group if spot is not None else None
    part = walked.part(group) if group is not None else None
    last = None if spot is None else last_of_family(walked, spot)
    kept = carried(None if last is None else last.ticks, context.units)
    return WalkPage(
        act=new_act(),
        left=walked.left,
        spot=spot,
        record=None if spot is None else record_of(spot, context),
        card=card,
        rows=_rows(part, spot, context),
        others=_others(walked, part),
        carried="" if kept is None else str(kept),
        units=context.units,
        strong=context.tape.strong,
        jump=context.book.length("reading-jump"),
        set_up=context.set_up,
        asks=asks_of(walked) if card is not None else (),
        was_long_ago=ask_laser and spot is not None and spot.kind in _LASER and _was_long_ago(context),
    )


def _rows(part: WalkPart | None, spot: Spot | None, context: WalkContext) -> tuple[Row, ...]:
    """Return the rows of a group: what is read and asked in the order of walking."""
    if part is None:
        return ()
    spots = list(part.spots)
    if spot is not None and spot.key not in {each.key for each in spots}:
        spots.insert(0, spot)
    return tuple(Row(spot=each, record=record_of(each, context)) for each in spots)


def _others(walked: Walk, part: WalkPart | None) -> tuple[dict[str, Any], ...]:
    """Return the readings of other groups that lie on the lines of one, such as a wall's first length."""
    lines = set() if part is None else {spot.line for spot in part.spots}
    return tuple(
        {"key": spot.key, "line": spot.line, "along": spot.along, "typed": spot.typed, "ticks": spot.ticks}
        for spot in walked.by_key.values()
        if part is not None and spot.group is not part.group and spot.line in lines and spot.ticks is not None
    )


def _was_long_ago(context: WalkContext) -> bool:
    """Return whether the last reading from this set-up is over half an hour old, by the clocks they had."""
    start = f"/floor/set_ups/{context.set_up}/"
    times = [entry.at for entry in context.standing.entries if entry.place.startswith(start) and entry.at]
    try:
        last = max(datetime.fromisoformat(at) for at in times)
        return datetime.now(UTC) - last > PAUSE
    except (ValueError, TypeError):
        return False


def show_walk(
    request: Request, standing: Standing, device: Device, page: WalkPage, *, status: int = 200
) -> Response:
    """Return the walk's page."""
    frame = Frame(
        title=say("page-walk"),
        device=device,
        standing=standing,
        group=Group.READ,
        scripts=_SCRIPTS,
        styles=("keypad.css",),
        look="walk" if page.spot is not None else "",
    )
    return render(request, "walk.html", frame, page, status=status)
