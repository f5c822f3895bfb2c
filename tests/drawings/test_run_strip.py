"""The strip of a wall: it agrees with the plan, and no number of it is hidden or cut."""

from __future__ import annotations

from dataclasses import replace

import pytest

from setline.drawings.run_strip import run_strip
from setline.drawings.scale import on_paper
from setline.drawings.standing import runs_of, stand
from setline.lengths import Rounding, Units, fine_step, round_to, show
from setline.result import Plan
from tests.drawings.drawing_set import example, label_box, meeting_labels, texts_of

WALLS = [(name, wall.name) for name in ("larkspur-street", "mill-row") for wall in example(name).walls]


@pytest.mark.parametrize(("name", "wall"), WALLS)
def test_items_lie_where_the_plan_has_them(name: str, wall: str) -> None:
    """Every item of every run of the wall lies at its joints, to scale from the left corner."""
    plan = example(name)
    strip = run_strip(plan, wall)
    told = {(run, number): (box[0], box[2]) for run, number, box in strip.boxes}
    left, scale = strip.drawing.origin[0], strip.drawing.scale
    wanted = {
        (run.name, thing.item.number): (
            left + on_paper(thing.left, scale),
            left + on_paper(thing.right, scale),
        )
        for run in runs_of(plan, wall)
        for thing in stand(run)
    }
    assert told.keys() == wanted.keys()
    assert all(told[key] == pytest.approx(wanted[key]) for key in wanted)


@pytest.mark.parametrize(("name", "wall"), WALLS)
def test_no_label_is_hidden_or_cut(name: str, wall: str) -> None:
    """No two labels meet and none leaves the drawing; each is at least 16 pixels high on screen."""
    drawing = run_strip(example(name), wall).drawing
    assert meeting_labels(drawing) == []
    for text in texts_of(drawing):
        left, top, right, bottom = label_box(text)
        assert min(left, top) >= -0.01
        assert right <= drawing.width + 0.01
        assert bottom <= drawing.height + 0.01
        assert text.size * 5 >= 16


def test_a_run_that_cannot_be_solved_says_by_how_much() -> None:
    """The bracket over it carries the shortfall, and its joints are not known."""
    plan = example("larkspur-street")
    short = next(run for run in plan.runs if not run.solved)
    said = [text.text for text in texts_of(run_strip(plan, short.wall).drawing)]
    assert "SHORT 3/8" in said
    assert said.count("?") == len(short.joints)


def test_the_table_has_the_same_numbers() -> None:
    """Each row of the table gives an item's joints as the strip prints them."""
    plan = example("larkspur-street")
    drawing = run_strip(plan, "A").drawing
    said = {text.text for text in texts_of(drawing)}
    rows = {(row[0], row[1]): row for row in drawing.table.rows}
    assert len(rows) == sum(len(run.items) for run in runs_of(plan, "A"))
    run = runs_of(plan, "A", "base")[0]
    for joint in run.joints:
        assert joint.chosen is not None
        printed = show(round_to(joint.chosen, fine_step(Units.INCH), Rounding.NEAREST_UP), Units.INCH)
        assert printed in said


def test_a_pin_shows_its_place() -> None:
    """The nail of a pin carries the number it holds to."""
    plan = example("mill-row")
    said = {text.text for text in texts_of(run_strip(plan, "A").drawing)}
    pins = [pin for run in runs_of(plan, "A") for pin in run.pins if pin.at is not None]
    assert pins
    assert show(pins[0].at or 0, Units.METRIC).removeprefix("~") in said


def _many(plan: Plan) -> Plan:
    """Return a plan with a run of forty narrow items, close to the far end of a long wall."""
    run = next(run for run in plan.runs if run.solved)
    step = 9 * 65024
    items = tuple(
        replace(
            run.items[1],
            number=100 + place,
            name="schubladenschrank mit auszug",
            left=place * step,
            right=(place + 1) * step,
            wished=step,
        )
        for place in range(40)
    )
    joints = tuple(
        replace(run.joints[0], name=f"J {place}", chosen=place * step, play_left=0, play_right=step)
        for place in range(41)
    )
    marks = tuple(replace(run.marks[0], name=f"J {place}", printed=place * step) for place in range(41))
    long = replace(run, items=items, joints=joints, marks=marks, pins=())
    walls = tuple(
        replace(wall, length=383 * 65024 + 15 * 4064) if wall.name == run.wall else wall
        for wall in plan.walls
    )
    return replace(plan, runs=(long,), walls=walls)


def test_forty_boxes_on_a_long_wall_are_all_told() -> None:
    """Forty boxes with long names on a wall of almost 32 ft: every number stands whole and apart."""
    plan = _many(example("larkspur-street"))
    drawing = run_strip(plan, plan.runs[0].wall).drawing
    assert meeting_labels(drawing) == []
    said = {text.text for text in texts_of(drawing)}
    assert {str(100 + place) for place in range(40)} <= said
    assert {str(9 * place) for place in range(41)} <= said


def test_places_to_put_something_at_carry_letters() -> None:
    """Each letter stands at its joint, no two over each other, white on black."""
    plan = example("larkspur-street")
    run = runs_of(plan, "A", "base")[0]
    letters = {(run.name, place): "abcdefgh"[place] for place in range(len(run.joints))}
    drawing = run_strip(plan, "A", places=letters).drawing
    found = [text for text in texts_of(drawing) if text.reverse]
    assert sorted(text.text for text in found) == list("abcdefgh"[: len(run.joints)])
    assert meeting_labels(drawing) == []
    left, scale = drawing.origin[0], drawing.scale
    for text in found:
        joint = run.joints["abcdefgh".index(text.text)]
        box = label_box(text)
        assert (box[0] + box[2]) / 2 == pytest.approx(left + on_paper(joint.chosen or 0, scale), abs=0.01)
