"""Entries on the wire: what can be kept is kept as sent, all else is refused with a sentence."""

from __future__ import annotations

import json
import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.field_book.writing import SPOT, entry

from setline.errors import InputError
from setline.field_book.entry import GREATEST_N, LONGEST_VALUE, act_of, entry_from_dict, entry_to_dict

GOOD = entry_to_dict(entry(1, SPOT, "48 1/4", over=("truck.0",)))


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"id": ""}, "id is a text"),
        ({"id": "x" * 65}, "at most 64"),
        ({"id": 7}, "id is a text"),
        ({"job": None}, "job is a text"),
        ({"by": "x" * 81}, "by is a text"),
        ({"device": "a\x00b"}, "device is a text"),
        ({"place": "order/boxes"}, "starts with a slash"),
        ({"place": "/" + "x" * 300}, "at most 300"),
        ({"place": "/\ud800"}, "place is a text"),
        ({"over": "truck.0"}, "list of at most 50"),
        ({"over": ["x"] * 51}, "list of at most 50"),
        ({"over": [1]}, "over is a text"),
        ({"n": -1}, "whole number"),
        ({"n": True}, "whole number"),
        ({"n": 1.5}, "whole number"),
        ({"n": GREATEST_N + 1}, "whole number"),
        ({"taken_back": 1}, "true or false"),
        ({"taken_back": True}, "left out"),
        ({"value": None}, "unless the entry takes one back"),
        ({"value": math.nan}, "JSON"),
        ({"value": {"a": math.inf}}, "JSON"),
        ({"value": "\udfff"}, "whole signs"),
        ({"value": "x" * (LONGEST_VALUE + 1)}, "at most 200000"),
        ({"colour": "red"}, "no field colour"),
    ],
)
def test_what_cannot_be_kept_is_refused(changes: dict[str, Any], said: str) -> None:
    """Each field that is missing, of the wrong kind or too long is named with what is allowed."""
    with pytest.raises(InputError, match=said):
        entry_from_dict({**GOOD, **changes})


@pytest.mark.parametrize("missing", ["id", "job", "device", "n", "place"])
def test_what_is_needed_is_asked_for(missing: str) -> None:
    """An entry without one of these is no entry."""
    with pytest.raises(InputError, match=missing):
        entry_from_dict({field: value for field, value in GOOD.items() if field != missing})


def test_a_value_as_deep_as_a_well_is_refused() -> None:
    """Lists in lists without end are told, not followed."""
    deep: list[Any] = []
    for _ in range(100_000):
        deep = [deep]
    with pytest.raises(InputError, match="JSON"):
        entry_from_dict({**GOOD, "value": deep})


VALUES = st.recursive(
    st.booleans() | st.integers(-(2**60), 2**60) | st.floats(allow_nan=False) | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=6,
)


@given(value=VALUES)
@settings(max_examples=100, deadline=None)
def test_an_entry_is_sent_and_read_back(value: Any) -> None:
    """Through JSON and back an entry is the same, or it was refused."""
    given_entry = {**GOOD, "value": value}
    try:
        made = entry_from_dict(given_entry)
    except InputError:
        return
    assert entry_from_dict(json.loads(json.dumps(entry_to_dict(made)))) == made


@given(field=st.sampled_from(sorted(GOOD)), value=VALUES | st.none())
@settings(max_examples=200, deadline=None)
def test_any_field_may_hold_anything(field: str, value: Any) -> None:
    """Whatever stands in a field, the answer is an entry with just that in it, or a refusal."""
    try:
        made = entry_from_dict({**GOOD, field: value})
    except InputError:
        return
    assert entry_to_dict(made)[field] == value


@pytest.mark.parametrize(
    ("name", "act"), [("9f-1", "9f"), ("9f-12", "9f"), ("a-b-3", "a-b"), ("9f", "9f"), ("-1", "-1")]
)
def test_an_act_is_an_id_without_its_count(name: str, act: str) -> None:
    """Entries made in one go share all of their id but the count at its end."""
    assert act_of(entry_from_dict({**GOOD, "id": name})) == act
