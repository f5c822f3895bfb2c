"""Rows of one wall that hang together: tall boxes, line-ups, and runs that wait."""

from __future__ import annotations

from tests.stages.layout.kitchens import (
    Table,
    box,
    codes,
    filler,
    finding,
    framed,
    joints,
    kitchen,
    laid_out,
    mark,
    opening,
    run,
    run_named,
    tall,
    wall,
    wall_box,
)
from tests.tape import inch


def test_a_tall_box_is_one_thing_in_both_rows() -> None:
    """What the base row needs moves the tall, and the wall row with it."""
    job = kitchen(
        [wall("A", 120)],
        [
            run(
                "A",
                [41, 1, 2],
                right={"kind": "open", "at": 60},
                pins=[{"item": 2, "edge": "right", "at": 58}],
            ),
            run("A", [42, 1, 3, 43], row="wall"),
        ],
        boxes=[tall(1, 24), box(2, 30), wall_box(3, 90)],
        fillers=[filler(41, 1), filler(42, 1), filler(43, 1)],
    )
    layout = laid_out(job)
    assert joints(layout, "A base")[1:3] == joints(layout, "A wall")[1:3] == ["4", "28"]


def test_talls_that_touch_in_one_row_only() -> None:
    """Two talls with a filler between them in the base row and none in the wall row leave it no width."""
    job = kitchen(
        [wall("A", 100)],
        [
            run("A", [1, 41, 2], right={"kind": "open"}),
            run("A", [1, 2, 42], row="wall"),
        ],
        boxes=[tall(1, 24), tall(2, 24)],
        fillers=[filler(41, "1/2", 3), filler(42, 1)],
    )
    assert not run_named(laid_out(job), "A base").solved
    loose = kitchen(
        [wall("A", 100)],
        [run("A", [1, 41, 2], right={"kind": "open"}), run("A", [1, 2, 42], row="wall")],
        boxes=[tall(1, 24), tall(2, 24)],
        fillers=[filler(41, "0", 3), filler(42, 1)],
    )
    assert joints(laid_out(loose), "A base") == ["0", "24", "24", "48"]


def test_rows_line_up() -> None:
    """A wall box beside the left edge of a base box stands exactly over it."""
    job = kitchen(
        [wall("A", 120)],
        [
            run("A", [41, 1, 2, 42]),
            run("A", [43, 3, 4, 44], row="wall", pins=[{"item": 4, "edge": "left", "beside": 2}]),
        ],
        boxes=[box(1, 36, measured="36 1/32"), box(2, 80), wall_box(3, 36), wall_box(4, 78)],
        fillers=[filler(number, 1, 6, scribed=True) for number in (41, 42, 43, 44)],
    )
    layout = laid_out(job)
    over, under = mark(layout, "A wall 4 left"), mark(layout, "A base 2 left")
    assert over.at.value == under.at.value
    assert "in line with the left edge of box 2 (A base): " in over.at.working[-1]


def test_a_hood_box_over_the_middle_of_a_range() -> None:
    """A box centred over an opening of varying width stands over its middle, whatever width that has."""
    job = kitchen(
        [wall("A", 120)],
        [
            run("A", [41, 1, 21, 2, 42]),
            run("A", [43, 3, 4, 5, 44], row="wall", pins=[{"item": 4, "edge": "centre", "beside": 21}]),
        ],
        boxes=[framed(1, 40), framed(2, 45), wall_box(3, 36), wall_box(4, 30), wall_box(5, 40)],
        fillers=[filler(number, "1/2", 20, scribed=True) for number in (41, 42, 43, 44)],
        openings=[opening(21, "range", 30, "30 1/2")],
    )
    layout = laid_out(job)
    base, over = (run_named(layout, name).joints for name in ("A base", "A wall"))
    assert (base[2].chosen or 0) + (base[3].chosen or 0) == (over[2].chosen or 0) + (over[3].chosen or 0)
    assert (base[3].chosen or 0) - (base[2].chosen or 0) == inch("30 1/4")


def test_the_width_of_a_range_gives_way_to_a_centre() -> None:
    """Where its wished width keeps the box above off its middle, the nearest one that does not is taken."""
    job = kitchen(
        [wall("A", 90)],
        [
            run("A", [1, 21, 2, 42]),
            run("A", [3, 4, 43], row="wall", pins=[{"item": 4, "edge": "centre", "beside": 21}]),
        ],
        boxes=[box(1, 30), box(2, 27), wall_box(3, "30 1/16"), wall_box(4, 30)],
        fillers=[filler(42, 1, scribed=True), filler(43, 1, scribed=True)],
        openings=[opening(21, "range", 30, "30 1/2")],
    )
    base = run_named(laid_out(job), "A base").joints
    assert (base[2].chosen or 0) - (base[1].chosen or 0) == inch("30 1/8")


def test_rows_that_miss_each_other_are_told_from_both_ends() -> None:
    """Where one row brings a centre farther than the other lets it go, both are told with their pieces."""
    job = kitchen(
        [wall("A", 100)],
        [
            run("A", [1, 2, 42]),
            run("A", [43, 3, 4, 44], row="wall", pins=[{"item": 4, "edge": "left", "beside": 2}]),
        ],
        boxes=[box(1, 30), box(2, 60), wall_box(3, 30), wall_box(4, 30)],
        fillers=[filler(42, 1, 10), filler(43, "1/2"), filler(44, 1)],
    )
    layout = laid_out(job)
    found = finding(layout, "rows-conflict")
    assert found.text.startswith(
        "A wall: from the left wall at 0, filler 43 at least 1/2, box 3 (30) bring the left edge of box 4 to "
        "30 1/2 at the least. A base: from the left wall at 0, box 1 (30) bring the left edge of box 2 to 30 "
        "at the most. The two rows miss each other by 1/2."
    )
    assert found.by_how_much == inch("1/2")


def test_other_runs_stay_complete() -> None:
    """A conflict on one wall leaves the runs of the others in their places."""
    job = kitchen(
        [wall("A", 100), wall("B", 90)],
        [run("A", [41, 1, 42]), run("B", [43, 2, 44])],
        boxes=[box(1, 100), box(2, 60)],
        fillers=[filler(number, 1, scribed=True) for number in (41, 42, 43, 44)],
    )
    layout = laid_out(job)
    assert [plan.solved for plan in layout.runs] == [False, True]


def test_a_wall_row_waits_for_the_row_its_tall_stands_in() -> None:
    """Its tall box has no place while the base row has none, and a stop says what it waits for."""
    job = kitchen(
        [wall("A", 100)],
        [
            run("A", [2, 1, 42], pins=[{"item": 2, "edge": "right", "at": 59}]),
            run("A", [43, 3, 1, 44], row="wall"),
        ],
        boxes=[tall(1, 24), box(2, 60), wall_box(3, 50)],
        fillers=[filler(number, 1, scribed=True) for number in (42, 43, 44)],
    )
    layout = laid_out(job)
    assert [plan.solved for plan in layout.runs] == [False, False]
    assert run_named(layout, "A wall").overrun is None
    assert finding(layout, "run-waits").text == ("A wall waits for A base: the place of box 1 rests on it.")


def test_a_tall_that_can_stand_in_one_place_only_is_not_waited_for() -> None:
    """A tall hard against the wall stands where it stands, so its wall row is complete."""
    job = kitchen(
        [wall("A", 100)],
        [run("A", [1, 2]), run("A", [1, 3, 44], row="wall")],
        boxes=[tall(1, 24), box(2, 90), wall_box(3, 60)],
        fillers=[filler(44, 1, scribed=True)],
    )
    layout = laid_out(job)
    assert [plan.solved for plan in layout.runs] == [False, True]
    assert "run-waits" not in codes(layout)


def test_a_must_beside_a_run_without_places_waits_and_a_wish_does_not() -> None:
    """A row that must line up with an item of an unsolved run waits; one that only ought to goes ahead."""

    def solved(strength: str) -> list[bool]:
        pin: Table = {"item": 3, "edge": "left", "beside": 1, "strength": strength}
        job = kitchen(
            [wall("A", 100)],
            [run("A", [41, 1, 2]), run("A", [43, 3, 44], row="wall", pins=[pin])],
            boxes=[box(1, 60), box(2, 60), wall_box(3, 60)],
            fillers=[filler(number, 1, scribed=True) for number in (41, 43, 44)],
        )
        return [plan.solved for plan in laid_out(job).runs]

    assert solved("must") == [False, False]
    assert solved("wish") == [False, True]


def test_rows_that_only_ought_to_line_up_are_cured_apart() -> None:
    """A wall row tied by a wish neither waits for an unsolved base row nor spoils its ways out."""
    pin: Table = {"item": 3, "edge": "left", "beside": 1, "strength": "wish"}
    job = kitchen(
        [wall("A", 60)],
        [run("A", [41, 1, 42]), run("A", [3], row="wall", pins=[pin])],
        boxes=[box(1, "58 1/2"), wall_box(3, 70)],
        fillers=[filler(41, 1, scribed=True), filler(42, 1, scribed=True)],
    )
    base, over = [each for each in laid_out(job).findings if each.code == "run-too-short"]
    assert (base.where, over.where) == ("A base", "A wall")
    assert "narrower-filler" in {way.kind for way in base.remedies}
    assert over.remedies == ()
