"""What is dictated, made into digits: ``forty-eight and three sixteenths`` is ``48 3/16``.

The keyboard microphone of a phone writes numbers in words, in digits, or in both at once. Only the words
change here; what the digits then mean is decided by their form, so that ``four eight and a quarter`` is asked
about just as ``4 8 1/4`` is.
"""

from __future__ import annotations

import re

__all__ = ["plain_digits"]

_SIGNS = str.maketrans(
    {
        "’": "'", "‘": "'", "′": "'", "“": '"', "”": '"', "„": '"', "″": '"',
        "–": "-", "—": "-", "−": "-", "‐": "-", "‑": "-", "⁄": "/", "∕": "/",
        "\u00a0": " ", "\u2009": " ", "\u202f": " ",
    }
)  # fmt: skip
_VULGAR = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
    "⅓": "1/3", "⅔": "2/3", "⅕": "1/5", "⅒": "1/10",
}  # fmt: skip
_UNITS = (
    (re.compile(r"(?<![a-z])(?:feet|foot|ft)(?![a-z])\.?"), "'"),
    (re.compile(r"(?<![a-z])(?:inches|inch|ins|in)(?![a-z])\.?"), '"'),
    (re.compile(r"(?<![a-z])milli(?:metre|meter)s?(?![a-z])"), "mm"),
    (re.compile(r"(?<![a-z])centi(?:metre|meter)s?(?![a-z])"), "cm"),
    (re.compile(r"(?<![a-z])(?:metre|meter)s?(?![a-z])"), "m"),
    (re.compile(r"(?<![a-z])thirty[ -]seconds?(?![a-z])"), "/32"),
    (re.compile(r"(?<![a-z])sixty[ -]fourths?(?![a-z])"), "/64"),
    (re.compile(r" (?:of )?an? (?=[\"'])"), " "),
    (re.compile(r"(?<=[a-z])-(?=[a-z])"), " "),
)
_SMALL = {
    "zero": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15,
    "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
}  # fmt: skip
_TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80,
    "ninety": 90,
}  # fmt: skip
_PARTS = {
    "half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "fourth": 4, "fourths": 4,
    "eighth": 8, "eighths": 8, "tenth": 10, "tenths": 10, "sixteenth": 16, "sixteenths": 16,
    "/32": 32, "/64": 64,
}  # fmt: skip
_WORDS = {*_SMALL, *_TENS, *_PARTS, "hundred", "thousand", "point", "and"}


def plain_digits(text: str) -> str:
    """Return a text in lower case with its signs of one kind and its number words as digits.

    Example:
        >>> plain_digits("Forty-eight and three sixteenths")
        '48 3/16'
    """
    plain = text.casefold()
    if not plain.isascii():
        plain = plain.translate(_SIGNS)
        for sign, fraction in _VULGAR.items():
            plain = plain.replace(sign, f" {fraction}")
    plain = plain.replace("''", '"').replace("&", " and ")
    if any(letter.isalpha() for letter in plain):
        plain = _words_as_digits(plain)
    return " ".join(plain.split())


def _words_as_digits(plain: str) -> str:
    """Return a text with its units as signs and its number words as digits."""
    for pattern, sign in _UNITS:
        plain = pattern.sub(sign, plain)
    if _WORDS & set(re.findall(r"/?[a-z]+|/[0-9]+", plain)):
        plain = _Speech(re.findall(r"['\"]|[^ '\"]+", plain)).in_digits()
    return plain


class _Speech:
    """Spoken words on their way to digits: a number grows until a word cannot belong to it."""

    def __init__(self, words: list[str]) -> None:
        self._words = words
        self._done: list[str] = []
        self._number: int | None = None

    def in_digits(self) -> str:
        """Return the words with every number in digits."""
        for place, word in enumerate(self._words):
            ahead = self._words[place + 1 :]
            if word in _SMALL or word in _TENS:
                self._add(_SMALL.get(word, _TENS.get(word, 0)))
            elif word in ("hundred", "thousand"):
                self._multiply(100 if word == "hundred" else 1000)
            elif word in _PARTS:
                self._end_fraction(_PARTS[word])
            elif word == "and":
                self._and(ahead)
            elif (
                word in ("a", "an") and ahead and (ahead[0] in _PARTS or ahead[0] in ("hundred", "thousand"))
            ):
                self._end_number()
                self._number = 1
            elif word == "point":
                self._end_number()
                self._done.append(".")
            else:
                self._end_number()
                self._done.append(word)
        self._end_number()
        return re.sub(r"([0-9]+) \. ((?:[0-9] )*[0-9]+)(?= |$)", _with_point, " ".join(self._done))

    def _add(self, value: int) -> None:
        """Let a number grow by a word, or end it and begin the next."""
        number = self._number
        if number is not None and (
            (number and number % 100 == 0) or (number % 100 >= 20 and number % 10 == 0 and 0 < value < 10)
        ):
            self._number = number + value
        else:
            self._end_number()
            self._number = value

    def _multiply(self, by: int) -> None:
        """Make the last part of a number hundreds or thousands."""
        thousands, low = divmod(1 if self._number is None else self._number, 1000)
        self._number = thousands * 1000 + max(low, 1) * by

    def _end_fraction(self, under: int) -> None:
        """Put the number, or the digits just before, over a part's name; alone it is one of them."""
        over = str(1 if self._number is None else self._number)
        if self._number is None and self._done and self._done[-1].isdecimal():
            over = self._done.pop()
        self._number = None
        self._done.append(f"{over}/{under}")

    def _and(self, ahead: list[str]) -> None:
        """Go on after "hundred and", unless a fraction follows; everywhere else "and" ends the number."""
        hundreds = self._number is not None and self._number % 100 == 0 and self._number > 0
        until = ahead[: ahead.index("and")] if "and" in ahead else ahead
        if not hundreds or any(word in _PARTS for word in until):
            self._end_number()

    def _end_number(self) -> None:
        """Write down the number that has grown so far."""
        if self._number is not None:
            self._done.append(str(self._number))
        self._number = None


def _with_point(found: re.Match[str]) -> str:
    """Return ``34.375`` for ``34 . 3 7 5``."""
    return f"{found[1]}.{found[2].replace(' ', '')}"
