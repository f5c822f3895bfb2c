"""Lines in a terminal of 80 columns, a mixed number never broken: ``13 1/2`` is one number."""

from __future__ import annotations

import re
import textwrap

__all__ = ["WIDTH", "wrapped"]

WIDTH = 80
_MIXED = re.compile(r"(?<=\d) (?=\d+/\d)")
_GLUE = "\N{NO-BREAK SPACE}"


def wrapped(line: str, *, further: int = 2) -> list[str]:
    """Break a line at 80 columns.

    Args:
        line: One line, with its indent.
        further: How much deeper the pieces after the first are set.

    Returns:
        Its pieces; an empty line stays one.
    """
    indent = " " * (len(line) - len(line.lstrip()) + further)
    glued = _MIXED.sub(_GLUE, line)
    pieces = textwrap.wrap(glued, WIDTH, subsequent_indent=indent, break_on_hyphens=False) or [""]
    return [piece.replace(_GLUE, " ") for piece in pieces]
