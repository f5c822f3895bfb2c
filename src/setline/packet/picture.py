"""A drawing on a page: its file in the typesetting, its size on paper, and what it says in words."""

from __future__ import annotations

from typing import TypedDict

__all__ = ["Picture"]


class Picture(TypedDict):
    """A drawing on a page, at its own size: drawings state their scale, so none is stretched to fit."""

    file: str
    width: float
    """mm."""
    height: float
    """mm."""
    alt: str
