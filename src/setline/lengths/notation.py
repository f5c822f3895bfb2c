"""Every written form of a length, read on the crew's tape.

A text goes through four doors. Its signs are made of one kind and its words into digits (``dictated``);
where the hook was not at 0 (``109 held at 10``) or the tape's body made up the rest (``97 plus body 3``),
that is taken off or added; what the crew calls strong or shy likewise; the rest is cut into pieces, and their
shape must be one of the forms (``forms``). A text that could be two lengths, or lies between two lines of the
tape, is never guessed at: it comes back as a ``TapeNotationError`` with what it could be, each in a form that
is read.
"""

from __future__ import annotations

import re
from functools import lru_cache

from setline.errors import TapeNotationError
from setline.lengths.dictated import plain_digits
from setline.lengths.forms import Asked, ticks_of
from setline.lengths.grid import GREATEST, TICKS_PER_INCH, TICKS_PER_MM, Length, Tape
from setline.wording import say

__all__ = ["length_from_number", "read_length"]

_LONGEST_TEXT = 80
_MOST = f"{GREATEST // (1000 * TICKS_PER_MM)} m ({GREATEST // (12 * TICKS_PER_INCH)} ft)"


def read_length(text: str, tape: Tape) -> Length:
    """Return the length that a text means on this tape.

    Args:
        text: As typed or dictated: ``27 7/16``, ``9' 4 3/16``, ``874 mm``, ``27 1/2 strong``,
            ``forty-eight and three sixteenths`` ...
        tape: The tape it was read from; it decides what a bare number is, and what strong is worth.

    Returns:
        The exact length with the text as it was given.

    Raises:
        TapeNotationError: The text is no length, lies off the tape's grid, or could be several lengths;
            it carries what it could be.

    Example:
        >>> read_length("9' 4 3/16", Tape()) == read_length("112 3/16", Tape())
        True
    """
    if not isinstance(text, str) or len(text) > _LONGEST_TEXT:
        raise TapeNotationError(say("length-is-text", most=_LONGEST_TEXT), given=str(text)[:_LONGEST_TEXT])
    try:
        return Length(_ticks(text, tape), text)
    except Asked as asked:
        raise _refusal(asked, text, tape) from None


@lru_cache(maxsize=4096)  # a kitchen says 24 and 34 1/2 many times
def _ticks(text: str, tape: Tape) -> int:
    """Return the ticks of a text, or ask."""
    whole = plain_digits(text)
    plain, way, other = _without_hold(whole)
    body, strength = _without_strength(plain)
    try:
        ticks = ticks_of(body, tape) + strength * tape.strong
    except Asked as asked:  # whichever it is, what was said beside it still holds
        readings = (whole.replace(body, reading, 1) for reading in asked.readings)
        raise Asked(asked.key, *readings, **asked.facts) from None
    if way:
        ticks += way * ticks_of(other, tape)
    if ticks < 0:
        raise Asked("length-below-zero")
    if ticks > GREATEST:
        raise Asked("length-too-long", most=_MOST)
    return ticks


def length_from_number(value: object, tape: Tape) -> Length:
    """Return the length that a bare integer of a file means: whole inches, or whole millimetres.

    Raises:
        TapeNotationError: It is no integer (a float is refused with the string to write), or it would not
            be taken bare as a text either.
    """
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise TapeNotationError(say("length-is-text", most=_LONGEST_TEXT), given=str(value)[:_LONGEST_TEXT])
    if isinstance(value, float):
        texts = _as_texts(value, tape)
        raise _refusal(Asked("length-is-no-float" if texts else "length-unknown", *texts), repr(value), tape)
    if abs(value) > GREATEST:  # a huge integer has no text worth showing, and Python may refuse to make one
        sentence = say("length-too-long", given="This number", most=_MOST)
        raise TapeNotationError(sentence, given="a number of very many digits")
    return read_length(str(value), tape)


def _as_texts(value: float, tape: Tape) -> tuple[str, ...]:
    """Return the text to write in place of a float, or what that text could be."""
    text = f"{value:.6f}".rstrip("0").rstrip(".")
    try:
        read_length(text, tape)
    except TapeNotationError as refused:
        return refused.readings
    return (text,)


_HOLDS = (
    (re.compile(r"(.+?),? (?:held|burned|burnt) at (.+)"), -1),
    (re.compile(r"(.+?),?(?: plus| and)?(?: the)? body(?: of)? (.+)"), +1),
)


def _without_hold(plain: str) -> tuple[str, int, str]:
    """Return what the tape showed, and what is taken off (-1) or added (+1) for how it was held, if any."""
    for pattern, way in _HOLDS:
        if found := pattern.fullmatch(plain):
            return found[1], way, found[2]
    return plain, 0, ""


_STRENGTH = {"+": 1, "strong": 1, "heavy": 1, "full": 1, "-": -1, "shy": -1, "light": -1, "scant": -1}
_BEHIND = re.compile(r"(.*[^ +-]) ?(\+|-|strong|heavy|full|shy|light|scant)")
_BEFORE = re.compile(r"(?:a |just )?(strong|heavy|full|shy|light|scant) (?:of )?(.+)")


def _without_strength(plain: str) -> tuple[str, int]:
    """Return a text without the crew's strong (+1) or shy (-1), and which it was."""
    if found := _BEHIND.fullmatch(plain):
        return found[1], _STRENGTH[found[2]]
    if found := _BEFORE.fullmatch(plain):
        return found[2], _STRENGTH[found[1]]
    return plain, 0


def _refusal(asked: Asked, given: str, tape: Tape) -> TapeNotationError:
    """Return the refusal in words, with those of its readings that would be read as they stand."""
    readings = tuple(text for text in dict.fromkeys(asked.readings) if _is_read(text, tape))
    key = asked.key if readings or not asked.readings else "length-unknown"
    if key == "length-which" and len(readings) == 1:
        key = "length-two-numbers"
    sentence = say(key, given=given.strip() or say("length-empty"), readings=_either(readings), **asked.facts)
    return TapeNotationError(sentence, given=given, readings=readings)


def _either(readings: tuple[str, ...]) -> str:
    """Return ``a``, ``a or b``, ``a, b or c``."""
    *first, last = readings or ("",)
    return f"{', '.join(first)} or {last}" if first else last


def _is_read(text: str, tape: Tape) -> bool:
    """Tell whether a text is a length on this tape, without asking what else it could be."""
    try:
        _ticks(text, tape)
    except Asked:
        return False
    return True
