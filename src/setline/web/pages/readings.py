"""Every reading of the job: see it, correct it, read it again, take it back; and what asks."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby
from operator import attrgetter
from typing import Annotated, Any

from fastapi import APIRouter, Form, HTTPException, Request
from fastapi.responses import RedirectResponse, Response

from setline.errors import InputError
from setline.field_book.entry import Entry
from setline.field_book.fold import is_length
from setline.lengths import read_length
from setline.web.menu import Group
from setline.web.pages.walk import Act, LongText
from setline.web.planning import Standing
from setline.web.render import Frame, render
from setline.web.session import Device
from setline.web.site import JobPage, Visitor, Writer, WriterPage, site_of
from setline.web.walk.asks import Ask, asks_of
from setline.web.walk.keeping import Written, keep_written
from setline.web.walk.listing import Listed, reading_words, readings_of
from setline.web.walk.questions import between
from setline.web.walk.typed import Typed, read_typed
from setline.web.walk.walk_plan import Walk, walk_of
from setline.web.writing import new_act
from setline.wording import say

__all__ = ["router"]

router = APIRouter()

LongPlace = Annotated[str, Form(max_length=300)]


@dataclass(frozen=True, slots=True, kw_only=True)
class AskCard:
    """Something that asks, with the buttons that settle it.

    Attributes:
        ask: What asks.
        middle: The middle of two people's lengths, or empty.
        over: Ids of what stands there.
    """

    ask: Ask
    middle: str
    over: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingsPage:
    """The page.

    Attributes:
        act: The forms' act.
        sections: The readings shown, by section.
        walls: Letters to filter by.
        wall: The wall that is shown, or empty.
        only_asks: Whether only what asks is shown.
        asks: What asks.
        wrong: The place of a correction that was not taken.
        typed: What was typed there.
    """

    act: str
    sections: tuple[tuple[str, tuple[Listed, ...]], ...]
    walls: tuple[str, ...]
    wall: str
    only_asks: bool
    asks: tuple[AskCard, ...]
    wrong: str = ""
    typed: Typed | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HistoryPage:
    """What was ever kept at one place.

    Attributes:
        words: What the place is called.
        entries: Every entry, the first first, each with whether it counts.
    """

    words: str
    entries: tuple[tuple[Entry, bool], ...]


@router.get("/j/{j}/readings")
def readings(
    request: Request, standing: JobPage, device: Visitor, wall: str = "", show: str = ""
) -> Response:
    """Show the readings of a wall, or of all, or only what asks."""
    page = _page(standing, wall=wall[:1], only_asks=show == "asks")
    return _shown(request, standing, device, page)


@router.get("/j/{j}/readings/history")
def history(request: Request, standing: JobPage, device: Visitor, place: str = "") -> Response:
    """Show what was ever kept at a place: who, when, as typed."""
    found = site_of(request).store.history(standing.job_id, place[:300])
    if not found:
        raise HTTPException(404, say("readings-gone"))
    live = {entry.id for entry in walk_of(standing).context.live.get(place, ())}
    page = HistoryPage(
        words=reading_words(place), entries=tuple((entry, entry.id in live) for entry in found)
    )
    frame = Frame(
        title=page.words, device=device, standing=standing, group=Group.READ, styles=("readings.css",)
    )
    return render(request, "history.html", frame, page)


@router.post("/j/{j}/readings/correct")
def correct(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Act,
    place: LongPlace,
    text: LongText = "",
    choice: LongText = "",
    over: LongText = "",
) -> Response:
    """Put another value in the place of one; the one before stays in its history."""
    walked = walk_of(standing)
    found = walked.context.live.get(place, ())
    if not found or not (is_length(place) or _is_height(found[0].value)):
        raise HTTPException(404, say("readings-gone"))
    typed = read_typed(choice or text, walked.context.tape)
    if typed.ticks is None:
        page = _page(standing, wrong=place, typed=typed)
        return _shown(request, standing, device, page, status=422)
    stands = found[0].value
    value = {**stands, _way(stands): typed.text} if _is_height(stands) else typed.text
    written = Written(place, value, tuple(over.split()))
    keep_written(site_of(request), standing, device, [written], act=act)
    return _back(standing.job_id, place)


@router.post("/j/{j}/readings/take-back")
def take_back(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Act,
    place: LongPlace,
    over: LongText = "",
) -> Response:
    """Take a reading back: it stays in its history and counts no more."""
    keep_written(site_of(request), standing, device, [Written(place, None, tuple(over.split()))], act=act)
    return _back(standing.job_id, place)


@router.post("/j/{j}/readings/settle")
def settle(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Act,
    place: LongPlace,
    which: Annotated[str, Form(max_length=64)],
    over: LongText = "",
) -> Response:
    """Settle two people's values of one place by one of them, named by its entry, or by their middle."""
    walked = walk_of(standing)
    found = {entry.id: entry for entry in walked.context.live.get(place, ()) if not entry.taken_back}
    value = _middle(walked, tuple(found.values())) if which == "middle" else None
    if value is None and which in found:
        value = found[which].value
    if not value:
        raise HTTPException(409, say("readings-gone"))
    keep_written(site_of(request), standing, device, [Written(place, value, tuple(over.split()))], act=act)
    return RedirectResponse(f"/j/{standing.job_id}/readings?show=asks", status_code=303)


def _is_height(value: Any) -> bool:
    """Return whether a value is a height with its zero."""
    return isinstance(value, dict) and "from" in value


def _way(height: dict[str, object]) -> str:
    """Return which way a height goes from its zero."""
    return "up" if height.get("up") is not None else "down"


def _middle(walked: Walk, entries: tuple[Entry, ...]) -> str:
    """Return the middle of some lengths as text, or an empty one where they are none."""
    context = walked.context
    try:
        ticks = [read_length(str(entry.value), context.tape).ticks for entry in entries]
    except InputError:
        return ""
    return between(min(ticks), max(ticks), context.units) if ticks else ""


def _page(
    standing: Standing,
    *,
    wall: str = "",
    only_asks: bool = False,
    wrong: str = "",
    typed: Typed | None = None,
) -> ReadingsPage:
    """Return the page's data."""
    walked = walk_of(standing)
    asks = asks_of(walked)
    listed = readings_of(walked, {ask.place for ask in asks})
    shown = () if only_asks else tuple(each for each in listed if not wall or each.wall == wall)
    return ReadingsPage(
        act=new_act(),
        sections=tuple((section, tuple(found)) for section, found in groupby(shown, attrgetter("section"))),
        walls=tuple(walked.context.walls),
        wall=wall,
        only_asks=only_asks,
        asks=tuple(_card(walked, ask) for ask in asks if not wall or only_asks),
        wrong=wrong,
        typed=typed,
    )


def _card(walked: Walk, ask: Ask) -> AskCard:
    """Return what asks with the buttons that settle it."""
    middle = _middle(walked, ask.two) if ask.two and is_length(ask.place) else ""
    return AskCard(ask=ask, middle=middle, over=" ".join(entry.id for entry in ask.two))


def _shown(
    request: Request, standing: Standing, device: Device, page: ReadingsPage, *, status: int = 200
) -> Response:
    """Return the page."""
    frame = Frame(
        title=say("page-readings"),
        device=device,
        standing=standing,
        group=Group.READ,
        styles=("readings.css",),
    )
    return render(request, "readings.html", frame, page, status=status)


def _back(job: str, place: str) -> Response:
    """Lead back to the readings of the wall that a place is at."""
    steps = place.split("/")
    wall = next((step for step in steps if len(step) == 1 and step.isalpha() and step.isupper()), "")
    return RedirectResponse(f"/j/{job}/readings" + (f"?wall={wall}" if wall else ""), status_code=303)
