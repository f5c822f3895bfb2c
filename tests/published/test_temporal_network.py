"""Shortest paths of small networks that are known in print.

The temporal network is example 1.1 of "Temporal constraint networks", Artificial Intelligence 49 (1991): who
leaves when and comes when, in minutes after seven. Its table of distances was worked out again by Floyd's
method. The network of six nodes and its first row of distances stand as the expected output of a university's
exercise in shortest paths.
"""

from __future__ import annotations

import pytest

from setline.stages.layout.conflict import conflicts
from setline.stages.layout.row import Gives, Row, at_least, at_most
from setline.stages.layout.windows import windows

STEPS = {
    (1, 2): 2,
    (1, 3): 5,
    (2, 3): 7,
    (2, 4): 1,
    (2, 6): 8,
    (3, 4): 4,
    (4, 5): 3,
    (5, 3): 2,
    (5, 6): 3,
    (6, 2): 5,
    (6, 4): 2,
    (6, 5): 4,
}


@pytest.mark.published("university exercise in all-pairs shortest paths, expected output: row of node 1")
def test_the_first_row_of_six_nodes() -> None:
    """From node 1 the six nodes lie 0, 2, 5, 3, 6 and 9 away."""
    seen = windows([Row(tail - 1, head - 1, length) for (tail, head), length in STEPS.items()], 6)
    assert seen is not None
    assert [seen.most(0, node) for node in range(6)] == [0, 2, 5, 3, 6, 9]


BETWEEN = {(0, 1): (10, 20), (1, 2): (30, 40), (3, 2): (10, 20), (3, 4): (40, 50), (0, 4): (60, 70)}
DISTANCES = [
    [0, 20, 50, 30, 70],
    [-10, 0, 40, 20, 60],
    [-40, -30, 0, -10, 30],
    [-20, -10, 20, 0, 50],
    [-60, -50, -20, -40, 0],
]


def _rows(between: dict[tuple[int, int], tuple[int, int]]) -> list[Row]:
    return [
        row
        for (left, right), (least, most) in between.items()
        for row in (
            at_least(left, right, least, "", f"{left} {right} least", Gives.FACT),
            at_most(left, right, most, "", f"{left} {right} most", Gives.FACT),
        )
    ]


@pytest.mark.arithmetic(
    "Temporal constraint networks (1991), example 1.1: table of distances by Floyd's method"
)
def test_the_distances_of_the_temporal_network() -> None:
    """All distances of the five events are those of the table."""
    seen = windows(_rows(BETWEEN), 5)
    assert seen is not None
    assert [[seen.most(low, high) for high in range(5)] for low in range(5)] == DISTANCES


@pytest.mark.arithmetic(
    "Temporal constraint networks (1991), example 1.1: the least network that means the same"
)
@pytest.mark.parametrize(
    ("low", "high", "window"),
    [
        (0, 1, (10, 20)),
        (0, 2, (40, 50)),
        (0, 3, (20, 30)),
        (0, 4, (60, 70)),
        (1, 2, (30, 40)),
        (1, 3, (10, 20)),
        (1, 4, (50, 60)),
        (2, 3, (-20, -10)),
        (2, 4, (20, 30)),
        (3, 4, (40, 50)),
    ],
)
def test_the_windows_of_the_temporal_network(low: int, high: int, window: tuple[int, int]) -> None:
    """Every pair of events has the window of the least network."""
    seen = windows(_rows(BETWEEN), 5)
    assert seen is not None
    assert (seen.least(low, high), seen.most(low, high)) == window


@pytest.mark.arithmetic("x2 >= 40, x3 >= x2 - 20 and x4 >= x3 + 40 make x4 >= 60: 5 more than 55")
def test_a_temporal_network_that_cannot_be() -> None:
    """With the last event at 55 at the latest, four windows miss each other by 5."""
    (found,) = conflicts(_rows(BETWEEN | {(0, 4): (50, 55)}), 5)
    assert found.shortfall == 5
    assert set(found.pieces) == {"0 1 least", "1 2 least", "3 2 most", "3 4 least", "0 4 most"}
