"""A job written down, as TOML, JSON and tables."""

from __future__ import annotations

import json
import tomllib

import pytest
from tests.job.changed import INCH, changed

from setline.job.job import Job
from setline.job.read import job_from_dict, read_job
from setline.job.starter import starter
from setline.job.write import to_dict, to_json, to_toml
from setline.lengths import Units

JOBS = [read_job(starter("Test room", units)) for units in Units]


@pytest.mark.parametrize("job", JOBS, ids=list(Units))
def test_the_three_forms_are_one_document(job: Job) -> None:
    """TOML and JSON hold the same tables."""
    assert tomllib.loads(to_toml(job)) == json.loads(to_json(job)) == to_dict(job)


def test_lengths_stand_as_typed() -> None:
    """What the crew typed is kept, not what it means."""
    job = job_from_dict(changed({"order.boxes.0.width": "18 strong", "order.boxes.1.width": 33}))
    boxes = to_dict(job)["order"]["boxes"]
    assert [box["width"] for box in boxes[:2]] == ["18 strong", "33"]


def test_what_a_job_does_not_say_is_left_out() -> None:
    """A job that says little makes a short file."""
    document = {
        "format": 1,
        "job": {"name": "x", "tape": "metric"},
        "room": {"walls": [{"name": "A", "lengths": [{"length": "3000"}]}]},
    }
    assert to_dict(job_from_dict(document)) == document


def test_odd_names_survive_a_file() -> None:
    """Quotes, new lines, signs of other scripts and keys with spaces come back as they were."""
    name = 'a "b" \\ c\nd é 厨房 ½'
    job = job_from_dict(changed({"job.name": name, "rules.a b": "1/8"}))
    again = read_job(to_toml(job))
    assert again == job
    assert again.job.name == name
    assert "a b" in again.rules


def test_a_written_file_keeps_its_lines_short() -> None:
    """The TOML that is written is meant to be read: readings are broken over lines."""
    readings = [[str(u), "48 3/16 strong"] for u in range(100)]
    text = to_toml(job_from_dict(changed({"floor.set_ups.0.lines.0.readings": readings})))
    assert max(map(len, text.split("\n"))) <= 110
    assert INCH["job"]["name"] in text
