"""The order as rows: what each thing is, its size, whether it is here, where it stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from setline.job.fields import NO_LIMIT
from setline.lengths import Tape
from setline.web.arranging.view import set_boxes
from setline.web.ordering.on_order import length_shown, runs_with, things
from setline.wording import say

__all__ = ["Row", "order_rows", "size_words", "span_words", "thing_words"]

Thing = Mapping[str, Any]

_SIZES: Mapping[str, tuple[str, ...]] = {
    "boxes": ("width", "height", "depth"),
    "panels": ("thickness",),
    "existing": ("left", "right"),
    "tops": ("thickness",),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A thing on order as one row.

    Attributes:
        listed: The list it belongs to.
        number: Its number.
        words: What it is.
        size: Its sizes.
        measured: Its width as measured, where it was.
        state: Whether a box is here; empty for anything else.
        stands: The runs it stands in; empty if in none.
        is_set: Whether it is a box that is set.
    """

    listed: str
    number: int
    words: str
    size: str
    measured: str = ""
    state: str = ""
    stands: str = ""
    is_set: bool = False


def order_rows(document: Thing, listed: str, tape: Tape) -> tuple[Row, ...]:
    """Return the rows of one list of the order."""
    stand = set_boxes(document)
    return tuple(
        Row(
            listed=listed,
            number=number,
            words=thing_words(listed, thing),
            size=size_words(listed, thing, tape),
            measured=length_shown(thing["measured"], tape) if thing.get("measured") else "",
            state=str(thing.get("delivery", "here")) if listed == "boxes" else "",
            stands=", ".join(runs_with(document, number)),
            is_set=listed == "boxes" and number in stand,
        )
        for number, thing in things(document, listed)
    )


def thing_words(listed: str, thing: Thing) -> str:
    """Return what a thing is.

    Example:
        >>> thing_words("boxes", {"kind": "base", "name": "sink"})
        'base, sink'
    """
    kind = str(thing.get("kind", "")) if listed in ("boxes", "appliances") else say(f"order-kind-{listed}")
    name = str(thing.get("name", ""))
    if listed == "appliances" and kind == "other" and name:
        return name
    return ", ".join(word for word in (kind, name) if word)


def size_words(listed: str, thing: Thing, tape: Tape) -> str:
    """Return a thing's sizes in one line."""
    keys = _SIZES.get(listed)
    if keys is None:
        return span_words(thing.get("width"), tape)
    shown = {key: "?" if thing.get(key) is None else length_shown(thing[key], tape) for key in keys}
    if listed == "existing":
        return say("order-size-existing", wall=thing.get("wall", "?"), **shown)
    return say(f"order-size-{listed}", **shown)


def span_words(span: object, tape: Tape) -> str:
    """Return a window of sizes: from its least to its most, and what is wished."""
    if not isinstance(span, Mapping) or span.get("least") is None:
        return "?"
    least = length_shown(span["least"], tape)
    most = span.get("most", NO_LIMIT)
    words = (
        say("order-span-least", least=least)
        if most in (NO_LIMIT, None)
        else say("order-span", least=least, most=length_shown(most, tape))
    )
    if span.get("wish") is None:
        return words
    return say("order-span-wish", span=words, wish=length_shown(span["wish"], tape))
