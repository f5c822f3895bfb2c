"""The trade's words for the pages: what each is called, what it means, and which ones a page uses."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from setline.wording import SENTENCES, say

__all__ = ["Word", "all_words", "beside", "find_word", "words_of"]

_WORD = "word-"
_ALSO_PLAIN = frozenset({"set", "within", "step", "u-out", "run"})
"""Words that a sentence uses in their everyday sense, too."""
_OF_PAGE = {
    "carry.html": ("packet", "level-line", "mark", "not-read"),
    "changes.html": ("as-found-as-set", "mark", "struck-line", "set", "taken-back"),
    "floor.html": ("struck-line", "level-line", "high-spot", "band", "within", "toe-line"),
    "home.html": ("struck-line", "level-line", "within", "finding"),
    "marks.html": ("mark", "start", "running-dimension", "struck-line", "body-frame"),
    "order.html": ("box", "body-frame", "filler", "panel", "opening"),
    "phones.html": ("field-book", "taken-back"),
    "photos.html": ("as-found-as-set", "punch-list"),
    "print.html": ("packet", "mark", "shim-leg", "as-found-as-set"),
    "readings.html": ("field-book", "taken-back", "set-up", "toe-line", "within"),
    "remedy.html": ("remedy", "finding", "pin", "filler"),
    "room.html": ("u-out", "opening", "start"),
    "run_editor.html": ("pin", "joint", "earliest-latest", "filler", "opening", "run"),
    "set_box.html": ("as-found-as-set", "set", "shim-leg", "body-frame", "mark"),
    "set_list.html": ("set", "box", "row"),
    "sheets.html": ("opening", "subfloor-finished-floor", "window-of-a-size"),
    "shims.html": ("shim-leg", "bearing-point", "high-spot", "not-read", "within"),
    "troubles.html": ("finding", "remedy", "conflict", "within"),
    "why.html": ("why", "within", "not-read", "about"),
    "why_list.html": ("why", "mark", "bearing-point", "not-read"),
}
"""Template of a page -> the words it uses, the most needed first."""


@dataclass(frozen=True, slots=True)
class Word:
    """A word of the trade.

    Attributes:
        slug: Its name in its address.
        word: The word itself, or several that belong together.
        text: What it means here.
    """

    slug: str
    word: str
    text: str


@cache
def all_words() -> tuple[Word, ...]:
    """Return every word, in the order of the glossary."""
    slugs = (key.removeprefix(_WORD) for key in SENTENCES if key.startswith(_WORD))
    return tuple(Word(slug, say(f"word-{slug}"), say(f"help-{slug}")) for slug in slugs)


def find_word(slug: str) -> Word | None:
    """Return a word, or None where nothing goes by that name."""
    return next((word for word in all_words() if word.slug == slug), None)


def words_of(template: str) -> tuple[Word, ...]:
    """Return the words that a page uses."""
    return tuple(word for slug in _OF_PAGE.get(template, ()) if (word := find_word(slug)) is not None)


@cache
def beside(slug: str) -> tuple[Word, ...]:
    """Return the other words that a word's text uses."""
    found = find_word(slug)
    text = "" if found is None else found.text.casefold()
    others = (word for word in all_words() if word.slug not in _ALSO_PLAIN | {slug})
    return tuple(word for word in others if _is_said(word.word, text))


def _is_said(word: str, text: str) -> bool:
    """Return whether a text uses a word, or one of several that belong together."""
    parts = [part.strip().casefold() for part in word.split(",")]
    return any(len(part) > 2 and re.search(rf"\b{re.escape(part)}s?\b", text) for part in parts)
