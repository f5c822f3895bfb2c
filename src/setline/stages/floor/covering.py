"""Coverings laid and to come: how thick the floor is on top of the bare one, at a spot and for a purpose.

The surface is fitted to the bare floor. What was read on a laid covering has its thickness taken off; what
stands on coverings gets theirs put back:

* boxes stand on what is laid and on what comes *before the boxes*;
* appliances and toe kicks also meet what comes *after* them.

A covering reaches the wall, or stops at the toe line of every wall that base boxes stand at. Right at that
edge it depends on what is asked: a machine slides in over it, but stands behind it.
"""

from __future__ import annotations

from dataclasses import dataclass

from setline.job.floor import Area, Covering
from setline.job.job import Job
from setline.stages.room import Outline

__all__ = ["Coverings", "coverings_of"]

BEFORE_BOXES = ("laid", "before boxes")


@dataclass(frozen=True, slots=True, kw_only=True)
class Coverings:
    """Every covering of a job, over its room.

    Attributes:
        outline: The room.
        toe_line: How far out from a wall the toe line lies. [ticks]
        base_walls: Walls that base boxes stand at.
        all: The coverings, in the job's order.
    """

    outline: Outline
    toe_line: int
    base_walls: tuple[str, ...]
    all: tuple[Covering, ...]

    def laid(self, spot: tuple[int, int]) -> int:
        """Return how much is laid on the bare floor at x, y, in ticks."""
        return sum(
            each.thickness.ticks for each in self.all if each.when == "laid" and self._lies(each, spot)
        )

    def under_boxes(self, spot: tuple[int, int]) -> int:
        """Return how much boxes at x, y stand on, over the bare floor, in ticks."""
        return sum(
            each.thickness.ticks for each in self.all if each.when in BEFORE_BOXES and self._lies(each, spot)
        )

    def finished(self, spot: tuple[int, int], *, at_edge: bool) -> int:
        """Return how much lies on the bare floor at x, y once all of it is down.

        Args:
            spot: x, y in the room. [ticks]
            at_edge: Whether a covering that stops at the toe line counts right at it.
        """
        return sum(each.thickness.ticks for each in self.all if self._lies(each, spot, at_edge=at_edge))

    def in_the_room(self, spot: tuple[int, int]) -> int:
        """Return how much lies on the bare floor once all is down, as measured beside the bases, in ticks.

        A height above the finished floor is measured from where one can stand, not from under a box.
        """
        return sum(
            each.thickness.ticks
            for each in self.all
            if not each.areas or any(self._in_area(area, spot) for area in each.areas)
        )

    def _lies(self, covering: Covering, spot: tuple[int, int], *, at_edge: bool = False) -> bool:
        """Return whether a covering lies at a spot."""
        inside = not covering.areas or any(self._in_area(area, spot) for area in covering.areas)
        return inside and (covering.reaches == "wall" or not self._behind_toe_line(spot, at_edge=at_edge))

    def _in_area(self, area: Area, spot: tuple[int, int]) -> bool:
        """Return whether a spot lies in a rectangle along a wall, its edges included."""
        u, out = self.outline.from_room(area.wall, *spot)
        limits = ((area.left, u, area.right), (area.out_least, out, area.out_most))
        return all(
            (least is None or least.ticks <= value) and (most is None or value <= most.ticks)
            for least, value, most in limits
        )

    def _behind_toe_line(self, spot: tuple[int, int], *, at_edge: bool) -> bool:
        """Return whether a spot lies under the bases of a wall; their toe line does, unless as the edge."""
        for wall in self.base_walls:
            u, out = self.outline.from_room(wall, *spot)
            before = out < self.toe_line if at_edge else out <= self.toe_line
            if 0 <= u <= self.outline.line(wall).length and out >= 0 and before:
                return True
        return False


def coverings_of(job: Job, outline: Outline, toe_line: int) -> Coverings:
    """Return a job's coverings over its room."""
    walls = tuple(dict.fromkeys(run.wall for run in job.runs if run.row == "base"))
    return Coverings(outline=outline, toe_line=toe_line, base_walls=walls, all=job.floor.coverings)
