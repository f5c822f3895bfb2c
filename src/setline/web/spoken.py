"""Lengths as they are heard: ``48 3/16`` as *48 and 3 sixteenths*."""

from __future__ import annotations

import re

__all__ = ["spoken"]

_NAMES = {"2": ("half", "halves"), "4": ("quarter", "quarters"), "8": ("eighth", "eighths"),
          "16": ("sixteenth", "sixteenths"), "32": ("thirty-second", "thirty-seconds"),
          "64": ("sixty-fourth", "sixty-fourths")}  # fmt: skip
_FRACTION = re.compile(r"(?:(\d+) )?(\d+)/(2|4|8|16|32|64)\b")


def spoken(text: str) -> str:
    """Return a text with its fractions in words, for a screen reader.

    Example:
        >>> spoken("48 3/16")
        '48 and 3 sixteenths'
        >>> spoken("1/2")
        '1 half'
    """

    def words(found: re.Match[str]) -> str:
        whole, over, under = found.groups()
        name = _NAMES[under][0 if over == "1" else 1]
        return f"{whole} and {over} {name}" if whole else f"{over} {name}"

    return _FRACTION.sub(words, text)
