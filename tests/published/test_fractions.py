"""Sums and roundings of fractions, worked out again by hand; no source prints them: they are arithmetic."""

from __future__ import annotations

from fractions import Fraction

import pytest
from tests.tape import inch, mm

from setline.lengths import TICKS_PER_INCH, Rounding, Units, round_to, show

SIXTEENTH = TICKS_PER_INCH // 16


def _to_a_sixteenth(decimal: str) -> str:
    """Return a decimal of inches as a mark is printed."""
    ticks = round(Fraction(decimal) * TICKS_PER_INCH)
    return show(round_to(ticks, SIXTEENTH, Rounding.NEAREST_UP), Units.INCH)


@pytest.mark.arithmetic(
    "23.47 x 16 = 375.5 and a little: 376 sixteenths; 11.719 x 16 = 187.5 and a little: 188"
)
def test_decimals_to_the_nearest_sixteenth() -> None:
    """23.47 and 23.48 are marked at 23 1/2, 11.719 at 11 3/4."""
    assert [_to_a_sixteenth(each) for each in ("23.47", "23.48", "11.719")] == ["23 1/2", "23 1/2", "11 3/4"]


@pytest.mark.arithmetic("22/32 + 13/32 = 35/32")
def test_fractions_of_two_kinds_add_up() -> None:
    """11/16 and 13/32 are 1 3/32."""
    assert show(inch("11/16") + inch("13/32"), Units.INCH) == "1 3/32"


@pytest.mark.arithmetic("35 1/2 - 2 1/4 = 33 1/4")
def test_three_thicknesses_come_off() -> None:
    """35 1/2 less three times 3/4 is 33 1/4."""
    assert show(inch("35 1/2") - 3 * inch("3/4"), Units.INCH) == "33 1/4"


@pytest.mark.arithmetic("5 x 25.4 / 16 = 7.9375")
def test_an_inch_is_25_4_millimetres() -> None:
    """5/16 in is 7.9375 mm exactly, which lies on the grid of ticks."""
    assert Fraction(inch("5/16"), mm(1)) == Fraction("7.9375")


@pytest.mark.arithmetic("875 / 25.4 = 34.4488; 29/64 = 0.4531 is the nearest 64th")
def test_millimetres_on_an_inch_tape() -> None:
    """875 mm lies nearest 34 29/64, and is told not to be that exactly."""
    assert show(mm(875), Units.INCH) == "~34 29/64"
