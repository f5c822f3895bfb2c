"""Every reading of a job as a list: what, as typed, who, when."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from setline.field_book.book_order import in_book_order
from setline.field_book.entry import Entry
from setline.field_book.place_words import place_words
from setline.field_book.places import steps_of
from setline.lengths import show
from setline.web.walk.floor import line_words
from setline.web.walk.groups import height_words
from setline.web.walk.spots import Spot, State, ticks_or_none
from setline.web.walk.walk_plan import Walk
from setline.wording import say

__all__ = ["Listed", "reading_words", "readings_of"]

_SECTIONS = ("room", "floor", "order")


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A reading in the list.

    Attributes:
        place: Where it is kept.
        section: ``room``, ``floor`` or ``order``.
        wall: Letter of its wall, or empty.
        words: What it is called.
        typed: As typed.
        value: What it comes to, where that is not what was typed; else empty.
        by: Who read it.
        at: When, as that device's clock said.
        over: Ids of what stands there.
        key: Key of its spot in the walk, or empty.
        asks: Whether something about it asks.
    """

    place: str
    section: str
    wall: str
    words: str
    typed: str
    value: str
    by: str
    at: str
    over: str
    key: str
    asks: bool


def readings_of(walk: Walk, asking: Collection[str]) -> tuple[Listed, ...]:
    """Return every reading of a job: by section, wall and place.

    Args:
        walk: The job's walk.
        asking: Places about which something asks.
    """
    spots = {spot.place: spot for spot in walk.by_key.values() if spot.state is State.READ}
    listed = (
        _listed(walk, place, found, spots.get(place), place in asking)
        for place, found in walk.context.live.items()
        if not found[0].taken_back and _is_reading(place)
    )
    return tuple(sorted(listed, key=_in_order))


def _is_reading(place: str) -> bool:
    """Return whether a place holds something that was read with a tape."""
    match steps_of(place):
        case ("floor", "set_ups", _, "readings", _, _, *_) | (
            "floor",
            "set_ups",
            _,
            "marks",
            _,
            ("up" | "down"),
        ):
            return True
        case ("room", "walls", _, ("lengths" | "plumb"), _, _, *_):
            return True
        case ("room", "walls", _, ("windows" | "doors"), _, field):
            return field in {"left", "right", "centre", "sill", "head", "casing_out"}
        case ("room", "ceiling", _, _, _, _, *_):
            return True
        case ("order", "boxes", _, "measured"):
            return True
    return False


def _listed(walk: Walk, place: str, found: tuple[Entry, ...], spot: Spot | None, asks: bool) -> Listed:
    """Return one reading of the list."""
    entry = found[0]
    value = entry.value
    typed = str(value.get("up") or value.get("down") or "") if isinstance(value, dict) else str(value)
    ticks = ticks_or_none(typed, walk.context.tape)
    shown = "" if ticks is None else show(ticks, walk.context.units)
    return Listed(
        place=place,
        section=steps_of(place)[0],
        wall=_wall(place),
        words=reading_words(place),
        typed=typed,
        value="" if shown == typed else shown,
        by=entry.by,
        at=entry.at,
        over=" ".join(each.id for each in found),
        key="" if spot is None else spot.key,
        asks=asks,
    )


def reading_words(place: str) -> str:
    """Return what a reading is called."""
    match steps_of(place):
        case ("floor", "set_ups", set_up, "readings", wall, line, u, *take):
            words = say("readings-floor", wall=wall, u=u, line=line_words(line), set_up=set_up)
            return _with_take(words, take)
        case ("floor", "set_ups", set_up, "marks", name, _):
            return say("readings-mark", mark=name, set_up=set_up)
        case ("room", "walls", wall, "lengths", at, height, *take):
            where = say("walk-length-faces") if at == "face" else height_words(height)
            return _with_take(say("walk-length-words", wall=wall, where=where), take)
        case ("room", "walls", wall, "plumb", end, _, height, out, *take):
            words = say("walk-plumb-words", wall=wall, end=_end(end), where=height_words(height))
            at = "" if out == "wall" else f", {say('walk-line-out', out=out)}"
            return _with_take(words + at, take)
        case ("room", "walls", wall, ("windows" | "doors") as kind, name, edge):
            key = "walk-edge-words" if kind == "windows" else "readings-door"
            return say(key, wall=wall, window=name, edge=_edge(edge))
        case ("room", "ceiling", set_up, wall, u, out, *take):
            at = line_words(out)
            return _with_take(say("readings-ceiling", wall=wall, u=u, at=at, set_up=set_up), take)
        case ("order", "boxes", number, _):
            return say("readings-box", number=number)
    return place_words(place)


def _with_take(words: str, take: list[str]) -> str:
    """Return the words of a reading, and which take it is where it is not the first."""
    return words if not take or take[0] == "1" else f"{words}, {say('readings-take', take=take[0])}"


def _end(end: str) -> str:
    """Return an end of a wall in words."""
    return say(f"walk-end-{end}") if end in ("left", "right") else end


def _edge(edge: str) -> str:
    """Return an edge of a window or door in words."""
    return say(f"walk-edge-{edge}") if edge != "casing_out" else say("room-casing")


def _wall(place: str) -> str:
    """Return the letter of the wall that a place is at, or an empty text."""
    match steps_of(place):
        case ("floor", "set_ups", _, "readings", wall, *_) | ("room", "walls", wall, *_):
            return wall
        case ("room", "ceiling", _, wall, *_):
            return wall
    return ""


def _in_order(listed: Listed) -> tuple[object, ...]:
    """Return the key that readings are listed by."""
    section = _SECTIONS.index(listed.section) if listed.section in _SECTIONS else len(_SECTIONS)
    return section, in_book_order(listed.wall), tuple(_step_order(listed.place))


def _step_order(place: str) -> Iterator[object]:
    """Yield the steps of a place as they are sorted."""
    for step in steps_of(place):
        yield in_book_order(step)
