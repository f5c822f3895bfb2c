"""The floor on a rectangular grid, for its picture: only where a reading lies near enough for a number."""

from __future__ import annotations

from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Units
from setline.result import SurfaceGrid
from setline.stages.floor.ground import Ground

__all__ = ["surface_grid"]

MOST_CELLS = 1500  # a coarser grid is taken for a larger room


def surface_grid(ground: Ground) -> SurfaceGrid | None:
    """Return the floor that boxes stand on over the room's rectangle, or None without readings.

    Columns and rows stand 6 in (150 mm) apart, farther in a large room.
    """
    if ground.model is None:
        return None
    walls = ground.outline.walls
    ends = [(line.x0, line.y0) for line in walls] + [(line.x1, line.y1) for line in walls]
    places = [*ends, *((spot.x, spot.y) for spot in ground.spots)]
    xs, ys = _axes(places, 6 * TICKS_PER_INCH if ground.job.job.tape is Units.INCH else 150 * TICKS_PER_MM)
    cells = [(x, y) for y in ys for x in xs]
    limit = ground.book.length("doubt-limit")
    known = [cell for cell, near in zip(cells, ground.has_near_reading(cells), strict=True) if near]
    heights = dict(zip(known, ground.model.at(known), strict=True))
    rows, halves = [], []
    for y in ys:
        row = [heights.get((x, y)) for x in xs]
        sure = [each if each is not None and each.within <= limit else None for each in row]
        rows.append(
            tuple(
                None if each is None else each.height + _over(ground, (x, y))
                for x, each in zip(xs, sure, strict=True)
            )
        )
        halves.append(tuple(None if each is None else each.within for each in sure))
    return SurfaceGrid(xs=xs, ys=ys, heights=tuple(rows), within=tuple(halves))


def _over(ground: Ground, spot: tuple[int, int]) -> int:
    """Return what boxes stand on over the bare floor."""
    return ground.coverings.under_boxes(spot) if ground.coverings.all else 0


def _axes(places: list[tuple[int, int]], step: int) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Return the columns and rows of a grid that covers some places, at a step or a multiple of it."""
    left, right = min(x for x, _ in places), max(x for x, _ in places)
    back, front = min(y for _, y in places), max(y for _, y in places)
    while ((right - left) // step + 2) * ((front - back) // step + 2) > MOST_CELLS:
        step *= 2
    return tuple(range(left, right + step, step)), tuple(range(back, front + step, step))
