"""The two-peg test in surveying exercises.

Source: surveying exercise pages on the two-peg test, example 1 and question 3. In example 1 the instrument
stands 25 m from peg A and 50 m from peg B; the printed result is 0.060 m in 100 m, inclined down. Of question
3 only the readings are taken: its answer was worked out again (the page's own is wrong).
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from setline.lengths import TICKS_PER_MM
from setline.stages.floor.laser_proof import Rating, prove_by_pegs

METRE = 1000 * TICKS_PER_MM
RATING = Rating(error=3 * TICKS_PER_MM // 10, over=METRE)


@pytest.mark.published("two-peg test, surveying exercise pages: example 1, 0.060 m in 100 m inclined down")
def test_example_1() -> None:
    """Staff readings 2.847 and 3.462, reduced levels 283.665 and 284.295."""
    proof = prove_by_pegs(
        near=25 * METRE,
        far=50 * METRE,
        true_difference=(284_295 - 283_665) * TICKS_PER_MM,
        difference=(3462 - 2847) * TICKS_PER_MM,
        rating=RATING,
    )
    assert proof.slope == Fraction(-60, 100_000), "falls 0.060 m in 100 m"
    assert not proof.holds


@pytest.mark.arithmetic("question 3 of the same pages: midway 1.365 and 1.118, near A 1.572 and 1.317")
def test_question_3() -> None:
    """Midway A reads 0.247 more than B, from close to A 0.255: B reads 8 mm low over the length AB."""
    proof = prove_by_pegs(
        near=0,
        far=50 * METRE,
        true_difference=(1118 - 1365) * TICKS_PER_MM,
        difference=(1317 - 1572) * TICKS_PER_MM,
        rating=RATING,
    )
    assert proof.found == 8 * TICKS_PER_MM
    assert proof.slope is not None
    assert proof.slope < 0
