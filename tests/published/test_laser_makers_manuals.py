"""The two-wall check as makers of line and rotary lasers print it.

Source: makers' manuals, section on checking accuracy between two walls: the greatest difference allowed is
twice the distance times the rated error. One works it for 0.3 mm/m and walls 5 m apart (3 mm), one for
0.0024 in/ft and walls 16 ft apart (5/64 in).
"""

from __future__ import annotations

import pytest

from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM
from setline.stages.floor.laser_proof import Rating, prove_between_walls

FOOT = 12 * TICKS_PER_INCH


@pytest.mark.published("line laser maker's manual: walls 5 m apart, 0.3 mm/m, greatest difference 3 mm")
def test_the_metric_example() -> None:
    """3 mm is allowed and holds; a tenth more does not."""
    rating = Rating(error=3 * TICKS_PER_MM // 10, over=1000 * TICKS_PER_MM)
    proof = prove_between_walls(distance=5000 * TICKS_PER_MM, difference=3 * TICKS_PER_MM, rating=rating)
    assert proof.allowed == 3 * TICKS_PER_MM
    assert proof.holds
    beyond = prove_between_walls(
        distance=5000 * TICKS_PER_MM, difference=31 * TICKS_PER_MM // 10, rating=rating
    )
    assert not beyond.holds


@pytest.mark.published(
    "rotary laser maker's manual: walls 16 ft apart, 0.0024 in/ft, greatest difference 5/64 in"
)
def test_the_inch_example() -> None:
    """0.0768 in is allowed, which the manual prints as 5/64."""
    rating = Rating(error=24 * TICKS_PER_INCH, over=10_000 * FOOT)
    proof = prove_between_walls(distance=16 * FOOT, difference=TICKS_PER_INCH // 16, rating=rating)
    assert float(proof.allowed) / TICKS_PER_INCH == pytest.approx(0.0768)
    assert round(proof.allowed / TICKS_PER_INCH * 64) == 5
    assert proof.holds


@pytest.mark.arithmetic("1/8 in over 30 ft is 0.35 mm over a metre")
def test_the_class_of_an_eighth_at_thirty_feet() -> None:
    """The rating builders quote in inches is about the makers' metric one."""
    rating = Rating(error=TICKS_PER_INCH // 8, over=30 * FOOT)
    assert float(rating.slope) * 1000 == pytest.approx(0.35, abs=0.005)
