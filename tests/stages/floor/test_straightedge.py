"""The gap under a straightedge: worked cases, and against sliding it along in small steps."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.tape import inch

from setline.stages.floor.straightedge import gap_under_straightedge, rocking_gap

TEN_FEET = inch(120)
EIGHT_READINGS = [
    (inch(24 * place), thirty_seconds * inch("1/32"))
    for place, thirty_seconds in enumerate((0, -1, -2, -3, -1, 1, 0))
]


@pytest.mark.arithmetic("chord from 0 to 120: 3/5 of 1/32 above 0 at 72, where the floor lies 3/32 low")
def test_the_gap_of_a_hollow_line() -> None:
    """Seven readings 24 apart: 0.1125 between the ends of a 10 ft straightedge, at 72."""
    found = gap_under_straightedge(EIGHT_READINGS, TEN_FEET)
    assert found is not None
    assert found.gap == Fraction(9, 80) * inch(1)
    assert (found.at, found.rests) == (inch(72), (0, inch(120)))


@pytest.mark.arithmetic("chord from 72 to 144: 1/32 below 0 at 120, where the floor stands 1/32 high")
def test_the_hump_of_the_same_line_rocks_a_sixteenth() -> None:
    """The hump at 120 stands 1/16 over the line from the hollow at 72 to the end."""
    found = rocking_gap(EIGHT_READINGS, TEN_FEET)
    assert found is not None
    assert (found.gap, found.at, found.rests) == (inch("1/16"), inch(120), (inch(72), inch(144)))


@pytest.mark.arithmetic(
    "the widest window found apart from this code by dense sliding: 0.0936701, from 14.22"
)
def test_its_ends_may_rest_between_two_readings() -> None:
    """Stations 0 30 75 140 200: windows from reading to reading would say 0.0823 only."""
    stations, heights = (0, 30, 75, 140, 200), (0, -5, -12, -2, 6)  # heights in hundredths
    profile = [(100 * along, height) for along, height in zip(stations, heights, strict=True)]
    found = gap_under_straightedge(profile, 12_000)
    assert found is not None
    assert float(found.gap) / 100 == pytest.approx(0.0936701, abs=1e-6)
    assert float(found.rests[0]) / 100 == pytest.approx(14.22, abs=0.01)
    assert found.rests[1] - found.rests[0] == 12_000


def test_a_longer_line_than_the_straightedge_is_not_bridged_whole() -> None:
    """One hollow 10 ft wide under a 20 ft line of readings: only 10 ft are laid over it."""
    profile = [(0, 0), (inch(120), -inch(1)), (inch(240), 0)]
    found = gap_under_straightedge(profile, TEN_FEET)
    assert found is not None
    assert found.gap == inch("1/2")


@pytest.mark.parametrize(
    "profile",
    [[], [(0, 5)], [(0, 5), (9, 7)], [(0, 0), (10, 10), (20, 20)], [(0, 0), (10, 10), (20, 0)]],
    ids=["none", "one", "two", "straight", "humped"],
)
def test_no_gap_where_it_touches_everywhere(profile: list[tuple[int, int]]) -> None:
    """Fewer than three readings, a straight line or a single hump leave no gap under it."""
    assert gap_under_straightedge(profile, 100) is None


def test_readings_out_of_order_are_refused() -> None:
    """A line whose readings go back along it is a slip of the caller's."""
    with pytest.raises(ValueError, match="in order"):
        gap_under_straightedge([(0, 0), (10, 1), (10, 2)], 100)


profiles = st.lists(st.tuples(st.integers(6, 40), st.integers(-12, 12)), min_size=3, max_size=9).map(
    lambda steps: list(zip(np.cumsum([run for run, _ in steps]).tolist(), [z for _, z in steps], strict=True))
)


def _hull_gap(along: np.ndarray, heights: np.ndarray) -> float:
    """Return the widest gap under the upper hull of a profile, chord by chord."""
    widest = 0.0
    for first in range(len(along)):
        for last in range(first + 2, len(along)):
            between = slice(first + 1, last)
            chord = np.interp(along[between], along[[first, last]], heights[[first, last]])
            widest = max(widest, float((chord - heights[between]).max()))
    return widest


def _slide(profile: list[tuple[int, int]], length: int) -> float:
    """Return the widest gap by laying the straightedge down in steps, ever smaller where it is wide."""
    along, heights = (np.array(part, dtype=float) for part in zip(*profile, strict=True))
    last = along[-1] - length
    if last <= along[0]:
        return _hull_gap(along, heights)

    def gap_from(start: float) -> float:
        inner = along[(along > start) & (along < start + length)]
        window = np.concatenate(([start], inner, [start + length]))
        return _hull_gap(window, np.interp(window, along, heights))

    starts, step = np.union1d(np.arange(along[0], last, 2.0), [last, *along[along < last]]), 2.0
    for _ in range(4):
        widest = sorted(starts, key=gap_from)[-3:]
        step /= 8
        starts = np.unique(np.clip([w + step * k for w in widest for k in range(-8, 9)], along[0], last))
    return max(map(gap_from, starts))


@settings(max_examples=60, deadline=None)
@given(profile=profiles, length=st.integers(10, 120))
def test_it_is_the_widest_gap_of_any_place(profile: list[tuple[int, int]], length: int) -> None:
    """Sliding the straightedge along never finds a wider gap, and finds this one."""
    found = gap_under_straightedge(profile, length)
    widest = 0.0 if found is None else float(found.gap)
    assert _slide(profile, length) == pytest.approx(widest, abs=2e-3)
    assert _slide(profile, length) <= widest + 1e-6


@settings(max_examples=60, deadline=None)
@given(profile=profiles, length=st.integers(10, 120))
def test_the_rests_bear_the_straightedge(profile: list[tuple[int, int]], length: int) -> None:
    """The two rests lie on the profile, no farther apart than its length, and the gap is between them."""
    found = gap_under_straightedge(profile, length)
    if found is None:
        return
    (a, b), along, heights = found.rests, [s for s, _ in profile], [z for _, z in profile]
    low, high = (float(np.interp(float(end), along, heights)) for end in (a, b))
    share = float((found.at - a) / (b - a))
    floor = heights[along.index(found.at)]
    assert 0 < b - a <= length
    assert a < found.at < b
    assert math.isclose(float(found.gap), low + (high - low) * share - floor, abs_tol=1e-6)


@settings(max_examples=30, deadline=None)
@given(profile=profiles, length=st.integers(10, 120), lift=st.integers(-999, 999))
def test_neither_end_nor_height_matters(profile: list[tuple[int, int]], length: int, lift: int) -> None:
    """Read from the other end, or from a higher laser line, the gap is the same."""
    found = gap_under_straightedge(profile, length)
    back = [(-along, height + lift) for along, height in reversed(profile)]
    other = gap_under_straightedge(back, length)
    assert (found is None) == (other is None)
    if found is not None and other is not None:
        assert float(found.gap) == pytest.approx(float(other.gap), abs=1e-6)
