"""Flatness and levelness numbers, and the lines they may be given for."""

from __future__ import annotations

import pytest
from tests.tape import inch, mm

from setline.stages.floor.e1155 import curvatures, flatness_numbers, levelness_falls

SIXTEENTHS = (0, 1, 2, 1, 0, -1, 0, 1, 2, 2, 1, 0, 0)


def _line(heights: tuple[int, ...], spacing: int = inch(12)) -> list[tuple[int, int]]:
    """Return readings at even spacing."""
    return [(spacing * place, height) for place, height in enumerate(heights)]


@pytest.mark.arithmetic(
    "q and z by subtraction; mean and spread worked out again with a pocket statistics table"
)
def test_a_line_of_thirteen_readings() -> None:
    """q, z and both numbers of a line read in sixteenths."""
    heights = tuple(count * inch("1/16") for count in SIXTEENTHS)
    assert [q // inch("1/16") for q in curvatures(heights)] == [0, -2, 0, 0, 2, 0, 0, -1, -1, 0, 1]
    assert [z // inch("1/16") for z in levelness_falls(heights)] == [1, -1, -2]
    numbers = flatness_numbers(_line(heights))
    assert numbers is not None
    assert numbers.ff == pytest.approx(22.678, abs=5e-4)
    assert numbers.fl == pytest.approx(38.101, abs=5e-4)


def test_twice_as_wavy_is_half_the_number() -> None:
    """Both numbers are linear: double every height and they halve."""
    one = flatness_numbers(_line(tuple(count * inch("1/16") for count in SIXTEENTHS)))
    two = flatness_numbers(_line(tuple(count * inch("1/8") for count in SIXTEENTHS)))
    assert one is not None
    assert two is not None
    assert one.ff == pytest.approx(2 * (two.ff or 0))
    assert one.fl == pytest.approx(2 * (two.fl or 0))


def test_a_steady_fall_is_flat_but_not_level() -> None:
    """A floor that falls 1/8 a foot without a wave has no limit to its flatness, and a poor levelness."""
    numbers = flatness_numbers(_line(tuple(-place * inch("1/8") for place in range(14))))
    assert numbers is not None
    assert numbers.ff is None
    assert numbers.fl == pytest.approx(12.5 / 1.25)


@pytest.mark.parametrize(
    ("line", "given"),
    [
        (_line((0,) * 11 + (1,)), True),
        (_line((0,) * 10 + (1,)), False),
        (_line((0,) * 11 + (1,), mm(300)), True),
        (_line((0,) * 11 + (1,), inch("12 1/4")), True),
        (_line((0,) * 11 + (1,), inch("12 3/8")), False),
        (_line((0,) * 20 + (1,), inch(16)), False),
        ([*_line((0,) * 12)[:6], *_line((0,) * 14)[7:]], False),
    ],
    ids=["12 readings", "11 readings", "300 mm", "12 1/4 apart", "12 3/8 apart", "16 apart", "one left out"],
)
def test_only_a_line_read_every_foot_has_numbers(line: list[tuple[int, int]], given: bool) -> None:
    """Twelve readings or more, each a foot from the one before; otherwise nothing is said."""
    assert (flatness_numbers(line) is not None) is given
