"""How far joints may move, by hand."""

from __future__ import annotations

import pytest
from tests.tape import inch

from setline.stages.layout.row import Gives, Row, at_least, at_most, centred, exactly
from setline.stages.layout.windows import Windows, windows


def _allowed(rows: list[Row], nodes: int) -> Windows:
    seen = windows(rows, nodes)
    assert seen is not None
    return seen


def _sized(left: int, least: str, most: str, name: str) -> list[Row]:
    """Return the rows of something beside joint ``left`` whose width has a window."""
    return [
        at_least(
            left, left + 1, inch(least), f"{name} at least {least}", f"{name} least", Gives.WINDOW_LEAST
        ),
        at_most(left, left + 1, inch(most), f"{name} at most {most}", f"{name} most", Gives.WINDOW_MOST),
    ]


def _sink_run() -> list[Row]:
    """Return a wall of 100 3/8: filler, 18, 12, a 33 sink centred on 48 5/8, dishwasher, 9, filler."""
    return [
        *_sized(0, "3/4", "3", "left filler"),
        *exactly(1, 2, inch(18), "18", "box 1", Gives.WIDTH),
        *exactly(2, 3, inch(12), "12", "box 2", Gives.WIDTH),
        *exactly(3, 4, inch(33), "33", "sink", Gives.WIDTH),
        *_sized(4, "24 1/8", "24 3/8", "dishwasher"),
        *exactly(5, 6, inch(9), "9", "box 4", Gives.WIDTH),
        *_sized(6, "3/4", "3", "right filler"),
        *exactly(0, 3, inch("48 5/8") - inch("16 1/2"), "window centre", "pin", Gives.PIN),
        *exactly(0, 7, inch("100 3/8"), "wall", "wall", Gives.FACT),
    ]


@pytest.mark.arithmetic("48 5/8 - 16 1/2 - 12 - 18 = 2 1/8; 65 1/8 + 24 1/8 (24 3/8) = 89 1/4 (89 1/2)")
def test_a_pinned_sink_leaves_play_on_its_far_side_only() -> None:
    """What stands between wall and pin is exact; beyond the pin the opening's window is all the play."""
    seen = _allowed(_sink_run(), 8)
    exact = ["2 1/8", "20 1/8", "32 1/8", "65 1/8"]
    assert [(seen.earliest(node), seen.latest(node)) for node in range(1, 5)] == [
        (inch(at), inch(at)) for at in exact
    ]
    assert (seen.earliest(5), seen.latest(5)) == (inch("89 1/4"), inch("89 1/2"))
    assert (seen.earliest(6), seen.latest(6)) == (inch("98 1/4"), inch("98 1/2"))


@pytest.mark.arithmetic("24 7/8 + 2 - (42 - 15) = -1/8, so 0; the next run starts at 24 3/4 + 2 = 26 3/4")
def test_a_blind_corner_may_be_pulled_as_far_as_it_goes() -> None:
    """A blind box 42 wide with 15 to be seen clears the run round the corner without being pulled."""
    rows = [
        at_least(0, 1, 0, "the corner", "corner", Gives.FACT),
        at_most(0, 1, inch(6), "pull at most 6", "pull", Gives.WINDOW_MOST),
        at_least(0, 1, inch("24 7/8") + inch(2) - inch(27), "15 to be seen", "blind", Gives.FACT),
        at_least(0, 2, inch("24 3/4") + inch(2), "faces of the blind run", "faces", Gives.FACT),
    ]
    seen = _allowed(rows, 3)
    assert (seen.earliest(1), seen.latest(1)) == (0, inch(6))
    assert (seen.earliest(2), seen.latest(2)) == (inch("26 3/4"), None)


def _centred_opening(left: str, right: str | None = None) -> list[Row]:
    rows = [
        *_sized(1, "30", "31", "opening"),
        *centred(1, 2, 2 * inch(48), "centre at 48", "centre", Gives.PIN),
        at_least(0, 1, inch(left), f"left edge at least {left}", "left", Gives.FACT),
    ]
    if right is not None:
        rows.append(at_most(0, 2, inch(right), f"right edge at most {right}", "right", Gives.FACT))
    return rows


@pytest.mark.arithmetic("96 - 2 x 33 1/4 = 29 1/2, less than 30; 96 - 2 x 33 = 30")
def test_an_opening_of_varying_width_keeps_its_centre() -> None:
    """Centred on 48, an opening of 30 to 31 cannot start at 33 1/4 and can at 33, and then is 30 wide."""
    assert windows(_centred_opening("33 1/4"), 3) is None
    seen = _allowed(_centred_opening("33", "63"), 3)
    assert (seen.earliest(1), seen.latest(1), seen.least(1, 2)) == (inch(33), inch(33), inch(30))


def test_a_centre_moves_both_edges_alike() -> None:
    """Held by its centre, the left edge is as far from it as the right one."""
    seen = _allowed(_centred_opening("32"), 3)
    assert (seen.earliest(1), seen.latest(1)) == (inch("32 1/2"), inch(33))
    seen.fix(1, 2, seen.nearest(1, 2, inch("30 1/2")))
    assert seen.places() == (0, inch("32 3/4"), inch("63 1/4"))


def test_a_row_added_later_is_worth_as_much_as_one_from_the_start() -> None:
    """Adding rows one by one ends in the same windows, also where runs or centres are joined by them."""
    rows = [
        *_sink_run(),
        *(
            row._replace(low=row.low and row.low + 7, high=row.high and row.high + 7)
            for row in _centred_opening("32")
        ),
        Row(2, 8, inch(30)),
        Row(9, 4, inch(20)),
    ]
    at_once = _allowed(rows, 10)
    grown = _allowed([], 10)
    assert all(grown.add(row) for row in rows)
    for low in range(10):
        for high in range(10):
            assert grown.most(low, high) == at_once.most(low, high)


def test_a_row_that_contradicts_changes_nothing() -> None:
    """A row that cannot hold is refused and the windows stay."""
    seen = _allowed(_sink_run(), 8)
    before = [(seen.earliest(node), seen.latest(node)) for node in range(8)]
    assert not seen.add(at_most(0, 1, inch(2), "too near", "near", Gives.WISH))
    assert [(seen.earliest(node), seen.latest(node)) for node in range(8)] == before


def test_no_limit_is_none() -> None:
    """Where no row says how far, there is no number."""
    seen = _allowed([at_least(0, 1, inch(3), "start", "start", Gives.FACT)], 3)
    assert (seen.earliest(1), seen.latest(1)) == (inch(3), None)
    assert (seen.earliest(2), seen.latest(2), seen.most(1, 2), seen.least(1, 2)) == (None,) * 4


def test_a_copy_is_narrowed_apart() -> None:
    """What is tried in a copy leaves the windows it came from as they were."""
    seen = _allowed(_sink_run(), 8)
    tried = seen.copy()
    tried.fix(4, 5, tried.nearest(4, 5, inch(24)))
    assert tried.latest(5) == inch("89 1/4")
    assert seen.latest(5) == inch("89 1/2")


def test_odd_rows_beside_a_centre_count_to_the_next_even_tick() -> None:
    """An odd row beside a held centre would put an edge on half a tick; it misses by one instead."""
    odd = at_most(1, 2, inch(31) - 1, "odd", "odd", Gives.FACT)
    at_once = _allowed([*_centred_opening("32"), odd], 3)
    later = _allowed(_centred_opening("32"), 3)
    assert later.add(odd._replace(at_most=inch("30 1/2") - 1))
    assert (at_once.most(1, 2), later.most(1, 2)) == (inch(31), inch("30 1/2"))
    assert later.places() == (0, inch("32 3/4"), inch("63 1/4"))


def test_a_contradiction_at_the_origin_alone_is_seen() -> None:
    """A row from the origin to itself that cannot hold makes everything impossible."""
    assert windows([Row(0, 0, -1)], 1) is None
    assert windows([Row(0, 0, 0)], 1) is not None
