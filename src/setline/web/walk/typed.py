"""What a person typed or dictated into the walk: a length, a question about it, or a reason to skip.

The forms of a length are ``setline.lengths``'; here are the few words that mean something only in a walk, and
the buttons for a text that could be two things. Nothing is ever guessed.
"""

from __future__ import annotations

from dataclasses import dataclass

from setline.errors import TapeNotationError
from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Tape, Units, read_length, show, show_feet
from setline.wording import say

__all__ = ["SKIPS", "Choice", "Typed", "carried", "read_typed"]

_GREATEST_KEPT = 480
SKIPS = {
    "no": "can't reach",
    "skip": "later",
    "later": "later",
    "can't reach": "can't reach",
    "cannot reach": "can't reach",
    "cant reach": "can't reach",
    "not there": "not there",
}
"""Words that skip a reading, and the reason each gives."""
_SAME = "same"


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing that a text could be.

    Attributes:
        label: What its button says.
        text: The text it stands for.
    """

    label: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """What a text is.

    Attributes:
        text: The text to keep, where it is a length.
        ticks: Its value; None where it is no length yet.
        note: What stands beside it: another way to say it, such as total inches.
        sentence: What to ask or to say, where it is no length yet.
        choices: The buttons that answer.
        skip: Why it is skipped, where that was said.
    """

    text: str
    ticks: int | None = None
    note: str = ""
    sentence: str = ""
    choices: tuple[Choice, ...] = ()
    skip: str = ""


def read_typed(text: str, tape: Tape, *, kept: int | None = None, last: str = "") -> Typed:
    """Return what a text is.

    Args:
        text: As typed or dictated.
        tape: The crew's tape.
        kept: Whole inches (hundreds of millimetres) carried over from the last reading: a fraction alone is
            then asked about.
        last: The last reading of the same kind, for ``same``.
    """
    plain = " ".join(text.split()).casefold().replace("’", "'")
    if plain in SKIPS:
        return Typed(text=text, skip=SKIPS[plain])
    if plain == _SAME:
        if not last:
            return Typed(text=text, sentence=say("typed-same-as-nothing"))
        taken = _length(last, tape)
        return Typed(text=last, ticks=taken.ticks, note=say("typed-same"), sentence=taken.sentence)
    if kept is not None and tape.units == Units.INCH and _is_fraction(plain):
        choices = tuple(_choice(each, tape) for each in (f"{kept} {plain}", plain))
        return Typed(text=text, sentence=say("typed-fraction-alone", given=plain, kept=kept), choices=choices)
    return _length(text, tape)


def _length(text: str, tape: Tape) -> Typed:
    """Return a text as a length, or the question about it."""
    try:
        taken = read_length(text, tape)
    except TapeNotationError as asked:
        choices = tuple(_choice(each, tape) for each in asked.readings)
        return Typed(text=text, sentence=str(asked), choices=choices)
    return Typed(text=" ".join(text.split()), ticks=taken.ticks, note=_note(text, taken.ticks, tape.units))


def _choice(text: str, tape: Tape) -> Choice:
    """Return a button for a reading, with its value where the text does not show it."""
    ticks = read_length(text, tape).ticks
    note = _note(text, ticks, tape.units)
    return Choice(f"{text} = {note}" if note else text, text)


def _note(text: str, ticks: int, units: Units) -> str:
    """Return what a text comes to, where that is not the text itself."""
    shown, plain = show(ticks, units), " ".join(text.split()).rstrip('"')
    if plain.removesuffix(" in") != shown:
        return shown
    return show_feet(ticks) if plain.endswith(" in") else ""


def _is_fraction(plain: str) -> bool:
    """Return whether a text is a fraction alone, such as ``3/8``; strong and shy may follow it."""
    over, stroke, under = plain.partition("/")
    return bool(stroke) and over.strip().isdecimal() and under.split(" ")[0].rstrip("+-").isdecimal()


def carried(ticks: int | None, units: Units) -> int | None:
    """Return the whole inches (hundreds of millimetres) that are carried over from a reading."""
    if ticks is None:
        return None
    whole = ticks // (TICKS_PER_INCH if units == Units.INCH else 100 * TICKS_PER_MM)
    return whole if 0 < whole <= _GREATEST_KEPT else None
