"""Ways out of a run that cannot be solved: each one was solved again, and is solved once more here."""

from __future__ import annotations

from typing import Any

import pytest
from tests.stages.layout.kitchens import (
    Table,
    box,
    filler,
    finding,
    framed,
    kitchen,
    laid_out,
    opening,
    run,
    wall,
)
from tests.tape import inch

from setline.job.job import Job
from setline.result import Finding, Remedy
from setline.rules import rule_book


def _window(**changes: Any) -> Job:
    """Return a run that is 1/2 short between the left wall and the window centre, unless it is changed."""
    given: Table = {
        "length": 103,
        "centre": "61 3/8",
        "box 2": 18,
        "least": "1 1/8",
        "right": filler(43, "3/4"),
        "strength": "must",
        "make": framed,
        **changes,
    }
    make = given["make"]
    return kitchen(
        [wall("A", given["length"], windows=[{"name": "yard", "centre": given["centre"]}])],
        [
            run(
                "A",
                [41, 1, 2, 42, 3, 43],
                pins=[{"item": 3, "edge": "centre", "window": "yard", "strength": given["strength"]}],
            )
        ],
        boxes=[make(1, 24), make(2, given["box 2"]), make(3, 36, name="sink")],
        fillers=[filler(41, "3/4", scribed=True), filler(42, given["least"]), given["right"]],
    )


def _ways(job: Job, code: str = "run-too-short") -> dict[str, Remedy]:
    """Return the ways out of the one conflict of a job by their kind."""
    return {remedy.kind: remedy for remedy in finding(laid_out(job), code).remedies}


@pytest.mark.arithmetic("1/2 short: 1/2 in every kind that is measured out")
def test_every_kind_of_way_out_of_half_an_inch() -> None:
    """Pin, fillers, stiles and plaster each give the 1/2, a box a step of 3, and each says what to do."""
    ways = _ways(_window())
    assert {kind: way.amount for kind, way in ways.items()} == {
        "move-pin": inch("1/2"),
        "narrower-filler": inch("1/2"),
        "scribe-stile": inch("1/2"),
        "cut-plaster": inch("1/2"),
        "smaller-box": inch(3),
    }
    assert ways["move-pin"].text == "Let sink box 3 sit 1/2 right of the window centre."
    assert ways["narrower-filler"].text == (
        "Scribed filler 41 at 1/2 instead of at least 3/4; filler 42 at 7/8 instead of at least 1 1/8."
    )
    assert ways["scribe-stile"].text == "Plane 1/2 off the stiles of box 1."
    assert ways["cut-plaster"].text == "Cut 1/2 into the left wall."
    assert ways["smaller-box"].text == ("Box 1 in 21 instead of 24: a new box. Fillers take what is left.")


def test_ways_out_cost_what_the_rules_say_and_stand_in_that_order() -> None:
    """Hours and days come from the book, a job may change them, and the order is days, hours, amount."""
    ways = finding(laid_out(_window()), "run-too-short").remedies
    book = rule_book()
    assert [(way.hours, way.days) for way in ways] == [
        (book.remedy(way.kind).hours, book.remedy(way.kind).days) for way in ways
    ]
    assert list(ways) == sorted(ways, key=lambda way: (way.days, way.hours, way.amount))
    assert ways[-1].kind == "smaller-box"


@pytest.mark.parametrize(
    "changes",
    [
        {"centre": "61 7/8"},
        {"least": "5/8"},
        {"box 2": 15},
        {"strength": "wish"},
    ],
    ids=["the window 1/2 farther right", "a filler 1/2 narrower", "a box of 15", "the pin a wish"],
)
def test_what_a_way_out_changes_does_cure(changes: Table) -> None:
    """The same run with any one of the changes can be solved."""
    assert not laid_out(_window()).runs[0].solved
    assert laid_out(_window(**changes)).runs[0].solved


@pytest.mark.arithmetic("1/2 short on either side of the centre: 1 in all, and no place of the pin cures it")
def test_a_pin_between_two_short_stretches_is_not_offered() -> None:
    """Where both sides of the pin are short, moving it mends one and makes the other worse."""
    job = kitchen(
        [wall("A", 119)],
        [run("A", [41, 1, 3, 2, 43], pins=[{"item": 3, "edge": "centre", "at": "59 1/2"}])],
        boxes=[box(1, 36), box(3, 46, name="sink"), box(2, 36)],
        fillers=[filler(41, 1, 2, scribed=True), filler(43, 1, 2, scribed=True)],
    )
    stops = [each for each in laid_out(job).findings if each.rank == "stop"]
    assert [each.by_how_much for each in stops] == [inch("1/2"), inch("1/2")]
    kinds = {way.kind for way in stops[0].remedies}
    assert "move-pin" not in kinds
    assert {"narrower-filler", "cut-plaster"} <= kinds
    assert stops[1].remedies == ()
    assert stops[1].text.endswith("The ways out above cure this as well.")


def test_a_kind_that_cannot_cure_all_is_not_offered() -> None:
    """Fillers that may lose less than what is missing are no way out, nor are frameless stiles."""
    kinds = set(_ways(_window(centre=60, make=box)))
    assert "narrower-filler" not in kinds
    assert "scribe-stile" not in kinds
    assert "cut-plaster" not in kinds
    assert "move-pin" in kinds


def test_too_much_room_asks_for_more_filler_or_a_wider_box() -> None:
    """What is left over goes into a wider filler or the next stock size."""
    job = kitchen(
        [wall("A", 68)],
        [run("A", [41, 1, 42])],
        boxes=[box(1, 60)],
        fillers=[filler(41, 1, 2), filler(42, 1, 3)],
    )
    ways = _ways(job, "run-too-long")
    assert ways["wider-filler"].amount == inch(3)
    assert ways["wider-filler"].text == "Filler 41 at 5 instead of at most 2."
    assert "next-stock-size" not in ways  # boxes of 63 are not sold
    assert finding(laid_out(job), "run-too-long").by_how_much == inch(3)


def test_the_next_stock_size_is_a_step_wider() -> None:
    """A box one step wider fills the room where that is enough."""
    job = kitchen(
        [wall("A", 50)],
        [run("A", [41, 1, 42])],
        boxes=[box(1, 42)],
        fillers=[filler(41, 1, 2), filler(42, 1, 3)],
    )
    assert _ways(job, "run-too-long")["next-stock-size"].text == (
        "Box 1 in 45 instead of 42: a new box. Fillers give the rest."
    )


def test_an_open_end_may_reach_farther() -> None:
    """A run that ends open and is too long may pass its limit, if somebody agrees."""
    job = kitchen(
        [wall("A", 120)],
        [run("A", [41, 1, 2], right={"kind": "open", "at": 90})],
        boxes=[box(1, 60), box(2, 30)],
        fillers=[filler(41, 1, 2)],
    )
    ways = _ways(job)
    assert ways["shift-run"].text == "Let A base reach 1 past the open right end at 90."


def test_a_general_size_is_checked_against_the_sheet() -> None:
    """An opening without its maker's sheet may be less than its general size: look before anything is cut."""

    def kinds(sheet: str) -> set[str]:
        job = kitchen(
            [wall("A", "84 3/4")],
            [run("A", [41, 1, 21])],
            boxes=[box(1, 60)],
            fillers=[filler(41, 1)],
            openings=[opening(21, "dishwasher", 24, "24 1/4", sheet=sheet)],
        )
        return set(_ways(job))

    assert "check-sheet" in kinds("general, check the sheet")
    assert "check-sheet" not in kinds("from the sheet")


def test_a_narrower_box_is_counted_from_its_ordered_width() -> None:
    """A box that measured over its ordered width is offered in a width that can be bought."""
    job = kitchen(
        [wall("A", 90)],
        [run("A", [41, 1, 42])],
        boxes=[box(1, 90, measured="90 1/16")],
        fillers=[filler(41, 1), filler(42, 1)],
    )
    assert "smaller-box" not in _ways(job)  # 87 is wider than any stock box
    job = kitchen(
        [wall("A", 49)],
        [run("A", [41, 1, 42])],
        boxes=[box(1, 48, measured="48 1/16")],
        fillers=[filler(41, 1), filler(42, 1)],
    )
    assert _ways(job)["smaller-box"].text.startswith("Box 1 in 45 instead of 48 1/16")


def test_a_run_that_nothing_single_cures_says_so() -> None:
    """Where no kind cures all alone the sentence says to change two things."""
    job = kitchen([wall("A", 40)], [run("A", [1])], boxes=[box(1, 60)])
    found: Finding = finding(laid_out(job), "run-too-short")
    assert found.remedies == ()
    assert found.text.endswith("No single kind of change cures it: take a piece out, or let two things give.")


def test_amounts_are_whole_on_the_tape() -> None:
    """What a wall leaves off the tape's steps is asked for rounded up, so that the cure still cures."""
    plumb = [
        {"end": "left", "offsets": [{"height": {"up": "34 5/8", "from": "subfloor"}, "back": 1}]},
        {
            "end": "right",
            "offsets": [
                {"height": {"up": "34 5/8", "from": "subfloor"}, "back": 1},
                {"height": {"up": 10, "from": "subfloor"}, "back": "15/16"},
                {"height": {"up": "0", "from": "subfloor"}, "back": "61/64"},
            ],
        },
    ]
    job = kitchen(
        [wall("A", "62 1/64", plumb=plumb)],
        [run("A", [41, 1, 42])],
        boxes=[framed(1, "60 1/8")],
        fillers=[filler(41, 1), filler(42, 1)],
    )
    ways = _ways(job)
    assert ways["scribe-stile"].amount % inch("1/32") == 0
    assert ways["scribe-stile"].amount >= (finding(laid_out(job), "run-too-short").by_how_much or 0)
