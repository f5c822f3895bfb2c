"""Undo: the last kept act of a device, one after the other, and never somebody else's work."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.field_book.writing import SPOT, entry

from setline.field_book.entry import Entry
from setline.field_book.fold import fold
from setline.field_book.live import live_entries
from setline.field_book.places import to_places
from setline.field_book.transfer import import_job
from setline.field_book.undo import DEEPEST, last_act, undo

ITEMS = "/runs/A base/items"
FIRST = entry(1, SPOT, "48 1/4", act="a1")


def _taken_back(book: list[Entry], device: str = "truck") -> list[Entry]:
    """Return a book after one press of undo."""
    found = undo(book, device)
    return book if found is None else [*book, *found.entries]


def _values(book: list[Entry], place: str) -> list[object]:
    """Return the live values of a place."""
    return [each.value for each in live_entries(book)[place]]


def test_a_reading_is_taken_back() -> None:
    """What stood over nothing leaves its place empty, and stays in the book."""
    book = _taken_back([FIRST])
    assert len(book) == 2
    assert SPOT not in to_places(fold(book).document)


def test_a_correction_taken_back_brings_the_first_value_back() -> None:
    """Undo of a correction is the value before it, not an empty place."""
    book = _taken_back([FIRST, entry(2, SPOT, "48 1/8", over=(FIRST.id,), act="a2")])
    assert _values(book, SPOT) == ["48 1/4"]


def test_an_act_of_several_places_goes_together() -> None:
    """Two places written in one go are taken back in one."""
    book = [entry(1, ITEMS, [1, 2], act="move"), entry(2, "/runs/A base/pins", [], act="move")]
    assert [each.place for each in last_act(book, "truck")] == [ITEMS, "/runs/A base/pins"]
    assert _values(_taken_back(book), ITEMS) == _values(_taken_back(book), "/runs/A base/pins") == [None]


def test_pressed_again_it_goes_one_further_back() -> None:
    """The second press takes back the act before, and the third finds nothing."""
    book = [FIRST, entry(2, SPOT, "48 1/8", over=(FIRST.id,), act="a2")]
    once = _taken_back(book)
    twice = _taken_back(once)
    assert _values(once, SPOT) == ["48 1/4"]
    assert _values(twice, SPOT) == [None]
    assert undo(twice, "truck") is None


def test_a_press_that_arrives_twice_counts_once() -> None:
    """A page names the act it showed; when that is taken back already, nothing more is."""
    book = [FIRST, entry(2, ITEMS, [1], act="a2")]
    shown = undo(book, "truck")
    assert shown is not None
    again = [*book, *shown.entries]
    assert undo(again, "truck", only=shown.name) is None
    assert undo(book, "truck", only=shown.name) == shown


def test_what_another_built_on_is_left_and_named() -> None:
    """A value that somebody else has written over since stays, and whose it is can be shown."""
    theirs = entry(1, SPOT, "48 3/16", device="phone", over=(FIRST.id,))
    found = undo([FIRST, theirs], "truck")
    assert found is not None
    assert found.entries == ()
    assert found.built_on == (theirs,)


def test_it_can_be_taken_back_all_the_same() -> None:
    """Asked and told so, undo stands over the other's value too."""
    theirs = entry(1, SPOT, "48 3/16", device="phone", over=(FIRST.id,))
    found = undo([FIRST, theirs], "truck", over_others=True)
    assert found is not None
    assert _values([FIRST, theirs, *found.entries], SPOT) == [None]


def test_another_value_at_the_same_time_is_not_touched() -> None:
    """Two values of two people: one takes theirs back, the other stands alone."""
    other = entry(1, SPOT, "48 3/16", device="phone")
    assert _values(_taken_back([FIRST, other]), SPOT) == ["48 3/16"]


def test_a_settling_taken_back_leaves_two_values_again() -> None:
    """When the one value that settled two is taken back, both are there again."""
    other = entry(1, SPOT, "48 3/16", device="phone")
    settled = entry(2, SPOT, "48 7/32", over=(FIRST.id, other.id), act="a2")
    assert sorted(_values(_taken_back([FIRST, other, settled]), SPOT)) == ["48 1/4", "48 3/16"]


def test_nothing_is_taken_back_for_another_device() -> None:
    """Each device takes back its own acts alone."""
    assert undo([FIRST], "phone") is None


def test_an_import_is_not_taken_back_by_a_press() -> None:
    """A whole job file does not vanish by one tap; the reading after it does."""
    book = list(
        import_job({"format": 1, "job": {"name": "Tern Lane", "tape": "inch"}}, "truck", job="j", act="i")
    )
    assert undo(book, "truck") is None
    after = _taken_back([*book, entry(9, SPOT, "48")])
    assert _values(after, "/job/name") == ["Tern Lane"]


def test_it_goes_fifty_deep() -> None:
    """The last fifty acts can be taken back, and no more."""
    book = [entry(n, f"/rules/r{n}", "1") for n in range(1, DEEPEST + 11)]
    presses = 0
    while (found := undo(book, "truck")) is not None:
        book += found.entries
        presses += 1
    assert presses == DEEPEST
    assert _values(book, "/rules/r10") == ["1"]
    assert _values(book, "/rules/r11") == [None]


@st.composite
def _acts(draw: st.DrawFn) -> list[Entry]:
    """Draw a book that two devices write honestly: each stands over what it sees live."""
    book: list[Entry] = []
    for n in range(1, draw(st.integers(1, 12)) + 1):
        device = draw(st.sampled_from(["truck", "phone"]))
        place = draw(st.sampled_from([SPOT, ITEMS, "/job/name"]))
        over = tuple(each.id for each in live_entries(book).get(place, ()))
        value = draw(st.sampled_from(["1", "2", "3", None]))
        book.append(entry(n, place, value, device=device, over=over if draw(st.booleans()) else ()))
    return book


@given(book=_acts(), presses=st.integers(1, 14))
@settings(max_examples=200, deadline=None)
def test_undo_ends_and_erases_nothing(book: list[Entry], presses: int) -> None:
    """However often it is pressed, the book only grows, and no other device's live value goes."""
    before = {each.id for each in book if each.device == "phone"}
    theirs = {place: {each.id for each in found} & before for place, found in live_entries(book).items()}
    now = list(book)
    for _ in range(presses):
        now = _taken_back(now)
    assert now[: len(book)] == book
    assert len({each.id for each in now}) == len(now)
    values = {each.id for found in live_entries(now).values() for each in found}
    lost = {name for names in theirs.values() for name in names} - values
    assert all(each.taken_back for each in book if each.id in lost)


@given(book=_acts())
@settings(max_examples=100, deadline=None)
def test_all_taken_back_leaves_nothing_of_one_alone(book: list[Entry]) -> None:
    """A device that was alone and takes everything back has an empty job."""
    now = [each for each in book if each.device == "truck"]
    for _ in range(len(book) + 1):
        now = _taken_back(now)
    assert all(each.taken_back for found in live_entries(now).values() for each in found)
