"""Words and signs used on the sheets, half a page."""

from __future__ import annotations

from typing import TypedDict

from setline.wording import say

__all__ = ["WordRow", "WordsPage", "words_page"]

_HEIGHT = 98.0
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


class WordRow(TypedDict):
    """A sign and what it means."""

    sign: str
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
        WordRow(sign=say(f"packet-sign-{name}"), means=say(f"packet-sign-{name}-means")) for name in _ROWS
    ]
    return WordsPage(kind="words", key="words", landscape=False, height=_HEIGHT, rows=rows)
