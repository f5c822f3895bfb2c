"""Floors that the readings allow, drawn at the bearing points and at the spots that might be read next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from setline.stages.floor.bearing import Bearing
from setline.stages.floor.ground import Ground
from setline.stages.floor.surface import FloorModel

__all__ = ["FLOORS", "SEED", "DrawnFloors", "ReadingSpot", "draw_floors"]

Array = NDArray[np.float64]

FLOORS = 2000  # enough to tell odds of 5 in 100 to half a part in 100
SEED = 16  # any number; that it stays the same is what matters


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingSpot:
    """A spot that might be read.

    Attributes:
        wall: The wall's letter.
        u: Along it. [ticks]
        out: From it. [ticks]
        line: ``wall`` or ``toe``, or the distance out as it is printed.
        x: In the room. [ticks]
        y: In the room. [ticks]
        again: Whether it was read already.
    """

    wall: str
    u: int
    out: int
    line: str
    x: int
    y: int
    again: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnFloors:
    """Floors, one a row.

    Attributes:
        asked: Where each bearing point carries the tops, one a column. [ticks, not whole]
        bare: Height of the bare floor at each spot that might be read, one a column. [ticks, not whole]
    """

    asked: Array
    bare: Array


def draw_floors(
    ground: Ground, model: FloorModel, bearings: Sequence[Bearing], spots: Sequence[ReadingSpot]
) -> DrawnFloors:
    """Draw floors jointly at all the points.

    Args:
        ground: The floor, for its coverings.
        model: Its surface.
        bearings: Points that boxes stand on; at least one.
        spots: Spots that might be read.
    """
    places = [(each.x, each.y) for each in bearings] + [(each.x, each.y) for each in spots]
    single = {place: column for column, place in enumerate(dict.fromkeys(places))}
    drawn = model.samples(list(single), FLOORS, SEED)[:, [single[place] for place in places]]
    over = [ground.coverings.under_boxes((each.x, each.y)) for each in bearings]
    lift = [each.tops_over(thick, each.nominal) for each, thick in zip(bearings, over, strict=True)]
    count = len(bearings)
    return DrawnFloors(asked=drawn[:, :count] + np.array(lift, dtype=np.float64), bare=drawn[:, count:])
