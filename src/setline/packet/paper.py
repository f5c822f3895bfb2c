"""The two papers, and the part of a page that may be printed on."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["BOTTOM", "PAPERS", "SIDE", "TOP", "Paper"]

SIDE = 12.0
"""Margin left and right. [mm]"""
TOP = 11.0
"""Margin at the top. [mm]"""
BOTTOM = 17.0
"""Margin at the bottom, with the foot in it. [mm]"""


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper.

    Attributes:
        name: What the typesetting calls it.
        width: Upright. [mm]
        height: Upright. [mm]
    """

    name: str
    width: float
    height: float

    def room(self, *, landscape: bool) -> tuple[float, float]:
        """Return width and height between the margins, in mm."""
        width, height = (self.height, self.width) if landscape else (self.width, self.height)
        return width - 2 * SIDE, height - TOP - BOTTOM


PAPERS = {"letter": Paper("us-letter", 215.9, 279.4), "a4": Paper("a4", 210.0, 297.0)}
"""By the name that jobs and the command line use."""
