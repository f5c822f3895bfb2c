"""What a place in the job is called, in the crew's words."""

from __future__ import annotations

from setline.field_book.places import steps_of
from setline.wording import say

__all__ = ["place_words", "places_words"]

MOST_NAMED = 3

_KINDS = {
    "boxes": "box",
    "fillers": "filler",
    "panels": "panel",
    "appliances": "opening",
    "existing": "thing",
}


def place_words(place: str) -> str:
    """Return a place in words.

    Example:
        >>> place_words("/order/boxes/3/width")
        'box 3: width'
        >>> place_words("/floor/set_ups/S1/readings/A/toe/48 1~14/1")
        'A 48 1/4 toe'
    """
    match steps_of(place):
        case ("order", kind, number, *field) if kind in _KINDS:
            return _with_field(say(f"place-{_KINDS[kind]}", number=number), field)
        case ("runs", run, field):
            return say("place-run", run=run, field=_plain(field))
        case ("floor", "set_ups", _, "readings", wall, line, u, *_):
            return say("place-floor", wall=wall, u=u, line=line)
        case ("room", "walls", wall, *field):
            return _with_field(say("place-wall", wall=wall), field)
        case ("walk", ("skipped" | "group" | "kept" | "laser" | "coverings" | "window") as what, *about):
            return say(f"place-walk-{what}", about=about[-1] if about else "")
        case ("record", kind, *name):
            return _with_field(_plain(kind), name[:1])
        case steps:
            return _with_field(_plain(steps[0]), list(steps[1:]))


def places_words(places: tuple[str, ...]) -> str:
    """Return several places in words, each once, the first few by name."""
    words = list(dict.fromkeys(map(place_words, places)))
    more = len(words) - MOST_NAMED
    said = ", ".join(words[:MOST_NAMED])
    return say("places-and-more", said=said, more=more) if more > 0 else said


def _with_field(thing: str, field: list[str]) -> str:
    """Return a thing with what of it is meant."""
    return f"{thing}: {_plain(' '.join(field[:2]))}" if field else thing


def _plain(step: str) -> str:
    """Return a step as words."""
    return step.replace("_", " ")
