"""Places: a job document taken apart into addresses and put together again."""

from __future__ import annotations

import pytest

from setline.errors import InputError
from setline.field_book.book_order import in_book_order
from setline.field_book.places import from_places, pointer, steps_of, to_places
from setline.job.read import job_from_dict, load_job
from setline.job.write import to_dict

EXAMPLES = ("examples/larkspur-street.toml", "examples/mill-row.toml")


@pytest.mark.parametrize("path", EXAMPLES)
def test_a_document_survives_its_places(path: str) -> None:
    """Export, import, export gives the same places and the same job."""
    job = load_job(path)
    places = to_places(to_dict(job))
    again = from_places(places)
    assert to_places(again) == places
    assert from_places(to_places(to_dict(job_from_dict(again)))) == again


@pytest.mark.parametrize("path", EXAMPLES)
def test_every_reading_has_a_place_of_its_own(path: str) -> None:
    """No two floor readings share a place, so a correction can name just one."""
    job = load_job(path)
    read = sum(len(line.readings) for set_up in job.floor.set_ups for line in set_up.lines)
    assert sum("/readings/" in place for place in to_places(to_dict(job))) == read


def test_the_same_spot_read_again_is_another_take() -> None:
    """Two readings at one spot are take 1 and take 2, in the order they stand."""
    line = {"wall": "A", "at": "toe", "readings": [["48", "48 1/4"], ["48", "48 3/16"]]}
    places = to_places({"floor": {"set_ups": [{"name": "S1", "lines": [line]}]}})
    assert places["/floor/set_ups/S1/readings/A/toe/48/1"] == "48 1/4"
    assert places["/floor/set_ups/S1/readings/A/toe/48/2"] == "48 3/16"
    assert from_places(places)["floor"]["set_ups"][0]["lines"] == [line]


def test_what_a_line_was_read_on_is_kept() -> None:
    """A line read on the bare floor keeps that, and stays apart from one that says nothing."""
    lines = [
        {"wall": "A", "at": "wall", "readings": [["0", "48"]]},
        {"wall": "A", "at": "wall", "on": "bare", "readings": [["0", "48 1/2"]]},
    ]
    places = to_places({"floor": {"set_ups": [{"name": "S1", "lines": lines}]}})
    assert from_places(places)["floor"]["set_ups"][0]["lines"] == lines


@pytest.mark.parametrize(
    "steps",
    [("order", "boxes", "3", "width"), ("a/b", "48 1/4"), ("~", "~1", "~0/"), ("",)],
    ids=["plain", "fractions", "tildes", "empty"],
)
def test_a_pointer_is_read_back(steps: tuple[str, ...]) -> None:
    """Whatever stands in a step, the pointer gives it back."""
    assert steps_of(pointer(steps)) == steps


def test_a_place_without_a_slash_is_refused() -> None:
    """What is no pointer is refused with what was given."""
    with pytest.raises(InputError, match="order/boxes"):
        steps_of("order/boxes")


def test_names_sort_as_people_count() -> None:
    """3 comes before 12, and S2 before S10."""
    assert sorted(["12", "3", "S10", "S2"], key=in_book_order) == ["3", "12", "S2", "S10"]
