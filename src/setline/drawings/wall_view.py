"""A wall on paper, seen facing it: u from the left corner to the right, heights from the level line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from setline.drawings.floor_numbers import spot_height
from setline.drawings.running import RunningMark
from setline.drawings.scale import on_paper
from setline.drawings.shapes import Rect, Scale
from setline.drawings.standing import Standing, stand
from setline.lengths import TICKS_PER_INCH, Units, show
from setline.result import Edge, ItemPlace, Plan, RunPlan, WallLine

__all__ = ["WallView", "heights_shown", "reach_along", "row_marks", "seen_once"]

_OVER = 2 * TICKS_PER_INCH
"""Wall shown over the highest thing."""
_CEILING_NEAR = 8 * TICKS_PER_INCH
"""A ceiling farther than this over the highest thing is not drawn."""
_LEAST_DOWN = -30 * TICKS_PER_INCH


@dataclass(frozen=True, slots=True)
class WallView:
    """Where a wall lies on paper.

    Attributes:
        scale: The scale.
        left: x of the left corner.
        level: y of the level line.
    """

    scale: Scale
    left: float
    level: float

    def x(self, u: int) -> float:
        """Return the x of a place along the wall."""
        return self.left + on_paper(u, self.scale)

    def y(self, above_level: int) -> float:
        """Return the y of a height above the level line."""
        return self.level - on_paper(above_level, self.scale)

    def box(self, thing: Standing) -> Rect:
        """Return an item's outline."""
        item = thing.item
        return (self.x(thing.left), self.y(item.top), self.x(thing.right), self.y(item.bottom))


def reach_along(line: WallLine, runs: Sequence[RunPlan]) -> tuple[int, int]:
    """Return the least and greatest u that the wall or anything at it reaches."""
    things = [thing for run in runs for thing in stand(run)]
    return (min([0, *(t.left for t in things)]), max([line.length, *(t.right for t in things)]))


def heights_shown(plan: Plan, line: WallLine, runs: Sequence[RunPlan]) -> tuple[int, int]:
    """Return the least and greatest height above the level line that an elevation shows."""
    items = [item for run in runs for item in run.items]
    high = max([0, *(item.top for item in items)])
    low = min([_LEAST_DOWN, *(item.bottom for item in items)])
    tops = plan.level_line.tops.value
    if tops is not None:
        edges = [z for opening in line.openings for z in (opening.bottom, opening.top)]
        heads = [z - tops for z in edges if z is not None]
        high = max([high, *heads])
        ceiling = [z - tops for _, z in line.ceiling if z - tops < high + _CEILING_NEAR]
        high = max([high, *ceiling])
        heights = [spot_height(spot) for spot in plan.floor.spots if spot.wall == line.name]
        floor = [height - tops for height in heights if height is not None]
        low = min([low, *(z for z in floor if z > 2 * low)])
    return low, high + _OVER


def row_marks(runs: Sequence[RunPlan], units: Units, view: WallView, *, upper: bool) -> list[RunningMark]:
    """Return a row's marks as running numbers, left to right; ``?`` where a run cannot be solved."""
    marks = []
    for run in runs:
        things = stand(run)
        for index, mark in enumerate(run.marks):
            before = things[index - 1] if 0 < index <= len(things) else None
            after = things[index] if index < len(things) else None
            beside = [thing for thing in (before, after) if thing]
            edges = [view.y(t.item.top if upper else t.item.bottom) for t in beside] or [view.level]
            u = mark.at.value if mark.at.value is not None else (after.left if after else things[-1].right)
            body = 0
            if mark.edge == Edge.BODY and mark.of_item is not None:
                body = 1 if after and after.item.number == mark.of_item else -1
            text = "?" if mark.printed is None else show(mark.printed, units)
            marks.append(RunningMark(view.x(u), text, min(edges) if upper else max(edges), body))
    return sorted(marks, key=lambda mark: mark.x)


def seen_once(runs: Sequence[RunPlan]) -> list[tuple[RunPlan, Standing]]:
    """Return every item of a wall once, bases first: a tall box stands in both rows."""
    seen: dict[int, ItemPlace] = {}
    found = []
    for run in sorted(runs, key=lambda run: run.row != "base"):
        for thing in stand(run):
            if thing.item.number not in seen:
                seen[thing.item.number] = thing.item
                found.append((run, thing))
    return found
