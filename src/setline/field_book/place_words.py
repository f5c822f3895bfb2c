"""What a place is called among people: ``wall A, 48 from the left corner, toe line, down from S1``."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from setline.errors import InputError
from setline.field_book.places import CONTAINERS, KEYED, READINGS, Steps, shape_of, steps_of
from setline.wording import SENTENCES, say

__all__ = ["place_words", "places_words"]

MOST_NAMED = 3
_ASIDE = "walk"  # what is kept beside the job


def place_words(place: str) -> str:
    """Return what a place is called among people, whatever kind of place it is.

    Example:
        >>> place_words("/floor/set_ups/S1/readings/A/toe/48 1~14/1")
        'wall A, 48 1/4 from the left corner, toe line, down from S1'
        >>> place_words("/order/boxes/3/width")
        'box 3, width'
    """
    try:
        steps = steps_of(place)
    except InputError:
        return place
    if steps[0] == _ASIDE and len(steps) > 1:
        key = f"place-walk-{steps[1]}"
        return say(key, about=steps[-1]) if key in SENTENCES else _plain(steps[1])
    shape = shape_of(steps)
    if shape in READINGS or (shape in KEYED and shape not in CONTAINERS):
        return say("where-order", listed=_joined(steps[:-1], steps[-1]))
    for length in range(len(steps) - 1, 1, -1):
        words = _READINGS.get(shape_of(steps[:length]))
        spot = steps[length:]
        if words is not None and len(spot) == READINGS[shape_of(steps[:length])].depth:
            return words(steps[length - 2], spot) + _take(spot[-1])
    return _joined(steps[:-1], steps[-1])


def places_words(places: Iterable[str]) -> str:
    """Return several places as people say them, each once, the first few by name."""
    words = list(dict.fromkeys(map(place_words, places)))
    more = len(words) - MOST_NAMED
    said = "; ".join(words[:MOST_NAMED])
    return say("places-and-more", said=said, more=more) if more > 0 else said


def _joined(above: Steps, last: str) -> str:
    """Return the things a place lies in, outermost first, and then its own field."""
    words: list[str] = []
    for depth in range(1, len(above) + 1):
        shape = shape_of(above[:depth])
        if shape.endswith("*"):
            words.append(_thing(shape, above[depth - 1]))
        elif shape not in KEYED and shape not in _UNSAID:
            words.append(_plain(above[depth - 1]))
    shape = shape_of((*above, last))
    return ", ".join([*words, _thing(shape, last) if shape.endswith("*") else _plain(last)])


def _thing(shape: str, name: str) -> str:
    """Return a named thing with what it is: ``box 3``."""
    kind = shape.split("/")[-2]
    return say(f"where-thing-{kind}", name=name)


_UNSAID = frozenset({"room", "floor", "order", "record"})  # what lies in them says by itself where it is


def _plain(step: str) -> str:
    """Return a field in words: a few have words of their own, the others are words already."""
    key = f"where-field-{step}"
    return say(key) if key in SENTENCES else step.replace("_", " ")


# --- readings -------------------------------------------------------------------------------------------


def _floor(set_up: str, spot: Steps) -> str:
    """Return where a floor reading was taken."""
    wall, line, u = spot[:3]
    at, _, on = line.partition(", ")
    words = say("where-floor", wall=wall, u=u, line=_line(at), set_up=set_up)
    return f"{words}, {say(f'where-on-{on}')}" if on in ("bare", "covering") else words


def _line(at: str) -> str:
    """Return a line of floor readings in words."""
    return say(f"where-line-{at}") if at in ("wall", "toe") else say("where-out", out=at)


def _length(wall: str, spot: Steps) -> str:
    """Return where a length of a wall was read."""
    at, height = spot[:2]
    words = say("where-length", wall=wall, height=_height(height))
    return words if at == "wall" else f"{words}, {say('where-face')}"


def _plumb(wall: str, spot: Steps) -> str:
    """Return where a plumb offset was read."""
    end, line, height, out = spot[:4]
    words = say("where-plumb", wall=wall, end=end, line=line, height=_height(height))
    return words if out == "wall" else f"{words}, {say('where-out', out=out)}"


def _ceiling(_: str, spot: Steps) -> str:
    """Return where the ceiling was read."""
    set_up, wall, u, out = spot[:4]
    words = say("where-ceiling", wall=wall, u=u, set_up=set_up)
    return words if out == "wall" else f"{words}, {say('where-out', out=out)}"


def _height(step: str) -> str:
    """Return the height of a reading in words."""
    if step == "line":
        return say("where-at-line")
    way, _, rest = step.partition(" ")
    length, _, zero = rest.partition(" from ")
    zero = f"the {zero}" if zero.endswith("floor") else zero
    return say("where-height", length=length, way=way, zero=zero)


def _take(take: str) -> str:
    """Return which reading of a spot it is, from the second on."""
    return "" if take == "1" else f", {say('where-take', take=take)}"


_READINGS: Mapping[str, Callable[[str, Steps], str]] = {
    "floor/set_ups/*/readings": _floor,
    "room/walls/*/lengths": _length,
    "room/walls/*/plumb": _plumb,
    "room/ceiling": _ceiling,
}
