"""What ways out of the line's troubles change in the job: taken, they do what was told."""

from __future__ import annotations

from tests.changed_job import with_changes
from tests.rooms import falling_floor, plain_room
from tests.tape import inch

from setline import plan
from setline.job.job import Job
from setline.job.read import job_from_dict
from setline.result import Finding, Plan, Remedy


def _finding(planned: Plan, code: str) -> Finding:
    return next(each for each in planned.findings if each.code == code)


def _kept_line(planned: Plan) -> Remedy:
    """Return the remedy that keeps a line which something other than the high spot sets."""
    ways = _finding(planned, "line-above-high-spot").remedies
    return next(each for each in ways if each.kind == "raise-line")


def test_trimmed_boxes_lower_the_line_as_the_table_tells() -> None:
    """With the boxes trimmed the line comes down by the row's amount, and so do the shims."""
    job = job_from_dict(falling_floor())
    before = plan(job)
    trims = [option for option in before.level_line.options if option.trims]
    remedies = [
        remedy for remedy in _finding(before, "floor-falls-too-far").remedies if remedy.kind == "trim-box"
    ]
    assert len(trims) == len(remedies) >= 1
    for option, remedy in zip(trims, remedies, strict=True):
        after = plan(with_changes(job, remedy.change))
        assert before.level_line.tops.value is not None
        assert after.level_line.tops.value == before.level_line.tops.value - option.lowered
        assert max(shim.printed or 0 for shim in after.shims) == option.greatest_shim


def _with_dishwasher(height: str) -> Job:
    document = plain_room()
    machine = {**document["order"]["appliances"][0], "height": {"least": height}}
    return job_from_dict({**document, "order": {**document["order"], "appliances": [machine]}})


def test_a_line_that_was_kept_is_agreed() -> None:
    """The yes to a line over the high spot writes it down; nobody is asked again, and it stays."""
    job = _with_dishwasher("34 3/4")
    before = plan(job)
    keep = _kept_line(before)
    after = plan(with_changes(job, keep.change))
    assert after.level_line.tops.value == before.level_line.tops.value
    assert "line-above-high-spot" not in {each.code for each in after.findings}
    assert keep.change[0].value["set_up"] == "S1"


def test_a_line_over_the_laser_is_not_written_as_a_reading() -> None:
    """What would be measured up from the laser line is no distance down."""
    document = falling_floor()
    low = [[u, "20"] for u in ("2", "20", "26", "44", "50", "68", "74", "92")]
    lines = [{"wall": "A", "at": at, "readings": low} for at in ("wall", "toe")]
    machine = {"number": 31, "kind": "dishwasher", "width": {"least": "24"}, "height": {"least": "35"}}
    document["floor"] = {"set_ups": [{"name": "S1", "lines": lines}]}
    document["order"]["appliances"] = [machine]
    document["order"]["boxes"].pop()
    document["runs"][0]["items"] = [41, 1, 2, 3, 31]
    planned = plan(job_from_dict(document))
    keep = _kept_line(planned)
    assert planned.level_line.set_ups[0].printed_level == inch("20") - inch("35")
    assert keep.change == ()
