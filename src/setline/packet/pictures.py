"""The drawings of a packet, each at its own scale and size, under the file name its page calls it by."""

from __future__ import annotations

from setline.packet.paper import Paper
from setline.packet.picture import Picture
from setline.result import Plan

__all__ = ["Pictures"]


class Pictures:
    """The drawings as far as they were asked for.

    Args:
        plan: The plan they show.
        paper: The paper they must fit on.

    Attributes:
        files: SVG text by file name.
    """

    def __init__(self, plan: Plan, paper: Paper) -> None:
        self._plan = plan
        self._paper = paper
        self.files: dict[str, str] = {}

    def floor(self) -> Picture | None:
        """Return the floor picture."""
        return None

    def elevation(self, wall: str) -> Picture | None:
        """Return a wall's elevation."""
        return None

    def shim_map(self, wall: str) -> Picture | None:
        """Return a wall's shim map."""
        return None
