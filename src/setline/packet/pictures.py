"""The drawings of a packet, each at its own scale and size, under the file name its page calls it by."""

from __future__ import annotations

from setline.drawings.shapes import Drawing, Frame
from setline.drawings.svg import to_svg
from setline.packet.paper import Paper
from setline.packet.picture import Picture
from setline.result import Plan

__all__ = ["Pictures"]

_SPARE = 0.4
"""Left free so that a drawing as large as the page does not go over to the next. [mm]"""


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

    def floor(self) -> Picture:
        """Return the floor picture."""
        from setline.drawings.floor_picture import floor_picture

        return self._keep(floor_picture(self._plan, self._frame(landscape=True)))

    def elevation(self, wall: str) -> Picture:
        """Return a wall's elevation."""
        from setline.drawings.wall_elevation import wall_elevation

        return self._keep(wall_elevation(self._plan, wall, self._frame(landscape=True)))

    def shim_map(self, wall: str) -> Picture:
        """Return a wall's shim map."""
        from setline.drawings.shim_map import shim_map

        return self._keep(shim_map(self._plan, wall, self._frame(landscape=True)))

    def _frame(self, *, landscape: bool) -> Frame:
        """Return the part of a page that a drawing may take."""
        width, height = self._paper.room(landscape=landscape)
        return Frame(width, height - _SPARE)

    def _keep(self, drawing: Drawing) -> Picture:
        """Write a drawing and return how a page calls it."""
        file = f"{drawing.name}.svg"
        self.files[file] = to_svg(drawing)
        return Picture(file=file, width=drawing.width, height=drawing.height, alt=drawing.description)
