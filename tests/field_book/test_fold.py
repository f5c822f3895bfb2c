"""The fold: the Job is a function of the set of entries."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.tape import inch

from setline.field_book.entry import Entry
from setline.field_book.fold import Folded, fold, is_length, live_entries
from setline.field_book.places import to_places
from setline.job.read import load_job
from setline.job.write import to_dict
from setline.lengths import Length

JOB = load_job("examples/larkspur-street.toml")
PLACES = to_places(to_dict(JOB))
SPOT = "/floor/set_ups/S1/readings/B/toe/24/1"


def entry(n: int, place: str, value: object, *, device: str = "truck", over: tuple[str, ...] = ()) -> Entry:
    """Return an entry that puts a value at a place, or takes it back where the value is None."""
    return Entry(
        id=f"{device}-{n}",
        job="j",
        device=device,
        n=n,
        over=over,
        place=place,
        value=value,
        taken_back=value is None,
    )


BOOK = tuple(entry(n, place, value) for n, (place, value) in enumerate(PLACES.items()))
ID_OF = {each.place: each.id for each in BOOK}


def test_a_whole_job_comes_back() -> None:
    """A job taken apart into entries folds to the same job."""
    folded = fold(BOOK)
    assert folded.job is not None
    assert to_places(to_dict(folded.job)) == PLACES
    assert folded.unsettled == ()


def test_a_correction_stands_over_what_it_names() -> None:
    """The entry that a later one names in ``over`` counts no more."""
    folded = fold([*BOOK, entry(1, SPOT, "47 3/4", device="phone", over=(ID_OF[SPOT],))])
    assert to_places(folded.document)[SPOT] == "47 3/4"
    assert folded.unsettled == ()


def test_two_live_values_are_told_and_the_middle_is_used() -> None:
    """Two people's readings of one spot stand side by side; half-way between them counts."""
    folded = fold(
        [entry(1, "/job/tape", "inch"), entry(2, SPOT, "48 1/4"), entry(1, SPOT, "48 3/16", device="phone")]
    )
    (two,) = folded.unsettled
    assert two.place == SPOT
    assert [each.value for each in two.entries] == ["48 3/16", "48 1/4"]
    assert two.used == "48 7/32"


def test_two_live_values_of_another_kind_give_way_to_the_lowest_device() -> None:
    """Where nothing lies half-way, the lowest (device, n) is used, and both are told."""
    folded = fold(
        [entry(9, "/job/name", "Tern Lane", device="b"), entry(3, "/job/name", "Tern Road", device="a")]
    )
    assert folded.document["job"]["name"] == "Tern Road"
    assert folded.unsettled[0].place == "/job/name"


def test_the_same_value_twice_is_no_quarrel() -> None:
    """Two people who read the same have nothing to settle."""
    folded = fold([entry(1, SPOT, "48 1/4"), entry(1, SPOT, "48 1/4", device="phone")])
    assert folded.unsettled == ()


def test_taken_back_yields_to_a_live_value() -> None:
    """One takes a reading back while another reads it anew: the new value stands."""
    first = entry(1, SPOT, "48 1/4")
    back = entry(2, SPOT, None, over=(first.id,))
    anew = entry(1, SPOT, "48 1/8", device="phone", over=(first.id,))
    assert live_entries([first, back, anew])[SPOT] == (anew,)


def test_what_is_taken_back_alone_leaves_the_place_empty() -> None:
    """A reading taken back is gone from the job and stays in the book."""
    first = entry(1, SPOT, "48 1/4")
    book = [first, entry(2, SPOT, None, over=(first.id,))]
    assert SPOT not in to_places(fold(book).document)
    assert len(live_entries(book)[SPOT]) == 1


def test_a_job_that_is_not_whole_yet_says_what_is_missing() -> None:
    """Entries that make no job yet give faults, never an exception, and nothing is lost."""
    folded = fold([entry(1, "/job/name", "Tern Lane"), entry(2, "/nowhere/else", 3)])
    assert folded.job is None
    assert folded.faults
    assert to_places(folded.document)["/job/name"] == "Tern Lane"


@pytest.mark.parametrize(
    ("place", "expected"),
    [
        (SPOT, True),
        ("/order/boxes/3/width", True),
        ("/order/boxes/3/name", False),
        ("/order/boxes/3/number", False),
        ("/room/walls/A/lengths/wall/line/1", True),
        ("/runs/A base/items", False),
        ("/floor/toe_line", True),
        ("/job/strong", True),
        ("/nowhere", False),
    ],
)
def test_a_place_knows_whether_it_holds_a_length(place: str, expected: bool) -> None:
    """Half-way is for lengths alone."""
    assert is_length(place) is expected


@st.composite
def _books(draw: st.DrawFn) -> list[Entry]:
    """Draw a book of three devices that write, correct and take back at a few places."""
    places = ["/job/name", "/job/tape", SPOT, "/order/boxes/3/width", "/floor/use"]
    values = st.sampled_from(["48 1/4", "48 3/16", "48", "inch", "metric", "x"])
    book: list[Entry] = []
    for n in range(draw(st.integers(1, 14))):
        device = draw(st.sampled_from(["a", "b", "c"]))
        place = draw(st.sampled_from(places))
        earlier = [each.id for each in book if each.place == place]
        over = tuple(draw(st.lists(st.sampled_from(earlier), max_size=2, unique=True))) if earlier else ()
        book.append(entry(n, place, draw(st.none() | values), device=device, over=over))
    return book


def _same(one: Folded, other: Folded) -> bool:
    """Return whether two folds say the same, half-way lengths by their ticks and text."""
    return repr(one) == repr(other)


@given(book=_books(), seed=st.integers(0, 2**32))
@settings(max_examples=150, deadline=None)
def test_any_order_repetition_or_delay_folds_the_same(book: list[Entry], seed: int) -> None:
    """Shuffled, sent twice and arriving late, the same entries make the same job."""
    shuffled = [*book, *random.Random(seed).choices(book, k=5)]
    random.Random(seed + 1).shuffle(shuffled)
    assert _same(fold(book), fold(shuffled))


@given(book=_books())
@settings(max_examples=100, deadline=None)
def test_a_place_has_a_live_entry_as_long_as_one_was_ever_written(book: list[Entry]) -> None:
    """Nothing is erased: every place that was written has at least one entry that speaks for it."""
    assert set(live_entries(book)) == {each.place for each in book}


def test_half_way_is_exact() -> None:
    """The middle of two sixteenths a sixteenth apart is a whole number of ticks."""
    folded = fold([entry(1, "/job/tape", "inch"), entry(2, SPOT, "48 1/16"), entry(3, SPOT, "48")])
    (line,) = folded.document["floor"]["set_ups"][0]["lines"]
    down = line["readings"][0][1]
    assert isinstance(down, Length)
    assert down.ticks == inch("48 1/32")
