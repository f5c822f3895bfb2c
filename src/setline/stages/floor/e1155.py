"""Floor flatness and levelness numbers, only for a line that was truly read every 12 in.

A flatness number judges how the slope changes from foot to foot, a levelness number how the floor falls over
10 ft. Both are linear: 20 is twice as flat as 10. They are never taken from the fitted surface, which is
smoother than any floor.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from setline.lengths import TICKS_PER_INCH

__all__ = ["FlatnessNumbers", "curvatures", "flatness_numbers", "levelness_falls"]

FEWEST = 12  # readings in a sample
SPACING = 12 * TICKS_PER_INCH
STRAY = TICKS_PER_INCH // 4  # a spacing of 12 in as a tape finds it; 300 mm, the metric step, lies inside
OVER = 10  # steps in 10 ft
FLATNESS_FACTOR = 4.57  # inches; from memory, as is the next (docs/sources.md)
LEVELNESS_FACTOR = 12.5
SPREADS = 3  # both numbers judge the mean and so many standard deviations


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatnessNumbers:
    """The two numbers of a line.

    Attributes:
        ff: Flatness; None for a line without any curvature, for which the number has no limit.
        fl: Levelness; None for a line without any fall over 10 ft.
    """

    ff: float | None
    fl: float | None


def flatness_numbers(readings: Sequence[tuple[int, int]]) -> FlatnessNumbers | None:
    """Return flatness and levelness of a line of readings, or None if it was not read for that.

    Args:
        readings: (along, height) of each reading, in order; height up positive. [ticks]

    Returns:
        None unless there are 12 readings or more and each stands 12 in (within 1/4) from the one before.

    Source:
        ASTM E1155-96: sample of at least 12 readings, q and z; the factors 4.57 and 12.5 are from memory.
    """
    if len(readings) < FEWEST:
        return None
    if any(abs(right - left - SPACING) > STRAY for (left, _), (right, _) in pairwise(readings)):
        return None
    heights = [height for _, height in readings]
    return FlatnessNumbers(
        ff=_number(FLATNESS_FACTOR, curvatures(heights)),
        fl=_number(LEVELNESS_FACTOR, levelness_falls(heights)),
    )


def curvatures(heights: Sequence[int]) -> tuple[int, ...]:
    """Return q, from the third reading on: by how much a step's rise exceeds the rise of the step before it.

    Source:
        ASTM E1155-96: d(i) = h(i) - h(i-1), q(i) = d(i) - d(i-1).
    """
    rises = [after - before for before, after in pairwise(heights)]
    return tuple(after - before for before, after in pairwise(rises))


def levelness_falls(heights: Sequence[int]) -> tuple[int, ...]:
    """Return z: by how much each reading stands above the one ten steps before it.

    Source:
        ASTM E1155-96: z(i) = h(i) - h(i-10).
    """
    return tuple(after - before for before, after in zip(heights, heights[OVER:], strict=False))


def _number(factor: float, values: Sequence[int]) -> float | None:
    """Return factor / (3 s + |mean|) of values in ticks, reckoned in inches; None if both are 0."""
    mean = Fraction(sum(values), len(values))
    variance = sum((value - mean) ** 2 for value in values) / (len(values) - 1)
    spread = SPREADS * math.sqrt(variance) + abs(float(mean))
    return factor * TICKS_PER_INCH / spread if spread else None
