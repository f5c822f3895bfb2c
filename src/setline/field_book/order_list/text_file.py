"""A file of separated values as text, in the codes that spreadsheets write."""

from __future__ import annotations

from setline.errors import InputError
from setline.field_book.order_list.table import MOST_TEXT
from setline.wording import say

__all__ = ["text_of_file"]

_MOST_BYTES = 4 * MOST_TEXT
_WIDE = (b"\xff\xfe", b"\xfe\xff")


def text_of_file(content: bytes) -> str:
    """Return the text of a file.

    UTF-8, UTF-16 with its mark, or else the code that spreadsheets of western languages write without asking
    (Windows-1252), in which ``½`` is one byte.

    Raises:
        InputError: It is too long, or no text.
    """
    if len(content) > _MOST_BYTES:
        raise InputError(say("order-text-long", most=MOST_TEXT))
    if content.startswith(_WIDE):
        return _decoded(content, "utf-16")
    if b"\x00" in content:
        raise InputError(say("order-no-text"))
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return _decoded(content, "cp1252")


def _decoded(content: bytes, code: str) -> str:
    """Return a text in one code."""
    try:
        return content.decode(code)
    except UnicodeDecodeError as wrong:
        raise InputError(say("order-no-text")) from wrong
