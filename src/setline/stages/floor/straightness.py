"""The straight line through a line of readings: how much the floor falls along it, and how sure that is."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

__all__ = ["FittedLine", "fit_line"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedLine:
    """The least squares line through readings.

    Attributes:
        slope: Rise per unit along. Exact.
        level: Height at 0 along. Exact.
        spread: Standard deviation of the readings about it (two readings fewer count); None for two readings.
        slope_doubt: Standard deviation of the slope by that spread; None for two readings.
    """

    slope: Fraction
    level: Fraction
    spread: float | None
    slope_doubt: float | None


def fit_line(readings: Sequence[tuple[int | Fraction, int | Fraction]]) -> FittedLine | None:
    """Return the line that leaves the least sum of squares of the heights, in exact arithmetic.

    Args:
        readings: (along, height) of each reading, in any order and any one unit.

    Returns:
        None for readings at fewer than two places.

    Source:
        Least squares, normal equations; whole numbers and fractions, so nothing is lost to rounding.
    """
    count = len(readings)
    if len({along for along, _ in readings}) < 2:
        return None
    sum_along, sum_height = sum(along for along, _ in readings), sum(height for _, height in readings)
    along_square = count * sum(along * along for along, _ in readings) - sum_along * sum_along
    product = count * sum(along * height for along, height in readings) - sum_along * sum_height
    slope = Fraction(product) / along_square
    level = (sum_height - slope * sum_along) / count
    if count == 2:
        return FittedLine(slope=slope, level=level, spread=None, slope_doubt=None)
    square = Fraction(along_square, count)
    height_square = count * sum(height * height for _, height in readings) - sum_height * sum_height
    left = (height_square - slope * product) / count
    spread = math.sqrt(left / (count - 2))
    return FittedLine(slope=slope, level=level, spread=spread, slope_doubt=spread / math.sqrt(square))
