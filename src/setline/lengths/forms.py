"""The forms a length may be written in, as shapes of pieces.

A text is cut into pieces and each piece gets a letter: ``n`` a whole number, ``d`` a decimal, ``f`` a
fraction, ``'`` feet, ``"`` inches, ``u`` a metric unit, ``-`` a dash. ``9' 4 3/16`` has the shape ``n'nf``.
The table at the foot pairs each shape with what it means, or with what to ask.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from setline.lengths.grid import TICKS_PER_INCH, TICKS_PER_MM, Tape, Units
from setline.lengths.printed import show, show_feet

__all__ = ["Asked", "ticks_of"]

_ASKS_OVER = 480
"""A bare number over this many inches is as likely to be millimetres."""
_MM_PER = {"mm": 1, "cm": 10, "m": 1000}
_SIXTY_FOURTHS = 64
_TAPE_PARTS = {2, 4, 8, 16, 32, 64}
_TENTHS = 10


class Asked(Exception):
    """A text cannot be taken: the sentence to say, and what it could be, nearest first."""

    def __init__(self, key: str, *readings: str, **facts: object) -> None:
        super().__init__(key)
        self.key = key
        self.readings = readings
        self.facts = facts


@dataclass(frozen=True, slots=True)
class _Pieces:
    """A text in pieces: its shape, the texts of the pieces, and the tape it was read from."""

    shape: str
    texts: tuple[str, ...]
    tape: Tape

    def of(self, letter: str) -> list[str]:
        """Return the texts of the pieces of that letter, in order."""
        return [text for kind, text in zip(self.shape, self.texts, strict=True) if kind == letter]

    @property
    def is_marked(self) -> bool:
        """Whether feet or inches are stated."""
        return bool({"'", '"'} & set(self.shape))

    @property
    def is_metric(self) -> bool:
        """Whether a bare number means millimetres."""
        return self.tape.units == Units.METRIC and not self.is_marked


_PIECE = re.compile(
    r"(?P<f>[0-9]{1,7} ?/ ?[0-9]{1,7})|(?P<d>[0-9]*[.,][0-9]+)|(?P<n>[0-9]+)"
    r"|(?P<feet>')|(?P<inches>\")|(?P<u>mm|cm|m)|(?P<dash>-)|(?P<space> )|(?P<other>.)",
    re.DOTALL,
)
_LETTER = {"feet": "'", "inches": '"', "dash": "-"}


def ticks_of(body: str, tape: Tape) -> int:
    """Return the exact ticks of a text whose signs and words are already plain.

    Raises:
        Asked: It is no length, off the grid, or could be several.
    """
    pieces = _cut(body, tape)
    meaning = _meaning(pieces.shape)
    if meaning is None:
        raise Asked("length-unknown")
    return meaning(pieces)


@lru_cache(maxsize=128)  # a job of a thousand readings has three or four shapes
def _meaning(shape: str) -> Callable[[_Pieces], int] | None:
    """Return what a shape of pieces means, or None if it is no form of a length."""
    return next((meaning for form, meaning in _FORMS if form.fullmatch(shape)), None)


def _cut(body: str, tape: Tape) -> _Pieces:
    """Cut a text into its pieces."""
    found = [
        (_LETTER.get(str(piece.lastgroup), str(piece.lastgroup)), piece[0]) for piece in _PIECE.finditer(body)
    ]
    kept = [(letter, text) for letter, text in found if letter != "space"]
    return _Pieces("".join(letter[0] for letter, _ in kept), tuple(text for _, text in kept), tape)


# --- values ---------------------------------------------------------------------------------------------


def _fraction(text: str) -> Fraction:
    """Return a proper fraction of a tape; one that is none is asked about."""
    over, under = (int(part) for part in text.split("/"))
    if not under:
        raise Asked("length-unknown")
    if over >= under:
        raise Asked("length-improper", *_improper(text.replace(" ", ""), over, under))
    return Fraction(over, under)


def _improper(text: str, over: int, under: int) -> Iterator[str]:
    """Yield what ``27/16`` could be: 1 11/16, 2 7/16 with its space forgotten, or (dictated) 20 7/16."""
    whole, rest = divmod(over, under)
    yield f"{whole} {rest}/{under}" if rest else str(whole)
    for cut in range(1, len(text.split("/")[0])):
        yield f"{text[:cut]} {text[cut:]}"
    if 20 < over < 100 and over % 10:
        yield f"{over // 10 * 10} {over % 10}/{under}"


def _decimal(text: str) -> Fraction:
    """Return a decimal with a point or a comma."""
    return Fraction(("0" + text).replace(",", "."))


def _inches(inches: Fraction) -> int:
    """Return the ticks of inches that lie on the tape; the two nearest 1/32 are asked about otherwise."""
    if not _is_on_tape(inches):
        raise Asked("length-off-inch-tape", *_two_nearest(inches, Fraction(1, 32), Units.INCH, ""))
    return int(inches * TICKS_PER_INCH)


def _is_on_tape(inches: Fraction) -> bool:
    """Tell whether inches lie on 1/64."""
    return (inches * _SIXTY_FOURTHS).denominator == 1


def _millimetres(millimetres: Fraction, unit: str) -> int:
    """Return the ticks of millimetres that lie on 0.1 mm; the two nearest are asked about otherwise."""
    if (millimetres * _TENTHS).denominator != 1:
        raise Asked(
            "length-off-metric-tape",
            *_two_nearest(millimetres, Fraction(1, 10), Units.METRIC, unit and " mm"),
        )
    return int(millimetres * TICKS_PER_MM)


def _two_nearest(value: Fraction, step: Fraction, units: Units, unit: str) -> tuple[str, str]:
    """Return the steps below and above a value, the nearer first."""
    per_unit = TICKS_PER_INCH if units == Units.INCH else TICKS_PER_MM
    below = value // step * step
    either = sorted((below, below + step), key=lambda near: abs(near - value))
    first, second = (show(int(near * per_unit), units) + unit for near in either)
    return first, second


# --- meanings -------------------------------------------------------------------------------------------


def _whole(pieces: _Pieces) -> int:
    """``27`` or ``27"``; ``875`` bare on an inch job asks."""
    [text] = pieces.of("n")
    if pieces.is_metric:
        return _millimetres(Fraction(text), "")
    if int(text) > _ASKS_OVER and not pieces.is_marked:
        raise _asks_unit(text)
    return _inches(Fraction(text))


def _asks_unit(number: str) -> Asked:
    """Return the question whether a big bare number is millimetres or inches."""
    number = number.lstrip("0")
    value = Fraction(number)
    return Asked(
        "length-which-unit",
        f"{number} mm",
        f"{number} in",
        as_inches=show(int(value * TICKS_PER_MM), Units.INCH),
        as_feet=show_feet(int(value * TICKS_PER_INCH)),
    )


def _decimals(pieces: _Pieces) -> int:
    """``27.5``, ``874,5`` on a metric job."""
    [text] = pieces.of("d")
    if not pieces.is_metric:
        _no_comma(text)
        if _decimal(text) > _ASKS_OVER and not pieces.is_marked:
            raise _asks_unit(text)
        return _inches(_decimal(text))
    _no_thousands(text)
    return _millimetres(_decimal(text), "")


def _no_comma(text: str, unit: str = "", *, feet: str = "") -> None:
    """Ask about a comma where the tape has none."""
    if "," in text:
        raise Asked("length-comma", feet + text.replace(",", ".") + unit)


def _no_thousands(text: str, unit: str = "") -> None:
    """Ask about ``1,200``: on a metric tape it is as likely 1200 as 1.2."""
    if re.fullmatch(r"[1-9][0-9]*[.,][0-9]{3}", text):
        near = _two_nearest(_decimal(text), Fraction(1, 10), Units.METRIC, unit)
        is_exact = (_decimal(text) * _TENTHS).denominator == 1
        raise Asked("length-thousands", re.sub("[.,]", "", text) + unit, *near[: 1 if is_exact else 2])


def _metric(pieces: _Pieces) -> int:
    """``874 mm``, ``87.4 cm``, ``0.874 m``, on either tape."""
    unit = pieces.texts[-1]
    text = pieces.texts[0]
    if pieces.tape.units == Units.INCH:
        _no_comma(text, f" {unit}")
    if unit == "mm":
        _no_thousands(text, " mm")
    return _millimetres(_decimal(text) * _MM_PER[unit], unit)


def _mixed(pieces: _Pieces) -> int:
    """``27 7/16``, ``27-7/16"``, ``7/16``."""
    wholes = pieces.of("n")
    [text] = pieces.of("f")
    if pieces.is_metric:
        raise Asked("length-fraction-on-metric", " ".join([*wholes, text]) + " in")
    inches = sum(map(Fraction, wholes), Fraction()) + _fraction(text)
    if int(text.split("/")[1]) not in _TAPE_PARTS:
        exact = (show(int(inches * TICKS_PER_INCH), Units.INCH),)
        near = exact if _is_on_tape(inches) else _two_nearest(inches, Fraction(1, 32), Units.INCH, "")
        raise Asked("length-parts", *near)
    return _inches(inches)


def _feet(pieces: _Pieces) -> int:
    """``9'``, ``9 1/2 ft``, ``8.5 ft``: feet alone."""
    feet = [*map(Fraction, pieces.of("n")), *map(_decimal, pieces.of("d")), *map(_fraction, pieces.of("f"))]
    for text in pieces.of("d"):
        _no_comma(text, " ft")
    return _inches(12 * sum(feet, Fraction()))


def _feet_and_inches(pieces: _Pieces) -> int:
    """``9' 4 3/16``, ``9-4-3/16``; twelve inches or more after feet ask."""
    feet, *inches = pieces.of("n")
    for text in pieces.of("d"):
        _no_comma(text, feet=f"{feet}' ")
    parts = [*map(Fraction, inches), *map(_decimal, pieces.of("d")), *map(_fraction, pieces.of("f"))]
    over = sum(parts, Fraction())
    ticks = _inches(12 * int(feet) + over)
    if over >= 12:
        raise Asked("length-inches-over-a-foot", show_feet(ticks) if ticks >= 12 * TICKS_PER_INCH else "")
    return ticks


# --- questions ------------------------------------------------------------------------------------------


def _feet_or_one_number(pieces: _Pieces) -> int:
    """``4 8 1/4`` is 4' 8 1/4 or 48 1/4; ``4 8`` and ``4-8`` likewise."""
    first, second = pieces.of("n")
    rest = "".join(f" {text}" for text in pieces.of("f"))
    readings = [f"{first}' {second}{rest}"] if int(second) < 12 else []
    readings.append(f"{first}{second}{rest}")
    raise Asked("length-which", *readings)


def _stroke_forgotten(pieces: _Pieces) -> int:
    """``48 3 16`` is 48 3/16 with its stroke forgotten, but nobody knows."""
    whole, over, under = pieces.of("n")
    raise Asked("length-stroke", f"{whole} {over}/{under}")


def _below_zero(pieces: _Pieces) -> int:
    """``-1/8``: a reading has no sign before it."""
    raise Asked("length-below-zero")


_INCHES = r'(?:n"?-?f|n|d|f)"?'
_FORMS: tuple[tuple[re.Pattern[str], Callable[[_Pieces], int]], ...] = tuple(
    (re.compile(shape), meaning)
    for shape, meaning in (
        (r'n"?', _whole),
        (r'd"?', _decimals),
        (r"[nd]u", _metric),
        (r'(?:n"?-?)?f"?', _mixed),
        (r"(?:n-?f|n|d|f)'", _feet),
        (rf"n'-?{_INCHES}", _feet_and_inches),
        (r'n-n-f"?', _feet_and_inches),
        (r'n-?n-?f?"?', _feet_or_one_number),
        (r'nnn"?', _stroke_forgotten),
        (r"-.+", _below_zero),
    )
)
