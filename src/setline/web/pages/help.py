"""The trade's words: the list of them, and one at a time."""

from __future__ import annotations

from dataclasses import dataclass

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import Response

from setline.web.help_words import Word, all_words, beside, find_word
from setline.web.render import Frame, render
from setline.web.site import Visitor
from setline.wording import say

__all__ = ["router"]

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class HelpPage:
    """Words with what they mean.

    Attributes:
        word: The one that was asked for, or None for the whole list.
        words: The list, or the words that the one leans on.
        back: The page that it was asked on, or nothing.
    """

    word: Word | None
    words: tuple[Word, ...]
    back: str


@router.get("/help")
def every_word(request: Request, device: Visitor, back: str = "") -> Response:
    """Show every word."""
    page = HelpPage(word=None, words=all_words(), back=_own_page(back))
    return render(request, "help.html", Frame(title=say("page-help"), device=device), page)


@router.get("/help/{slug}")
def one_word(request: Request, device: Visitor, slug: str, back: str = "") -> Response:
    """Show one word."""
    found = find_word(slug)
    if found is None:
        raise HTTPException(404, say("no-such-word"))
    page = HelpPage(word=found, words=beside(slug), back=_own_page(back))
    return render(request, "help.html", Frame(title=found.word, device=device), page)


def _own_page(back: str) -> str:
    """Return the page of a job to go back to, if that is what was named."""
    is_plain = back.isascii() and back.isprintable() and not set(back) & set('\\ ?"<>') and len(back) < 200
    return back if is_plain and back.startswith("/j/") else ""
