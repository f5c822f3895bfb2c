"""Laws that every layout of an invented kitchen keeps."""

from __future__ import annotations

from hypothesis import assume, given, settings
from tests.stages.layout.invented import SIXTEENTH, Invented, invented
from tests.stages.layout.kitchens import laid_out

from setline.lengths import Length, Units, fine_step, mark_step
from setline.result import Finding, Remedy, RunPlan
from setline.stages.layout import Layout

STEP, FINE = mark_step(Units.INCH), fine_step(Units.INCH)


def _places(plan: RunPlan) -> list[int]:
    """Return the chosen places of a solved run."""
    return [joint.chosen for joint in plan.joints if joint.chosen is not None]


def _edge(layout: Layout, wall: str, number: int, edge: str) -> int | None:
    """Return twice the place of an item's edge or centre, or None where it has none."""
    for plan in layout.runs:
        for item in plan.items:
            if (
                plan.wall == wall
                and item.number == number
                and item.left is not None
                and item.right is not None
            ):
                return {"left": 2 * item.left, "right": 2 * item.right, "centre": item.left + item.right}[
                    edge
                ]
    return None


def _check_items(plan: RunPlan, length: int) -> None:
    """Hold a solved run to its widths, its joints and its wall."""
    places = _places(plan)
    assert len(places) == len(plan.items) + 1
    assert places[0] >= 0
    assert places[-1] <= length
    for item, left, right in zip(plan.items, places, places[1:], strict=False):
        assert (item.left, item.right) == (left, right)
        assert right - left >= item.least
        assert item.most is None or right - left <= item.most


@settings(deadline=None, max_examples=80)
@given(invented())
def test_every_layout_satisfies_all_that_must_hold(room: Invented) -> None:
    """Widths lie in their windows, runs between their ends, and every must pin is where it must be."""
    job = room.job()
    layout = laid_out(job)
    for plan, run in zip(layout.runs, job.runs, strict=True):
        if not plan.solved:
            continue
        _check_items(plan, room.length * SIXTEENTH)
        if run.left.kind == "wall":
            assert _places(plan)[0] == 0
        if run.right.kind == "wall":
            assert _places(plan)[-1] == room.length * SIXTEENTH
        for pin in run.pins:
            if pin.strength == "must":
                here = _edge(layout, run.wall, pin.item, pin.edge)
                there = (
                    2 * pin.at.ticks
                    if isinstance(pin.at, Length)
                    else _edge(layout, run.wall, pin.beside or 0, pin.edge)
                )
                assert there is None or here == there
    _check_shared(layout)


def _check_shared(layout: Layout) -> None:
    """Hold a tall box to one place in both rows."""
    places = {
        (item.left, item.right)
        for plan in layout.runs
        if plan.solved
        for item in plan.items
        if item.number == 9
    }
    assert len(places) <= 1


@settings(deadline=None, max_examples=80)
@given(invented())
def test_chosen_lies_between_earliest_and_latest(room: Invented) -> None:
    """No joint stands before its earliest or after its latest place."""
    for plan in laid_out(room.job()).runs:
        for joint in plan.joints:
            if plan.solved:
                assert joint.chosen is not None
                assert joint.earliest is not None
                assert joint.latest is not None
                assert joint.earliest <= joint.chosen <= joint.latest
            else:
                assert (joint.chosen, joint.earliest, joint.latest) == (None, None, None)


@settings(deadline=None, max_examples=80)
@given(invented())
def test_a_printed_mark_lies_within_half_a_step(room: Invented) -> None:
    """Every mark has a name of its own and prints on a step, within half a whole step of its place."""
    layout = laid_out(room.job())
    names = [mark.name for plan in layout.runs for mark in plan.marks]
    assert len(names) == len(set(names))
    for plan in layout.runs:
        for mark in plan.marks:
            if not plan.solved:
                assert mark.printed is None
                assert mark.at.value is None
                continue
            assert mark.printed is not None
            assert mark.at.value is not None
            assert mark.printed % FINE == 0
            assert abs(mark.printed - mark.at.value) <= STEP // 2


@settings(deadline=None, max_examples=80)
@given(invented())
def test_a_run_without_places_has_a_reason(room: Invented) -> None:
    """Every run that is not solved lies in a stop with a shortfall, or waits for one that does."""
    layout = laid_out(room.job())
    stops = [each for each in layout.findings if each.rank == "stop"]
    told = " ".join(each.text for each in stops)
    assert bool(stops) == any(not plan.solved for plan in layout.runs)
    for plan in layout.runs:
        assert plan.solved or plan.name in told or (plan.overrun or 0) != 0
    assert all(each.by_how_much or each.code == "run-waits" for each in stops)


@settings(deadline=None, max_examples=80)
@given(invented())
def test_a_mirror_changes_nothing_but_left_and_right(room: Invented) -> None:
    """A kitchen seen in a mirror is solved where the other is, and its joints have the mirrored windows."""
    assume(not any(isinstance(pin[3], str) and pin[2] == "centre" for pin in room.pins))
    length = room.length * SIXTEENTH
    for plan, other in zip(laid_out(room.job()).runs, laid_out(room.mirrored().job()).runs, strict=True):
        assert plan.solved == other.solved
        if plan.solved:
            windows = [(joint.earliest or 0, joint.latest or 0) for joint in plan.joints]
            mirrored = [(length - (j.latest or 0), length - (j.earliest or 0)) for j in other.joints[::-1]]
            assert windows == mirrored


def _check_cured(changed: Invented, stops: list[Finding], remedy: Remedy) -> None:
    """Hold a change to curing the run it was offered for, and those it was said to cure as well."""
    said = [stops[0].where, *(each.where for each in stops if each.text.endswith("cure this as well."))]
    for plan in laid_out(changed.job()).runs:
        assert plan.solved or plan.name not in said, remedy.text


@settings(deadline=None, max_examples=80)
@given(invented())
def test_a_way_out_does_lead_out(room: Invented) -> None:
    """What a remedy changes cures every run that must hang together with the conflict."""
    stops = [each for each in laid_out(room.job()).findings if each.rank == "stop"]
    assume(len([each for each in stops if each.remedies]) == 1)
    stops.sort(key=lambda each: not each.remedies)
    for remedy in stops[0].remedies:
        if remedy.kind == "move-pin":
            _check_cured(room.without_must(), stops, remedy)
        elif remedy.kind == "narrower-filler":
            _check_cured(room.with_fillers(8, 192), stops, remedy)
        elif remedy.kind == "wider-filler":
            _check_cured(room.with_fillers(999, 192), stops, remedy)
        elif remedy.kind in ("smaller-box", "next-stock-size"):
            number = int(remedy.text.split(" in ")[0].split()[-1])
            old = next(item[2] for row in room.rows for item in row if item[1] == number)
            steps = remedy.amount // SIXTEENTH
            width = old - steps if remedy.kind == "smaller-box" else old + steps
            _check_cured(room.with_width(number, width), stops, remedy)
