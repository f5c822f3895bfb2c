"""Coverings: what boxes stand on, what machines slide in over, where a covering stops."""

from __future__ import annotations

from typing import Any

from tests.stages.floor.kitchens import box, job
from tests.tape import inch

from setline.rules import rule_book
from setline.stages.floor.covering import Coverings, coverings_of
from setline.stages.room import outline

TOE = inch("20 7/8")


def _coverings(*coverings: dict[str, Any]) -> Coverings:
    """Return coverings of a room with one wall and a base run along it."""
    a_job = job(boxes=[box(1)], floor={"coverings": list(coverings)})
    return coverings_of(a_job, outline(a_job, rule_book()), TOE)


def _covering(when: str, thickness: str = "3/4", **more: Any) -> dict[str, Any]:
    """Return a covering."""
    return {"name": when, "thickness": thickness, "when": when, **more}


def test_boxes_stand_on_what_is_laid_and_on_what_comes_before_them() -> None:
    """Only what comes after the boxes does not lift them."""
    every = _coverings(
        _covering("laid", "1/4"), _covering("before boxes", "1/2"), _covering("after boxes", "1")
    )
    spot = (inch(20), inch(10))
    assert every.laid(spot) == inch("1/4")
    assert every.under_boxes(spot) == inch("3/4")
    assert every.finished(spot, at_edge=False) == inch("1 3/4")


def test_a_covering_that_stops_at_the_toe_line_lies_right_at_it_only_as_an_edge() -> None:
    """A machine slides in over the edge and stands behind it."""
    stops = _coverings(_covering("after boxes", reaches="toe"))
    at_line, behind, before = (inch(20), TOE), (inch(20), TOE - 1), (inch(20), TOE + 1)
    assert stops.finished(at_line, at_edge=True) == inch("3/4")
    assert stops.finished(at_line, at_edge=False) == 0
    assert stops.finished(behind, at_edge=True) == 0
    assert stops.finished(before, at_edge=False) == inch("3/4")
    assert stops.in_the_room(behind) == inch("3/4")


def test_a_covering_lies_in_its_areas_with_their_edges() -> None:
    """An area without a limit goes on to the end of the room."""
    tiles = _coverings(_covering("laid", areas=[{"wall": "A", "left": 30, "out_most": 40}]))
    assert tiles.laid((inch(30), inch(40))) == inch("3/4")
    assert tiles.laid((inch(29), inch(10))) == 0
    assert tiles.laid((inch(140), inch(10))) == inch("3/4")
    assert tiles.laid((inch(35), inch(41))) == 0
