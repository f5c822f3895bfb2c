"""Steel tapes: the limits of the classes, and what heat and cold do.

Sources: the class table of Directive 2004/22/EC, annex MI-008, as sellers of tapes reprint it (class II at 3,
5, 8 and 10 m, classes I and III at 10 m); a lecture note on correction due to temperature (318 m, tape marked
at 20 C, corrected length 318.103 m, so it was read at 47.92 C); lecture slides on taping corrections
(368.50 ft read at 22 F by a tape marked at 68 F, correction -0.11 ft).
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from setline.lengths import TICKS_PER_INCH, TICKS_PER_MM
from setline.stages.tape import degrees_celsius, heat_correction, tape_error

METRE = 1000 * TICKS_PER_MM
FOOT = 12 * TICKS_PER_INCH


@pytest.mark.published(
    "Directive 2004/22/EC annex MI-008, as reprinted by sellers of tapes: limits of the classes"
)
def test_the_limits_of_the_classes() -> None:
    """Class II is 0.9, 1.3, 1.9 and 2.3 mm at 3, 5, 8 and 10 m; at 10 m class I is 1.1 and class III 4.6."""
    limits = {metres: tape_error(metres * METRE, "II") for metres in (3, 5, 8, 10)}
    assert limits == {
        metres: tenths * TICKS_PER_MM // 10 for metres, tenths in ((3, 9), (5, 13), (8, 19), (10, 23))
    }
    assert tape_error(10 * METRE, "I") == 11 * TICKS_PER_MM // 10
    assert tape_error(10 * METRE, "III") == 46 * TICKS_PER_MM // 10


@pytest.mark.published("lecture note on correction due to temperature: 318 m read at 47.92 C is 318.103 m")
def test_a_hot_tape_reads_short() -> None:
    """The correction is 0.103 m to the millimetre."""
    correction = heat_correction(318 * METRE, Fraction("47.92"))
    assert round(correction / METRE, 3) == 0.103


@pytest.mark.published("lecture slides on taping corrections: 368.50 ft read at 22 F are 0.11 ft less")
def test_a_cold_tape_reads_long() -> None:
    """The correction is -0.11 ft to the hundredth."""
    correction = heat_correction(737 * FOOT // 2, degrees_celsius("22 F"))
    assert round(correction / FOOT, 2) == -0.11


@pytest.mark.arithmetic("12 ft of steel 30 F off its mark: 12 x 12 x 30 x 6.45 millionths = 0.028 in")
def test_a_kitchen_s_tape_is_hardly_off() -> None:
    """On the scale of a kitchen a cold truck's tape is off by less than 1/32."""
    correction = heat_correction(12 * FOOT, degrees_celsius("38 F"))
    assert round(correction / TICKS_PER_INCH, 3) == -0.028
    assert abs(correction) < TICKS_PER_INCH // 32
