"""How little must give, by hand."""

from __future__ import annotations

import pytest
from tests.stages.layout.referees import satisfied
from tests.stages.layout.test_conflict import sink_run
from tests.tape import inch

from setline.stages.layout.elastic import Relaxation, least_relaxation
from setline.stages.layout.row import Gives, Row, at_least, at_most, centred, exactly


def _only(rows: list[Row], nodes: int, *kinds: Gives) -> Relaxation | None:
    return least_relaxation(rows, nodes, lambda row: None if row.gives in kinds else 0)


@pytest.mark.arithmetic("the run is 61 7/8 - 61 3/8 = 1/2 short, whatever gives")
@pytest.mark.parametrize("kind", [Gives.FILLER_LEAST, Gives.PIN, Gives.WIDTH], ids=lambda kind: kind.name)
def test_each_kind_of_thing_cures_a_short_run_by_half_an_inch(kind: Gives) -> None:
    """Fillers, the pin or a box, each alone gives 1/2."""
    cure = _only(sink_run("30"), 8, kind)
    assert cure is not None
    assert cure.total == inch("1/2")
    assert {row.gives for row, _ in cure.given} == {kind}
    assert satisfied(cure.rows, cure.places)


def _pinned_between_walls() -> list[Row]:
    """Return 30 and 30 1/2 of boxes either side of a pin at 30, between walls 60 apart, with two fillers."""
    return [
        at_least(0, 1, inch("1/2"), "left filler", "left", Gives.FILLER_LEAST),
        *exactly(1, 2, inch(30), "30", "box 30", Gives.WIDTH),
        *exactly(0, 2, inch(30), "pin", "pin", Gives.PIN),
        *exactly(2, 3, inch(30), "30", "other box 30", Gives.WIDTH),
        at_least(3, 4, inch("1/2"), "right filler", "right", Gives.FILLER_LEAST),
        *exactly(0, 4, inch(60), "the wall", "wall", Gives.FACT),
    ]


@pytest.mark.arithmetic("1/2 + 30 + 30 + 1/2 = 61 on a wall of 60: 1/2 short left of the pin and right of it")
def test_moving_the_pin_cannot_cure_two_conflicts_that_meet_in_it() -> None:
    """Each conflict alone is cured by moving the pin 1/2; both together are not, and the fillers give 1."""
    rows = _pinned_between_walls()
    assert _only(rows, 5, Gives.PIN) is None
    cure = _only(rows, 5, Gives.FILLER_LEAST)
    assert cure is not None
    assert cure.total == inch(1)


def test_what_a_thing_may_give_has_a_limit() -> None:
    """Fillers that may give 1/4 each do not cure half an inch on either side; with 1/2 they do."""
    rows = _pinned_between_walls()

    def up_to(most: str) -> Relaxation | None:
        limit = inch(most)
        return least_relaxation(rows, 5, lambda row: limit if row.gives is Gives.FILLER_LEAST else 0)

    assert up_to("1/4") is None
    cure = up_to("1/2")
    assert cure is not None
    assert [by for _, by in cure.given] == [inch("1/2")] * 2


def test_of_equal_cures_the_row_given_first_gives() -> None:
    """Of two fillers that could, the first gives all of it, not both a bit."""
    cure = _only(sink_run("30"), 8, Gives.FILLER_LEAST)
    assert cure is not None
    assert [(row.piece, by) for row, by in cure.given] == [("filler 1 least", inch("1/2"))]


def test_nothing_gives_where_all_can_hold() -> None:
    """A run that can be needs no cure."""
    rows = [at_least(0, 1, inch(3), "start", "start", Gives.FILLER_LEAST)]
    cure = _only(rows, 2, Gives.FILLER_LEAST)
    assert cure is not None
    assert (cure.total, cure.given) == (0, ())


@pytest.mark.arithmetic(
    "96 - 2 x 33 1/4 = 29 1/2: the width gives 1/2, or the edge 1/4 since it counts twice"
)
@pytest.mark.parametrize(
    ("kind", "by"), [(Gives.WINDOW_LEAST, "1/2"), (Gives.FACT, "1/4")], ids=["width", "edge"]
)
def test_beside_a_held_centre_an_edge_gives_half_of_what_the_width_does(kind: Gives, by: str) -> None:
    """Moving the left edge by 1/4 lets both sides grow by it."""
    rows = [
        at_least(1, 2, inch(30), "opening at least 30", "least", Gives.WINDOW_LEAST),
        at_most(1, 2, inch(31), "opening at most 31", "most", Gives.WINDOW_MOST),
        *centred(1, 2, 2 * inch(48), "centre at 48", "centre", Gives.PIN),
        at_least(0, 1, inch("33 1/4"), "left edge at least 33 1/4", "left", Gives.FACT),
    ]
    cure = _only(rows, 3, kind)
    assert cure is not None
    assert cure.total == inch(by)
    assert satisfied(cure.rows, cure.places)


def test_rows_that_must_hold_and_contradict_each_other_have_no_cure() -> None:
    """If walls contradict each other, fillers do not help."""
    rows = [
        *_pinned_between_walls(),
        at_most(0, 4, inch(59), "another wall", "wall 2", Gives.FACT),
    ]
    assert _only(rows, 5, Gives.FILLER_LEAST, Gives.PIN) is None
