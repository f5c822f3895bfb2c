"""The room's outline: its walls with lengths and corners, windows and doors, and a picture of it."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Annotated

from fastapi import APIRouter, Form, HTTPException, Request
from fastapi.responses import RedirectResponse, Response
from markupsafe import Markup

from setline.drawings.outline_picture import outline_picture
from setline.drawings.shapes import Drawing
from setline.drawings.svg import to_svg
from setline.web.menu import Group
from setline.web.pages.walk import Act, LongText
from setline.web.planning import Standing
from setline.web.render import Frame, render
from setline.web.session import Device
from setline.web.site import JobPage, Visitor, Writer, WriterPage, site_of
from setline.web.walk.context import WalkContext
from setline.web.walk.room_forms import (
    MOST_WALLS,
    Values,
    Wrong,
    drop_wall,
    next_letter,
    opening_values,
    start_walls,
    take_out_opening,
    wall_values,
)
from setline.web.walk.spots import live_under
from setline.web.walk.walk_plan import walk_of
from setline.web.writing import keep, new_act
from setline.wording import say

__all__ = ["router"]

router = APIRouter()

Letter = Annotated[str, Form(pattern=r"^[A-Z]$")]
Kind = Annotated[str, Form(pattern=r"^(windows|doors)$")]


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningForm:
    """A window or door as its form shows it.

    Attributes:
        kind: ``windows`` or ``doors``.
        name: Its name.
        fields: Field -> what stands there, as typed.
    """

    kind: str
    name: str
    fields: dict[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class WallForm:
    """A wall as its forms show it.

    Attributes:
        name: Its letter.
        length: Its length at the line, as typed, or empty.
        corner: ``inside`` or ``outside``.
        openings: Its windows and doors.
    """

    name: str
    length: str
    corner: str
    openings: tuple[OpeningForm, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomPage:
    """The page.

    Attributes:
        act: The forms' act.
        walls: Every wall.
        is_closed: Whether the last wall ends where the first starts.
        next: Letter of the wall that could be added, or empty.
        picture: The outline, drawn.
        drawing: The same as data, for its list.
        open: The wall whose form is open.
        wrong: What was not taken.
        sent: The form that it was in, field by field.
    """

    act: str
    walls: tuple[WallForm, ...]
    is_closed: bool
    next: str
    picture: Markup | None
    drawing: Drawing | None
    open: str = ""
    wrong: Wrong | None = None
    sent: dict[str, str] = field(default_factory=dict)


@router.get("/j/{j}/room")
def room(request: Request, standing: JobPage, device: Visitor, wall: str = "") -> Response:
    """Show the room."""
    return _shown(request, standing, device, opened=wall[:1])


@router.post("/j/{j}/room/start")
def start(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Act,
    count: Annotated[int, Form(ge=1, le=MOST_WALLS)],
    closed: Annotated[str, Form(max_length=3)] = "",
) -> Response:
    """Name the first walls, or more of them."""
    context = walk_of(standing).context
    values = start_walls(context, count, is_closed=closed == "yes")
    return _kept(request, standing, device, values, act)


@router.post("/j/{j}/room/drop")
def drop(request: Request, standing: WriterPage, device: Writer, act: Act, wall: Letter) -> Response:
    """Take the last wall out again."""
    context = walk_of(standing).context
    return _kept(request, standing, device, drop_wall(context, wall), act, wall)


@router.post("/j/{j}/room/wall")
def change_wall(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Act,
    wall: Letter,
    length: LongText = "",
    choice: LongText = "",
    corner: Annotated[str, Form(max_length=10)] = "",
) -> Response:
    """Keep a wall's length and corner."""
    context = _with_wall(standing, wall)
    sent = {"form": "wall", "length": choice or length, "corner": corner}
    values = wall_values(context, wall, choice or length, corner)
    return _kept(request, standing, device, values, act, wall, sent)


@router.post("/j/{j}/room/opening")
def change_opening(
    request: Request,
    standing: WriterPage,
    device: Writer,
    act: Act,
    wall: Letter,
    kind: Kind,
    name: LongText = "",
    new: Annotated[str, Form(max_length=3)] = "",
    left: LongText = "",
    right: LongText = "",
    centre: LongText = "",
    casing_out: LongText = "",
) -> Response:
    """Keep a window or a door."""
    context = _with_wall(standing, wall)
    fields = {"left": left, "right": right, "centre": centre, "casing_out": casing_out}
    sent = {"form": f"{kind} {'' if new else name}", "name": name, **fields}
    values = opening_values(context, wall, kind, name, fields, is_new=new == "yes")
    return _kept(request, standing, device, values, act, wall, sent)


@router.post("/j/{j}/room/take-out")
def take_out(
    request: Request, standing: WriterPage, device: Writer, act: Act, wall: Letter, kind: Kind, name: LongText
) -> Response:
    """Take a window or door out again."""
    values = take_out_opening(_with_wall(standing, wall), wall, kind, name)
    return _kept(request, standing, device, values, act, wall)


def _with_wall(standing: Standing, wall: str) -> WalkContext:
    """Return what the walk goes by, if the room has that wall."""
    context = walk_of(standing).context
    if wall not in context.walls:
        raise HTTPException(404, say("no-such-page"))
    return context


def _kept(
    request: Request,
    standing: Standing,
    device: Device,
    values: Values | Wrong,
    act: str,
    wall: str = "",
    sent: dict[str, str] | None = None,
) -> Response:
    """Keep what a form wrote and show the room; or show what was not taken, with all that was typed."""
    if isinstance(values, Wrong):
        return _shown(request, standing, device, opened=wall, wrong=values, sent=sent)
    keep(site_of(request), standing, device, values, act=act)
    return RedirectResponse(f"/j/{standing.job_id}/room" + (f"?wall={wall}" if wall else ""), status_code=303)


def _shown(
    request: Request,
    standing: Standing,
    device: Device,
    *,
    opened: str = "",
    wrong: Wrong | None = None,
    sent: dict[str, str] | None = None,
) -> Response:
    """Return the page."""
    context = walk_of(standing).context
    drawing = None if standing.plan is None else outline_picture(standing.plan)
    page = RoomPage(
        act=new_act(),
        walls=tuple(_wall_form(context, wall) for wall in context.walls),
        is_closed=bool(context.section("room").get("closed")),
        next=next_letter(context) if 0 < len(context.walls) < MOST_WALLS else "",
        picture=None if drawing is None else Markup(to_svg(drawing, screen=True)),
        drawing=drawing,
        open=opened,
        wrong=wrong,
        sent=sent or {},
    )
    frame = Frame(
        title=say("page-room"), device=device, standing=standing, group=Group.READ, styles=("readings.css",)
    )
    return render(request, "room.html", frame, page, status=422 if wrong else 200)


def _wall_form(context: WalkContext, wall: str) -> WallForm:
    """Return a wall as its forms show it."""
    values = {steps: found[0].value for steps, found in live_under(context.live, "room", "walls", wall)}
    doors = sorted({steps[1] for steps in values if steps[0] == "doors" and len(steps) > 2})
    return WallForm(
        name=wall,
        length=str(values.get(("lengths", "wall", "line", "1"), "")),
        corner=str(values.get(("corner",), "inside")),
        openings=tuple(
            OpeningForm(
                kind=kind,
                name=name,
                fields={
                    steps[2]: str(value)
                    for steps, value in values.items()
                    if steps[:2] == (kind, name) and len(steps) == 3 and not isinstance(value, dict)
                },
            )
            for kind, names in (("windows", context.windows(wall)), ("doors", doors))
            for name in names
        ),
    )
