"""What the room page's forms write: walls, corners, windows and doors as places with values."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from setline.field_book.places import pointer
from setline.web.walk.context import WalkContext, named_place
from setline.web.walk.spots import live_under
from setline.web.walk.typed import Typed, read_typed
from setline.wording import say

__all__ = [
    "MOST_WALLS",
    "Values",
    "Wrong",
    "drop_wall",
    "next_letter",
    "opening_values",
    "start_walls",
    "take_out_opening",
    "wall_values",
]

MOST_WALLS = 12
_LONGEST_NAME = 40
_EDGES = {"windows": ("left", "right", "centre"), "doors": ("left", "right", "casing_out")}
_CORNERS = ("inside", "outside")

Values = dict[str, Any]
"""Place -> value; None takes back what stands there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrong:
    """A field that was not taken.

    Attributes:
        field: Its name.
        sentence: Why, or what is asked.
        typed: What was typed there, with its choices.
    """

    field: str
    sentence: str
    typed: Typed | None = None


def next_letter(context: WalkContext) -> str:
    """Return the letter of the wall after the last one."""
    return chr(ord("A") + len(context.walls))


def start_walls(context: WalkContext, count: int, *, is_closed: bool) -> Values:
    """Return what names the first walls of a room, each with an inside corner until somebody says more."""
    letters = [chr(ord("A") + index) for index in range(len(context.walls), count)]
    values: Values = {pointer(("room", "walls", letter, "corner")): "inside" for letter in letters}
    return {**values, pointer(("room", "closed")): is_closed}


def drop_wall(context: WalkContext, wall: str) -> Values | Wrong:
    """Return what takes the last wall out again, unless runs or readings lie along it."""
    if wall != next(reversed(context.walls), ""):
        return Wrong(field="wall", sentence=say("room-wall-in-use", wall=wall))
    used = [run for run in context.runs if run.get("wall") == wall]
    along = [
        steps
        for start in (("floor", "set_ups"), ("room", "ceiling"))
        for steps, _ in live_under(context.live, *start)
        if wall in steps[1:3]
    ]
    if used or along:
        return Wrong(field="wall", sentence=say("room-wall-in-use", wall=wall))
    return {
        pointer(("room", "walls", wall, *steps)): None
        for steps, _ in live_under(context.live, "room", "walls", wall)
    }


def wall_values(context: WalkContext, wall: str, length: str, corner: str) -> Values | Wrong:
    """Return what a wall's own form writes: its length at the line, and its corner."""
    values: Values = {}
    if corner in _CORNERS:
        values[pointer(("room", "walls", wall, "corner"))] = corner
    place = pointer(("room", "walls", wall, "lengths", "wall", "line", "1"))
    stands = context.live.get(place, ())
    if not length.strip():
        return values
    if not stands or stands[0].taken_back or stands[0].value != length.strip():
        typed = read_typed(length, context.tape)
        if typed.ticks is None:
            return Wrong(field="length", sentence=typed.sentence, typed=typed)
        values[place] = typed.text
    return values


def opening_values(
    context: WalkContext, wall: str, kind: str, name: str, fields: dict[str, str], *, is_new: bool
) -> Values | Wrong:
    """Return what the form of a window or door writes.

    A window may be named first and read in the walk; a door has both its edges.
    """
    name = name.strip()
    taken = _names(context, wall, kind)
    if not 0 < len(name) <= _LONGEST_NAME or "\x00" in name or (is_new and name in taken):
        return Wrong(field="name", sentence=say("room-needs-name"))
    given = {edge: fields.get(edge, "").strip() for edge in _EDGES[kind]}
    is_blank = not any(given.values())
    if kind == "doors" and not (given["left"] and given["right"]):
        return Wrong(field="left", sentence=say("room-door-edges"))
    if kind == "windows" and not is_blank and not given["centre"] and not (given["left"] and given["right"]):
        return Wrong(field="centre", sentence=say("room-needs-edges"))
    values: Values = {named_place(wall, name): "named"} if kind == "windows" else {}
    for edge, text in given.items():
        place = pointer(("room", "walls", wall, kind, name, edge))
        if not text:
            values[place] = None
            continue
        typed = read_typed(text, context.tape)
        if typed.ticks is None:
            return Wrong(field=edge, sentence=typed.sentence, typed=typed)
        values[place] = typed.text
    return values


def take_out_opening(context: WalkContext, wall: str, kind: str, name: str) -> Values:
    """Return what takes a window or door out again."""
    start = ("room", "walls", wall, kind, name)
    values: Values = {pointer((*start, *steps)): None for steps, _ in live_under(context.live, *start)}
    if named_place(wall, name) in context.live:
        values[named_place(wall, name)] = None
    return values


def _names(context: WalkContext, wall: str, kind: str) -> set[str]:
    """Return the names of the windows or doors of a wall."""
    return (
        set(context.windows(wall))
        if kind == "windows"
        else {steps[0] for steps, _ in live_under(context.live, "room", "walls", wall, "doors")}
    )
