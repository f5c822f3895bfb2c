"""The risk that the true high spot stands over the one that set the line."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM, Units
from setline.result import HighSpotRisk, OddSpot
from setline.stages.floor.bearing import Bearing
from setline.stages.floor.surface import SIDE_OF_95

__all__ = ["SETTLED", "high_spot_risk", "move_that_matters"]

SETTLED = 0.05  # a move less likely than this leaves the line settled
LIKELIEST = 3  # spots that are named


def move_that_matters(units: Units) -> int:
    """Return the move of the line from which it is told: 1/16 in, or 2 mm."""
    return TICKS_PER_INCH // 16 if units == Units.INCH else 2 * TICKS_PER_MM


def high_spot_risk(
    asked: NDArray[np.float64], bearings: Sequence[Bearing], tops: int, units: Units
) -> HighSpotRisk:
    """Return the risk of a higher spot.

    Only upwards: a floor that is lower than its readings thickens a shim, and leaves every box where it is.

    Args:
        asked: Where each bearing point carries the tops, one floor a row. [ticks]
        bearings: The points, one a column.
        tops: Height of the tops as planned. [ticks]
        units: The job's tape.
    """
    over = asked.max(axis=1) - tops
    odds_of_a_move = float((over > move_that_matters(units)).mean())
    return HighSpotRisk(
        odds=float((over > 0).mean()),
        odds_of_a_move=odds_of_a_move,
        move=move_that_matters(units),
        mean=round(float(over.mean())),
        middle=round(float(np.quantile(over, 0.5))),
        nine_in_ten=round(float(np.quantile(over, 0.9))),
        within=round(SIDE_OF_95 * float(over.std())),
        where=_likeliest(asked, bearings),
        settled=odds_of_a_move < SETTLED,
    )


def _likeliest(asked: NDArray[np.float64], bearings: Sequence[Bearing]) -> tuple[OddSpot, ...]:
    """Return the points that are most often the high spot; points of one place count as one."""
    places = {(each.x, each.y, each.foot): column for column, each in reversed(list(enumerate(bearings)))}
    columns = np.array(sorted(places.values()))
    counts = np.bincount(asked[:, columns].argmax(axis=1), minlength=len(columns))
    return tuple(
        OddSpot(
            point=bearings[columns[place]].name,
            wall=bearings[columns[place]].wall,
            u=bearings[columns[place]].u,
            out=bearings[columns[place]].out,
            odds=float(counts[place] / len(asked)),
        )
        for place in np.argsort(-counts, kind="stable")[:LIKELIEST]
        if counts[place]
    )
