"""The straight line through readings."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.tape import inch

from setline.stages.floor.straightness import fit_line

readings = st.lists(
    st.tuples(st.integers(0, 400), st.integers(-90, 90)), min_size=3, max_size=12, unique_by=lambda r: r[0]
)


def test_a_straight_fall_is_its_own_line() -> None:
    """Readings that fall 1/4 a yard lie on their line, without doubt."""
    line = fit_line([(inch(36 * place), -inch("1/4") * place) for place in range(5)])
    assert line is not None
    assert line.slope == Fraction(-1, 144)
    assert (line.level, line.spread, line.slope_doubt) == (0, 0, 0)


def test_fewer_than_two_places_have_no_line() -> None:
    """One reading, or several at one place, give no slope; two give one of unknown doubt."""
    assert fit_line([]) is None
    assert fit_line([(5, 1), (5, 3)]) is None
    line = fit_line([(0, 0), (10, 5)])
    assert line is not None
    assert (line.slope, line.spread, line.slope_doubt) == (Fraction(1, 2), None, None)


@given(readings=readings)
def test_it_is_numpys_least_squares(readings: list[tuple[int, int]]) -> None:
    """Slope, level and their doubt are those of a general least squares solver."""
    line = fit_line(readings)
    assert line is not None
    along, heights = (np.array(part, dtype=float) for part in zip(*readings, strict=True))
    terms = np.column_stack((np.ones_like(along), along))
    (level, slope), _, _, _ = np.linalg.lstsq(terms, heights, rcond=None)
    variance = float(np.square(heights - terms @ (level, slope)).sum()) / (len(along) - 2)
    assert float(line.slope) == pytest.approx(slope, abs=1e-8)
    assert float(line.level) == pytest.approx(level, abs=1e-6)
    assert line.spread == pytest.approx(variance**0.5, abs=1e-6)
    assert line.slope_doubt == pytest.approx(
        (variance * np.linalg.inv(terms.T @ terms)[1, 1]) ** 0.5, abs=1e-8
    )


@given(readings=readings, tilt=st.integers(-20, 20))
def test_tilting_the_floor_tilts_the_line(readings: list[tuple[int, int]], tilt: int) -> None:
    """A steady fall added to every reading is added to the slope, exactly, and changes no doubt."""
    line = fit_line(readings)
    tilted = fit_line([(along, height + tilt * along) for along, height in readings])
    assert line is not None
    assert tilted is not None
    assert tilted.slope == line.slope + tilt
    assert tilted.spread == line.spread
