"""What a way out changes in the job: taken, it cures; written, it reads back."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from tests.changed_job import with_changes
from tests.stages.layout.invented import Invented, invented
from tests.stages.layout.kitchens import box, filler, finding, framed, kitchen, laid_out, run, wall

from setline.job.job import Job
from setline.result import Remedy

ON_SITE = {"cut-plaster", "check-sheet"}


def _short() -> Job:
    """Return a run that is 1/2 short between the left wall and the window centre."""
    return kitchen(
        [wall("A", 103, windows=[{"name": "yard", "centre": "61 3/8"}])],
        [run("A", [41, 1, 2, 42, 3, 43], pins=[{"item": 3, "edge": "centre", "window": "yard"}])],
        boxes=[framed(1, 24), framed(2, 18, measured="18"), framed(3, 36, name="sink")],
        fillers=[filler(41, "3/4", scribed=True), filler(42, "1 1/8"), filler(43, "3/4")],
    )


def _ways(job: Job, code: str = "run-too-short") -> dict[str, Remedy]:
    return {remedy.kind: remedy for remedy in finding(laid_out(job), code).remedies}


@pytest.mark.parametrize("kind", ["move-pin", "narrower-filler", "scribe-stile", "smaller-box"])
def test_each_kind_cures_when_it_is_taken(kind: str) -> None:
    """The job with the change written into it can be laid out."""
    job = _short()
    remedy = _ways(job)[kind]
    assert remedy.change
    assert all(run.solved for run in laid_out(with_changes(job, remedy.change)).runs)


def test_a_pin_let_go_stays_the_first_wish_and_misses_by_what_was_said() -> None:
    """What the remedy tells by how much the pin gives way is what comes of it."""
    job = _short()
    remedy = _ways(job)["move-pin"]
    missed = finding(laid_out(with_changes(job, remedy.change)), "wish-missed")
    assert missed.by_how_much == remedy.amount
    pins = with_changes(job, remedy.change).runs[0].pins
    assert [(pin.window, pin.strength, pin.rank) for pin in pins] == [("yard", "wish", 1)]


def test_another_box_is_on_its_way_and_not_measured() -> None:
    """A box in another width is not here, and the width that was measured was the old one's."""
    job = _short()
    remedy = _ways(job)["smaller-box"]
    changed = with_changes(job, remedy.change)
    new = next(each for each in changed.order.boxes if each not in job.order.boxes)
    assert (new.delivery, new.measured) == ("not here", None)


@pytest.mark.parametrize("side", ["left", "right"])
def test_an_open_end_reaches_as_far_as_was_said(side: str) -> None:
    """An open end moves outwards by the amount."""
    items = [41, 1, 2] if side == "right" else [2, 1, 41]
    job = kitchen(
        [wall("A", 120)],
        [run("A", items, **{side: {"kind": "open", "at": 90 if side == "right" else 30}})],
        boxes=[box(1, 60), box(2, 30)],
        fillers=[filler(41, 1, 2)],
    )
    changed = with_changes(job, _ways(job)["shift-run"].change)
    end = getattr(changed.runs[0], side)
    assert end.at.typed == ("91" if side == "right" else "29")
    assert laid_out(changed).runs[0].solved


def test_work_on_site_and_sheets_change_nothing_yet() -> None:
    """Plaster is cut and read again, a sheet is read: what comes of it is entered, not assumed."""
    ways = _ways(_short())
    assert "cut-plaster" in ways
    assert all((remedy.change == ()) == (kind in ON_SITE) for kind, remedy in ways.items())


@settings(deadline=None, max_examples=60)
@given(invented())
def test_every_change_of_any_kitchen_cures(room: Invented) -> None:
    """Written into the job, a change leaves no stop in the runs of its conflict."""
    job = room.job()
    stops = [each for each in laid_out(job).findings if each.rank == "stop"]
    cured = [each for each in stops if each.remedies]
    assume(len(cured) == 1)
    said = {cured[0].where, *(each.where for each in stops if each.text.endswith("cure this as well."))}
    for remedy in cured[0].remedies:
        if remedy.change:
            plans = laid_out(with_changes(job, remedy.change)).runs
            assert all(plan.solved for plan in plans if plan.name in said), remedy
