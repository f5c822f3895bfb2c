"""The grid, rounding with a direction, and printing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.tape import inch, mm

from setline.lengths import (
    TICKS_PER_INCH,
    TICKS_PER_MM,
    Rounding,
    Units,
    fine_step,
    mark_step,
    round_to,
    shim_step,
    show,
    show_feet,
)


def test_the_grid_holds_both_tapes_and_can_be_halved_three_times() -> None:
    """1/64 in and 0.1 mm are whole ticks that divide by eight, and 25.4 mm are an inch."""
    assert TICKS_PER_MM * 254 == TICKS_PER_INCH * 10
    assert TICKS_PER_INCH % (64 * 8) == 0
    assert TICKS_PER_MM % (10 * 8) == 0


@pytest.mark.parametrize(
    ("value", "up", "down", "nearest_up", "nearest_down"),
    [
        (5, 8, 4, 4, 4),
        (6, 8, 4, 8, 4),
        (7, 8, 4, 8, 8),
        (8, 8, 8, 8, 8),
        (-5, -4, -8, -4, -4),
        (-6, -4, -8, -4, -8),
    ],
)
def test_rounding_goes_where_it_is_told(
    value: int, up: int, down: int, nearest_up: int, nearest_down: int
) -> None:
    """Up is towards the greater number also below zero, and exact halves go where the name says."""
    assert round_to(value, 4, Rounding.UP) == up
    assert round_to(value, 4, Rounding.DOWN) == down
    assert round_to(value, 4, Rounding.NEAREST_UP) == nearest_up
    assert round_to(value, 4, Rounding.NEAREST_DOWN) == nearest_down


@given(st.integers(-(10**9), 10**9), st.integers(1, 10**5), st.sampled_from(list(Rounding)))
def test_rounding_lands_on_a_step_at_most_one_away(ticks: int, step: int, rounding: Rounding) -> None:
    """A rounded value is a whole step, less than one away (half of one for the nearest), and stays put."""
    rounded = round_to(ticks, step, rounding)
    assert rounded % step == 0
    most = step / 2 if rounding in (Rounding.NEAREST_UP, Rounding.NEAREST_DOWN) else step - 1
    assert abs(rounded - ticks) <= most
    assert round_to(rounded, step, rounding) == rounded


@given(st.integers(-(10**9), 10**9), st.integers(1, 10**5))
def test_turning_the_sign_turns_the_direction(ticks: int, step: int) -> None:
    """Up of a value is down of its mirror image, and likewise for exact halves."""
    assert round_to(-ticks, step, Rounding.UP) == -round_to(ticks, step, Rounding.DOWN)
    assert round_to(-ticks, step, Rounding.NEAREST_UP) == -round_to(ticks, step, Rounding.NEAREST_DOWN)


def test_the_steps_of_either_tape() -> None:
    """Marks go to 1/16 or 1 mm, shims to 1/32 or 1 mm, the finer marks to 1/32 or 0.5 mm."""
    assert mark_step(Units.INCH) == inch("1/16")
    assert shim_step(Units.INCH) == fine_step(Units.INCH) == inch("1/32")
    assert mark_step(Units.METRIC) == shim_step(Units.METRIC) == mm(1)
    assert fine_step(Units.METRIC) == mm("0.5")


@pytest.mark.parametrize(
    ("ticks", "inches", "millimetres"),
    [
        (0, "0", "0"),
        (inch("27 7/16"), "27 7/16", "~696.9"),
        (inch("112 3/16"), "112 3/16", "~2849.6"),
        (-inch("1/8"), "-1/8", "~-3.2"),
        (-inch("1 1/2"), "-1 1/2", "-38.1"),
        (mm(874), "~34 13/32", "874"),
        (mm("874.5"), "~34 27/64", "874.5"),
        (-mm("0.5"), "~-1/64", "-0.5"),
        (mm(875), "~34 29/64", "875"),
        (1, "~0", "~0"),
        (-1, "~0", "~0"),
        (508, "~1/64", "~0.2"),
    ],
)
def test_a_length_prints_as_the_tape_shows_it(ticks: int, inches: str, millimetres: str) -> None:
    """Fractions come in lowest terms, a sign before them, and ~ before what the tape cannot show."""
    assert show(ticks, Units.INCH) == inches
    assert show(ticks, Units.METRIC) == millimetres


@pytest.mark.parametrize(
    ("inches", "feet"),
    [
        ("112 3/16", "9' 4 3/16"),
        ("108", "9'"),
        ("11 1/2", "11 1/2"),
        ("0", "0"),
        ("-100", "-8' 4"),
        ("12 1/4", "1' 1/4"),
    ],
)
def test_feet_stand_before_inches(inches: str, feet: str) -> None:
    """Feet are split off from twelve inches on."""
    assert show_feet(inch(inches)) == feet


@given(st.integers(-480 * TICKS_PER_INCH, 480 * TICKS_PER_INCH), st.sampled_from(list(Units)))
def test_a_printed_length_is_within_half_a_line_of_the_true_one(ticks: int, units: Units) -> None:
    """What is printed lies within half of 1/64 in or 0.1 mm, and bears a ~ where it is not the value."""
    text = show(ticks, units)
    value = (inch if units == Units.INCH else mm)(text.removeprefix("~"))
    half = (TICKS_PER_INCH // 64 if units == Units.INCH else TICKS_PER_MM // 10) // 2
    assert abs(value - ticks) <= half
    assert text.startswith("~") == (value != ticks)
