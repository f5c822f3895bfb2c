"""Words and signs used on the sheets, half a page: what is written, and what is drawn."""

from __future__ import annotations

from typing import TypedDict

from setline.wording import say

__all__ = ["WordRow", "WordsPage", "words_page"]

_HEIGHT = 134.0
_ROWS = (
    "line",
    "laser",
    "start",
    "mark",
    "box-right",
    "box-left",
    "unknown",
    "near",
    "within",
    "high-spot",
    "shim",
    "body",
    "stop",
    "decide",
    "watch",
    "plan",
)


_DRAWN = (
    "level",
    "laser",
    "start",
    "solid",
    "filler",
    "panel",
    "opening",
    "body",
    "unread",
    "high",
    "short",
)
"""Signs that the templates draw."""


class WordRow(TypedDict):
    """A word or a sign and what it means; a drawn one is called by name."""

    sign: str
    drawn: str | None
    means: str


class WordsPage(TypedDict):
    """Data of the page of words and signs."""

    kind: str
    key: str
    landscape: bool
    height: float
    """Of its two columns, half a page. [mm]"""
    rows: list[WordRow]


def words_page() -> WordsPage:
    """Return the words and signs used on the sheets."""
    rows = [
        WordRow(sign=say(f"packet-sign-{name}"), drawn=None, means=say(f"packet-sign-{name}-means"))
        for name in _ROWS
    ]
    rows += [WordRow(sign="", drawn=name, means=say(f"packet-drawn-{name}")) for name in _DRAWN]
    return WordsPage(kind="words", key="words", landscape=False, height=_HEIGHT, rows=rows)
