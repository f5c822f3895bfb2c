from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from setline.drawings.running import RunningMark, plan_row, spread

_PLACES = st.lists(st.floats(0.0, 250.0), min_size=1, max_size=30).map(sorted)


def test_numbers_with_room_stand_on_their_marks() -> None:
    """Where there is room nothing moves."""
    assert spread([10.0, 50.0, 90.0], [20.0, 20.0, 20.0], 0.0, 100.0) == [10.0, 50.0, 90.0]


def test_two_at_one_place_part_equally() -> None:
    """Two numbers for one mark stand evenly to its left and right."""
    assert spread([50.0, 50.0], [20.0, 10.0], 0.0, 100.0) == [42.5, 57.5]


def test_the_ends_push_back() -> None:
    """A number at the end of the paper is pushed in, and its neighbour with it."""
    assert spread([0.0, 5.0], [20.0, 20.0], 0.0, 100.0) == [10.0, 30.0]


def test_what_does_not_fit_is_none() -> None:
    """Numbers that together are longer than the room have no places."""
    assert spread([10.0, 20.0], [60.0, 60.0], 0.0, 100.0) is None


@given(_PLACES, st.floats(1.0, 8.0))
def test_spread_keeps_order_room_and_clearance(wishes: list[float], width: float) -> None:
    """The centres keep their order, stay in the room and no two come closer than their widths."""
    places = spread(wishes, [width] * len(wishes), 0.0, 250.0)
    assert places is not None
    assert places[0] >= width / 2 - 1e-6
    assert places[-1] <= 250.0 - width / 2 + 1e-6
    assert all(after - before >= width - 1e-6 for before, after in pairwise(places))


@given(_PLACES, st.floats(1.0, 8.0), st.integers(0, 29), st.floats(-3.0, 3.0))
def test_no_other_spread_is_nearer(wishes: list[float], width: float, which: int, push: float) -> None:
    """Moving any one number, where that is allowed, does not bring the whole nearer to the marks."""
    places = spread(wishes, [width] * len(wishes), 0.0, 250.0)
    assert places is not None
    moved = list(places)
    moved[which % len(places)] += push
    allowed = (
        moved[0] >= width / 2
        and moved[-1] <= 250.0 - width / 2
        and all(after - before >= width for before, after in pairwise(moved))
    )
    if allowed:
        before = sum((place - wish) ** 2 for place, wish in zip(places, wishes, strict=True))
        after = sum((place - wish) ** 2 for place, wish in zip(moved, wishes, strict=True))
        assert after >= before - 1e-6


def test_a_row_with_room_is_large_and_upright() -> None:
    """Numbers far apart are printed at the largest size, upright, in one tier."""
    row = plan_row([RunningMark(x, "48 3/16", 0.0) for x in (30.0, 90.0, 150.0)], 0.0, 250.0)
    assert (row.turned, row.tiers) == (False, 1)
    assert row.size > 5


def test_a_tight_row_is_turned() -> None:
    """Numbers too close to stand upright are turned to the left."""
    row = plan_row([RunningMark(20.0 + 8 * n, "148 13/16", 0.0) for n in range(25)], 0.0, 250.0)
    assert row.turned


@given(_PLACES)
def test_every_row_has_a_layout(places: list[float]) -> None:
    """However tight, every number gets a place, and never under 9 pt."""
    row = plan_row([RunningMark(x, "383 15/16", 0.0) for x in places], 0.0, 250.0)
    assert row.size >= 3.175
    assert all(len(tier) == len(places) for tier in row.passes)


def test_a_hundred_and_twenty_marks_fit_a_page() -> None:
    """A row of 120 marks still has a place for each."""
    row = plan_row([RunningMark(2.0 * n, "383 15/16", 0.0) for n in range(120)], 0.0, 254.0)
    assert row.tiers > 1
