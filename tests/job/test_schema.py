"""The published form of a job file."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from tests.job.changed import INCH, METRIC, changed

from setline.job.job import Job
from setline.job.read import load_job
from setline.job.schema import field_help, job_schema
from setline.job.write import to_dict

SCHEMA = job_schema()
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))


def test_the_schema_is_one() -> None:
    """It is valid JSON Schema 2020-12, and plain JSON."""
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(SCHEMA)
    assert json.loads(json.dumps(SCHEMA)) == SCHEMA


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_examples_are_valid_and_read(path: Path) -> None:
    """Each sample kitchen is valid by the schema as it stands and as it is written again, and is read."""
    validator = Draft202012Validator(SCHEMA)
    validator.validate(tomllib.loads(path.read_text(encoding="utf-8")))
    validator.validate(to_dict(load_job(path)))


def test_the_starters_are_valid() -> None:
    """Both starters are valid by the schema."""
    for document in (INCH, METRIC):
        Draft202012Validator(SCHEMA).validate(document)


@pytest.mark.parametrize(
    "changes",
    [
        {"order.boxes.0.widht": 24},
        {"order.boxes.0.kind": "bas"},
        {"order.boxes.0.number": "1"},
        {"format": 2},
    ],
    ids=["unknown key", "no such kind", "number as text", "other format"],
)
def test_the_schema_refuses_what_the_reader_refuses(changes: dict[str, object]) -> None:
    """A wrong key, word, type or version is wrong by the schema too."""
    assert not Draft202012Validator(SCHEMA).is_valid(changed(changes))


def test_every_field_says_what_it_means() -> None:
    """No field of a job goes without its sentence, in the models and in the schema."""
    parts = {"Job": SCHEMA, **SCHEMA["$defs"]}
    for name, part in parts.items():
        for key, shape in part.get("properties", {}).items():
            assert shape.get("description"), f"{name}.{key}"
    assert field_help(Job)["runs"] == "The runs."
