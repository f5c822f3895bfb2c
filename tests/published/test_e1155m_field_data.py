"""Floor profiles measured by a national laboratory's alignment group.

Source: "ASTM E1155M spreadsheet results", 5 May 2003: elevations in mm at 300 mm, and for each line the first
profile curvatures q as printed there. Its F-numbers are not printed; those here were worked out again.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from setline.lengths import TICKS_PER_MM
from setline.stages.floor.e1155 import curvatures, flatness_numbers, levelness_falls

SOURCE = "ASTM E1155M spreadsheet results, national laboratory alignment group, 5 May 2003"
LINE_A = """
418.617 419.938 421.894 423.748 425.221 424.739 423.799 424.307 425.425 424.688
423.164 422.758 420.472 416.738
"""
LINE_B = """
418.592 421.081 422.072 421.513 420.040 421.132 420.675 421.640 421.894 421.538
421.183 421.894 419.684 420.040 417.982
"""
LINE_C = """
418.338 419.659 419.227 419.227 418.668 418.186 418.973 419.379 420.141 419.532
418.643 418.719 416.763 414.782
"""


def _ticks(elevations: str) -> list[int]:
    """Return elevations in mm as ticks."""
    return [round(Decimal(text) * TICKS_PER_MM) for text in elevations.split()]


def _millimetres(ticks: tuple[int, ...]) -> list[float]:
    """Return ticks as mm."""
    return [value / TICKS_PER_MM for value in ticks]


@pytest.mark.published(f"{SOURCE}: line A, q2 to q4")
def test_curvatures_of_line_a() -> None:
    """The first three curvatures of line A are those printed."""
    assert _millimetres(curvatures(_ticks(LINE_A)))[:3] == pytest.approx([0.635, -0.102, -0.381], abs=0.0015)


@pytest.mark.published(f"{SOURCE}: line B, q2 to q4")
def test_curvatures_of_line_b() -> None:
    """The first three curvatures of line B are those printed."""
    assert _millimetres(curvatures(_ticks(LINE_B)))[:3] == pytest.approx([-1.499, -1.549, -0.914], abs=0.0015)


@pytest.mark.published(f"{SOURCE}: line C, q2 to q4")
def test_curvatures_of_line_c() -> None:
    """The first three curvatures of line C are those printed."""
    assert _millimetres(curvatures(_ticks(LINE_C)))[:3] == pytest.approx([-1.753, 0.432, -0.559], abs=0.0015)


@pytest.mark.arithmetic("z = h(i) - h(i-10), FF and FL worked out again from the same elevations")
@pytest.mark.parametrize(
    ("elevations", "falls", "ff", "fl"),
    [
        (LINE_A, (4.547, 2.820, -1.422, -7.010), 28.84, 20.21),
        (LINE_B, (2.591, 0.813, -2.388, -1.473, -2.058), 20.44, 45.98),
        (LINE_C, (0.305, -0.940, -2.464, -4.445), 34.63, 39.55),
    ],
    ids=["line A", "line B", "line C"],
)
def test_falls_and_numbers_of_the_lines(
    elevations: str, falls: tuple[float, ...], ff: float, fl: float
) -> None:
    """The falls over ten steps and both numbers of each line, its 300 mm steps taken for feet."""
    heights = _ticks(elevations)
    assert _millimetres(levelness_falls(heights)) == pytest.approx(falls, abs=0.0015)
    numbers = flatness_numbers([(300 * TICKS_PER_MM * place, height) for place, height in enumerate(heights)])
    assert numbers is not None
    assert numbers.ff == pytest.approx(ff, abs=0.01)
    assert numbers.fl == pytest.approx(fl, abs=0.01)
