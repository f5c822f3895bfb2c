"""Metrics of the shipped font, so that the room a label takes is known before it is drawn.

The font is Source Sans Pro, carried by a package of its own; only its regular and its bold are used. Its
digits are tabular: all are equally wide. Drawings switch kerning and ligatures off, so that the width of a
label is the sum of its advance widths and the boxes that were kept apart here are the boxes that are printed.
"""

from __future__ import annotations

from functools import lru_cache
from importlib import resources
from importlib.resources.abc import Traversable
from io import BytesIO
from pathlib import Path
from typing import Any

__all__ = ["ASCENT", "CAP_HEIGHT", "DESCENT", "FAMILY", "font_folder", "text_extent", "text_width"]

FAMILY = "Source Sans Pro"
ASCENT = 0.75
"""From the baseline up to the top of a line of text, per unit of size (its typographic ascender)."""
DESCENT = 0.25
"""From the baseline down, likewise."""
CAP_HEIGHT = 0.66
"""Height of capitals and digits, per unit of size."""

_FILES = {False: "SourceSansPro-Regular.ttf", True: "SourceSansPro-Bold.ttf"}


def font_folder() -> Path:
    """Return the folder of the font's files, for typesetting and for the web."""
    return Path(str(_files()))


def _files() -> Traversable:
    return resources.files("font_source_sans_pro") / "files"


class _Face:
    """One weight of the font: advance widths and ink, looked up a letter at a time."""

    def __init__(self, font: Any) -> None:
        self._glyphs: dict[int, str] = font.getBestCmap()
        self._widths = font["hmtx"]
        self._outlines = font["glyf"]
        self._letters: dict[str, tuple[float, float, float]] = {}

    def letter(self, letter: str) -> tuple[float, float, float]:
        """Return a letter's advance width, and how far its box reaches above and below the baseline."""
        known = self._letters.get(letter)
        if known is None:
            known = self._letters[letter] = self._measure(letter)
        return known

    def _measure(self, letter: str) -> tuple[float, float, float]:
        """Return a letter's measures; one that the font does not have is taken as an em wide."""
        glyph = self._glyphs.get(ord(letter))
        if glyph is None:
            return (1.0, ASCENT, DESCENT)
        outline = self._outlines[glyph]
        above, below = ASCENT, DESCENT
        if outline.numberOfContours:  # a space has no ink
            above, below = max(above, outline.yMax / 1000), max(below, -outline.yMin / 1000)
        return (self._widths[glyph][0] / 1000, above, below)


@lru_cache(maxsize=2)
def _face(bold: bool) -> _Face:
    from fontTools.ttLib import TTFont  # 0.1 s, and only drawings need it

    return _Face(TTFont(BytesIO((_files() / _FILES[bold]).read_bytes()), lazy=True))


@lru_cache(maxsize=8192)
def text_extent(text: str, *, bold: bool = False) -> tuple[float, float, float]:
    """Return a line's width and its reach above and below the baseline, at size 1.

    Above and below are the font's ascent and descent, or more where a letter's own ink goes past them
    (``Å``).
    """
    face = _face(bold)
    letters = [face.letter(letter) for letter in text]
    width = sum(letter[0] for letter in letters)
    above = max((letter[1] for letter in letters), default=ASCENT)
    below = max((letter[2] for letter in letters), default=DESCENT)
    return (width, above, below)


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Return how long a line of text is, in the unit of its size."""
    return text_extent(text, bold=bold)[0] * size
