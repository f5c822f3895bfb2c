"""A job file in and out of the field book."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from tests.field_book.jobs import documents

from setline.errors import InputError, JobFileError
from setline.field_book.entry import Entry
from setline.field_book.places import from_places, to_places
from setline.field_book.transfer import export_job, export_toml, import_job
from setline.job.job import Job
from setline.job.read import job_from_dict, load_job, read_job
from setline.job.write import to_dict, to_toml

EXAMPLES = ("examples/larkspur-street.toml", "examples/mill-row.toml")


def _book(job: Job) -> tuple[Entry, ...]:
    """Return the entries that a job makes."""
    return import_job(to_dict(job), "truck", job="j", act="a")


@pytest.mark.parametrize("path", EXAMPLES)
def test_a_sample_comes_out_as_it_went_in(path: str) -> None:
    """What a file says goes in as entries and comes out the same, letter by letter."""
    job = load_job(path)
    assert export_toml(_book(job)) == to_toml(job)
    assert export_toml(_book(read_job(export_toml(_book(job))))) == export_toml(_book(job))


@given(documents())
@settings(max_examples=80, deadline=None)
def test_any_job_comes_out_as_it_went_in(document: dict[str, Any]) -> None:
    """No reading, thing, name or order of a job is lost on the way through the book."""
    exported = export_toml(_book(job_from_dict(document)))
    assert export_toml(_book(read_job(exported))) == exported
    lines = [(name, line["wall"], line.get("at", "wall"), line.get("on")) for name, line in _lines(document)]
    if len(set(lines)) == len(lines):  # two lists of one line are joined, as they should be
        assert exported == to_toml(job_from_dict(document))


def _lines(document: dict[str, Any]) -> list[tuple[str, dict[str, Any]]]:
    """Return every line of floor readings with its set-up."""
    return [(set_up["name"], line) for set_up in document["floor"]["set_ups"] for line in set_up["lines"]]


@given(documents())
@settings(max_examples=50, deadline=None)
def test_every_reading_of_any_job_has_a_place_of_its_own(document: dict[str, Any]) -> None:
    """There are as many places of floor readings as readings, whatever was read twice."""
    read = sum(len(line["readings"]) for _, line in _lines(document))
    assert sum("/readings/" in place for place in to_places(document)) == read


def test_lists_keep_the_order_they_were_written_in() -> None:
    """The first struck line is the datum, and the first set-up named wins a tie: order is part of a job."""
    lines = [{"name": "line 2", "set_up": "S1"}, {"name": "line 1", "set_up": "S1"}]
    places = to_places({"record": {"struck_lines": lines}})
    assert places["/record/struck_lines"] == ["line 2", "line 1"]
    assert from_places(places)["record"]["struck_lines"] == lines


def test_what_an_order_does_not_name_comes_after() -> None:
    """A set-up that another phone adds stands behind those whose order was written down."""
    places = to_places({"floor": {"set_ups": [{"name": "S2"}, {"name": "S1"}]}})
    places["/floor/set_ups/S0/name"] = "S0"
    names = [set_up["name"] for set_up in from_places(places)["floor"]["set_ups"]]
    assert names == ["S2", "S1", "S0"]


def test_two_things_of_one_name_stay_two() -> None:
    """Coverings that were given the same name keep a place each."""
    coverings = [{"name": "oak", "thickness": "3/4"}, {"name": "oak", "thickness": "1/2"}]
    places = to_places({"floor": {"coverings": coverings}})
    assert places["/floor/coverings/oak (2)/thickness"] == "1/2"
    assert from_places(places)["floor"]["coverings"] == coverings


def test_putting_together_leaves_the_values_alone() -> None:
    """A value that stands above a place is not changed by what lies under it."""
    given_value = {"thickness": "1"}
    from_places({"/order/tops": given_value, "/order/tops/thickness": "2", "/order/tops/x": "3"})
    assert given_value == {"thickness": "1"}


def test_nothing_that_does_not_fit_is_dropped() -> None:
    """A value where lines belong and readings beside it are both still there, to be told about."""
    document = from_places({"/floor/set_ups/S1/lines": "x", "/floor/set_ups/S1/readings/A/toe/1/1": "48"})
    (set_up,) = document["floor"]["set_ups"]
    assert set_up["lines"] == "x"
    assert set_up["readings"]


def test_an_import_can_be_repeated() -> None:
    """The same act makes the same entries; each has a place, an id and a count of its own."""
    job = load_job(EXAMPLES[0])
    book = _book(job)
    assert book == _book(job)
    assert len({entry.id for entry in book}) == len({entry.place for entry in book}) == len(book)
    assert [entry.n for entry in book] == list(range(1, len(book) + 1))


def test_a_name_too_long_for_a_place_is_refused() -> None:
    """A set-up with a name that no place can hold is told, not cut."""
    document = {"floor": {"set_ups": [{"name": "S1", "use": "x"}]}, "rules": {"x" * 400: 1}}
    with pytest.raises(InputError, match="300"):
        import_job(document, "truck", job="j", act="a")


def test_a_book_without_a_whole_job_says_what_is_missing() -> None:
    """Half a job has a document, and no job file."""
    entry = Entry(id="1", job="j", device="truck", n=1, place="/job/name", value="Tern Lane")
    assert export_job([entry]) == {"job": {"name": "Tern Lane"}}
    with pytest.raises(JobFileError, match="tape"):
        export_toml([entry])


@pytest.mark.parametrize("path", EXAMPLES)
def test_a_sample_folds_to_the_same_plan(path: str) -> None:
    """Entered by phone or read from a file, a kitchen has the same marks."""
    from setline import plan
    from setline.field_book.fold import fold

    job = load_job(path)
    again = fold(_book(job)).job
    assert again is not None
    assert plan(again) == plan(job)
