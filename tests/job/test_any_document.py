"""Any bytes, and any change of a good document, end in a job or in faults, and in nothing else."""

from __future__ import annotations

import copy
import json
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.job.changed import INCH, METRIC

from setline.errors import JobFileError
from setline.job.job import Job
from setline.job.read import job_from_dict, read_job
from setline.job.starter import starter
from setline.job.write import to_dict, to_json, to_toml
from setline.lengths import Units

TEXTS = [starter("Test room", units) for units in Units]


def _answer(content: bytes | str | dict[str, Any], form: Any = "toml") -> Job | JobFileError:
    """Return the job of a document, or what is wrong with it."""
    try:
        return job_from_dict(content) if isinstance(content, dict) else read_job(content, form)
    except JobFileError as refused:
        return refused


def _check(answer: Job | JobFileError) -> None:
    """A job writes and reads back as itself, in every form; faults are whole sentences."""
    if isinstance(answer, Job):
        assert read_job(to_toml(answer)) == answer
        assert read_job(to_json(answer), "json") == answer
        assert job_from_dict(to_dict(answer)) == answer
    else:
        assert answer.faults
        for fault in answer.faults:
            assert fault.where
            assert fault.given
            assert fault.allowed
            str(fault).encode()


@given(st.binary(max_size=300) | st.text(max_size=200).map(str.encode), st.sampled_from(["toml", "json"]))
def test_any_bytes(content: bytes, form: str) -> None:
    """No bytes break the reader."""
    _check(_answer(content, form))


@given(st.sampled_from(TEXTS), st.data())
@settings(max_examples=150)
def test_a_file_with_a_piece_changed(text: str, data: st.DataObject) -> None:
    """A file with a piece cut out and another put in its place is still read or refused."""
    start = data.draw(st.integers(0, len(text)))
    end = min(len(text), start + data.draw(st.integers(0, 40)))
    piece = data.draw(st.text(max_size=12) | st.text('[]{}="#,.\n0123456789 ', max_size=12))
    _check(_answer(text[:start] + piece + text[end:]))


LEAVES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-10, 10**20),
    st.floats(),
    st.text(max_size=8),
    st.sampled_from(
        ["A", "Q", "B base", "S1", "laser S1", "line 1", "24", "4 8 1/4", "wall", "corner", "no limit"]
    ),
    st.builds(list),
    st.builds(dict),
    st.just({"up": "3", "from": "subfloor"}),
    st.just([["2", "3"]]),
)


def _places(value: Any, place: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Return every place of a document."""
    inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [place, *(deeper for key, each in inside for deeper in _places(each, (*place, key)))]


PLACES = [(document, place) for document in (INCH, METRIC) for place in _places(document) if place]


@given(st.lists(st.tuples(st.sampled_from(PLACES), LEAVES), min_size=1, max_size=4))
@settings(max_examples=300)
def test_a_document_with_values_changed(changes: list[tuple[Any, Any]]) -> None:
    """A document with other values at some of its places is still read or refused."""
    document = copy.deepcopy(changes[0][0][0])
    for (_, place), value in changes:
        inner: Any = document
        try:
            for step in place[:-1]:
                inner = inner[step]
            inner[place[-1]] = value
        except (KeyError, IndexError, TypeError):  # an earlier change took that place away
            continue
    _check(_answer(document))


@given(
    st.recursive(
        LEAVES, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(), inner, max_size=4)
    )
)
def test_any_tables(document: Any) -> None:
    """No tables and lists break the reader, whatever they hold."""
    _check(_answer({"format": 1, "job": document}))
    _check(_answer({"format": 1, "job": {"name": "x", "tape": "inch"}, "room": document, "order": document}))
    text = json.dumps(document)
    _check(_answer(text, "json"))
