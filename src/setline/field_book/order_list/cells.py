"""One written field read: a length, a choice, yes or no. What is not read comes back as a sentence.

Nothing is guessed. What a spreadsheet makes of a fraction (a date), a formula, and numbers that look more
like the code of a box than its size are told for what they are.
"""

from __future__ import annotations

import re

from setline.errors import TapeNotationError
from setline.field_book.order_list.fields import Field, Form
from setline.job.fields import NO_LIMIT
from setline.lengths import Tape, Units, read_length
from setline.wording import say

__all__ = ["LONGEST_CELL", "NotRead", "is_number", "looks_like_date", "read_cell", "whole"]

LONGEST_CELL = 400
LONGEST_NAME = 80
GREATEST_NUMBER = 9999

_MONTH = "(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*"
_DATES = tuple(
    re.compile(pattern, re.IGNORECASE)
    for pattern in (
        r"[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}(?:[ T].*)?",
        rf"[0-9]{{1,2}}[-. /]*{_MONTH}[-. /]*[0-9]{{0,4}}",
        rf"{_MONTH}[-. /]*[0-9]{{1,4}}",
        r"[0-9]{1,2}[/.][0-9]{1,2}[/.][0-9]{2,4}",
        r"[0-9]{1,3}:[0-9]{2}(?::[0-9]{2})?(?: ?[ap]m)?",
    )
)
_FAULT_OF_SHEET = re.compile(r"#(?:#+|[A-Z/0]+[!?]?)")
_BARE = re.compile(r"[0-9]+")
_NUMBER = re.compile(r"[0-9]+(?:[.,][0-9]+)?|(?:[0-9]+[ -])?[0-9]+/[0-9]+")
_YES = frozenset({"yes", "y", "x", "true", "1", "✓", "✔"})
_NO = frozenset({"no", "n", "false", "0", "none", "-"})
_ENDS = {
    "left": ["left"],
    "l": ["left"],
    "right": ["right"],
    "r": ["right"],
    "both": ["left", "right"],
    "left right": ["left", "right"],
    "left and right": ["left", "right"],
    "none": [],
    "no": [],
}
# What a bare number may be before it looks like a code: inches, millimetres.
_MOST_BARE = {"width": (60, 1500), "depth": (40, 1000), "measured": (60, 1500)}
_MOST_OTHER = (120, 3000)
_LEAST_BARE = {"width": (3, 100), "height": (3, 100), "depth": (3, 100), "measured": (3, 100)}
_MOST_INCHES = 480  # over this even with its unit it is likelier millimetres


class NotRead(Exception):
    """A text that a field does not take: the sentence says what it may be."""


def read_cell(field: Field, text: str, tape: Tape, *, unit: str = "") -> object:
    """Return what a text means in a field, as a job's document has it.

    Args:
        field: The field.
        text: What was written, not blank.
        tape: The crew's tape.
        unit: The unit that the column's head names, for numbers that have none of their own.

    Raises:
        NotRead: It means nothing there, or could mean several things.
    """
    plain = " ".join(text.split())
    if len(plain) > LONGEST_CELL:
        raise NotRead(say("order-too-long", most=LONGEST_CELL))
    if field.form is Form.TEXT:
        return _text(field, plain)
    _refuse_what_sheets_make(plain)
    if field.form is Form.LIMIT and plain.casefold() in {NO_LIMIT, "none", "any"}:
        return NO_LIMIT
    if field.form in (Form.LENGTH, Form.LIMIT):
        return _length(field, plain, tape, unit)
    if field.form is Form.WHOLE:
        return whole(plain)
    if field.form is Form.ENDS:
        return _ends(plain)
    return _flag(plain) if field.form is Form.FLAG else _choice(field, plain)


def looks_like_date(text: str) -> bool:
    """Return whether a text is how a spreadsheet writes a date or a time.

    Example:
        >>> [looks_like_date(text) for text in ("4-Mar", "2026-03-04", "3/4", "1-2", "34 1/2")]
        [True, True, False, False, False]
    """
    return any(pattern.fullmatch(text) for pattern in _DATES)


def is_number(text: str) -> bool:
    """Return whether a text is a number without a unit or any word."""
    return _NUMBER.fullmatch(text) is not None


def whole(text: str) -> int:
    """Return a whole number from 1 up.

    Raises:
        NotRead: It is none.
    """
    plain = text.removesuffix(".0")
    _refuse_what_sheets_make(plain)
    if not (_BARE.fullmatch(plain) and len(plain) <= 4 and 1 <= int(plain) <= GREATEST_NUMBER):
        raise NotRead(say("order-whole", most=GREATEST_NUMBER))
    return int(plain)


def _refuse_what_sheets_make(plain: str) -> None:
    """Refuse what is no longer what was typed into the spreadsheet."""
    if looks_like_date(plain):
        raise NotRead(say("order-date"))
    if plain.startswith("=") or _FAULT_OF_SHEET.fullmatch(plain):
        raise NotRead(say("order-formula"))


def _text(field: Field, plain: str) -> str:
    """Return a name; the letter of a wall; the date of a sheet, which may be one."""
    if plain.startswith("=") and len(plain) > 1:
        raise NotRead(say("order-formula"))
    if field.key == "wall":
        if not re.fullmatch("[A-Z]", plain.upper()):
            raise NotRead(say("order-wall"))
        return plain.upper()
    if len(plain) > LONGEST_NAME or not plain.isprintable():
        raise NotRead(say("order-name", most=LONGEST_NAME))
    return plain


def _length(field: Field, plain: str, tape: Tape, unit: str) -> str:
    """Return a length as it was written, with the unit of its column where it has none."""
    written = f"{plain} {unit}" if unit and is_number(plain) else plain
    if _BARE.fullmatch(written):
        _refuse_codes(field, written, tape)
        _refuse_other_tape(field, written, tape)
    try:
        read_length(written, tape)
    except TapeNotationError as asked:
        raise NotRead(str(asked)) from None
    return written


def _refuse_codes(field: Field, written: str, tape: Tape) -> None:
    """Refuse a bare number that is no size a box has: four digits are as likely its code."""
    inch = tape.units == Units.INCH
    in_inches, in_mm = _MOST_BARE.get(field.key, _MOST_OTHER)
    most = in_inches if inch else in_mm
    number = int(written)
    size = f"{number} {'in' if inch and number <= _MOST_INCHES else 'mm'}"
    if number > most:
        raise NotRead(say("order-code", given=written, most=most, size=size))
    if len(written) > 1 and written.startswith("0"):
        raise NotRead(say("order-code-zero", given=written, size=size))


def _refuse_other_tape(field: Field, written: str, tape: Tape) -> None:
    """Refuse a bare number that no box is so small as: it is as likely of the other tape."""
    inch = tape.units == Units.INCH
    in_inches, in_mm = _LEAST_BARE.get(field.key, (0, 0))
    least, number = (in_inches if inch else in_mm), int(written)
    if 0 < number < least:
        own, other = ("in", "mm") if inch else ("mm", "in")
        sizes = {"own": f"{number} {own}", "other": f"{number} {other}"}
        raise NotRead(say("order-small", given=written, least=least, **sizes))


def _choice(field: Field, plain: str) -> str:
    """Return one of the words that a field may be."""
    word = plain.casefold()
    for choice in field.choices:
        if word == choice.casefold():
            return choice
    if word in field.also:
        return field.also[word]
    raise NotRead(say("order-choice", choices=", ".join(field.choices)))


def _flag(plain: str) -> bool:
    """Return yes or no."""
    word = plain.casefold()
    if word in _YES or word in _NO:
        return word in _YES
    raise NotRead(say("order-yes-or-no"))


def _ends(plain: str) -> list[str]:
    """Return which ends are finished."""
    word = " ".join(re.sub(r"[,;+&/]", " ", plain.casefold()).split())
    if word not in _ENDS:
        raise NotRead(say("order-ends"))
    return list(_ENDS[word])
