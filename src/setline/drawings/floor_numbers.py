"""The numbers that stand on a floor: how far it lies below the high spot, as a shim there would.

A reading down from the laser says nothing until it is compared; the fall below the high spot is what the
installer acts on, and it is the same number from whichever set-up the spot was read. The reading as typed
stands in the table.
"""

from __future__ import annotations

from setline.lengths import Rounding, Units, round_to, shim_step, show
from setline.result import FloorSpot, Plan, SurfaceGrid

__all__ = ["below_high_spot", "floor_zero", "is_known", "spot_height", "spot_number"]


def spot_height(spot: FloorSpot) -> int | None:
    """Return the height of the floor that boxes stand on at a reading, coverings to come included."""
    return spot.z if spot.under_boxes is None else spot.under_boxes


def floor_zero(plan: Plan) -> int | None:
    """Return the height that falls are counted from: the high spot, or without one the highest reading."""
    high = plan.level_line.high_spot
    if high is not None and high.height.value is not None:
        return high.height.value
    heights = [spot_height(spot) for spot in plan.floor.spots]
    return max((height for height in heights if height is not None), default=None)


def below_high_spot(z: int, zero: int, units: Units) -> str:
    """Return how far a height lies below the high spot, as printed; ``+`` is above it."""
    low = round_to(zero - z, shim_step(units), Rounding.NEAREST_UP)
    return f"+{show(-low, units)}" if low < 0 else show(low, units)


def spot_number(spot: FloorSpot, zero: int | None, units: Units) -> str:
    """Return the number printed at a reading; ``?`` if its set-up is tied to no other."""
    height = spot_height(spot)
    return "?" if height is None or zero is None else below_high_spot(height, zero, units)


def is_known(grid: SurfaceGrid | None, x: int, y: int) -> bool:
    """Return whether the modelled floor has a height at the grid's place nearest to a spot."""
    if grid is None or not grid.xs or not grid.ys:
        return False
    column = min(range(len(grid.xs)), key=lambda index: abs(grid.xs[index] - x))
    row = min(range(len(grid.ys)), key=lambda index: abs(grid.ys[index] - y))
    return grid.heights[row][column] is not None
