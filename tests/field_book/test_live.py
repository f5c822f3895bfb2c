"""What counts at a place: a function of the set of entries that never loses the last value."""

from __future__ import annotations

import random
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.field_book.writing import SPOT, entry

from setline.field_book.entry import Entry
from setline.field_book.live import live_entries, unique_entries


def _values(book: list[Entry]) -> list[object]:
    """Return the live values of the spot."""
    return [each.value for each in live_entries(book)[SPOT]]


def test_an_unknown_id_takes_nothing_away() -> None:
    """An entry that stands over one that never came counts like any other."""
    assert _values([entry(1, SPOT, "48", over=("never.1",))]) == ["48"]


def test_a_late_entry_is_stood_over_when_it_comes() -> None:
    """The correction came first; the reading that it corrects comes later and does not count."""
    correction = entry(2, SPOT, "48 1/8", over=("truck.1",))
    assert _values([correction]) == ["48 1/8"]
    assert _values([correction, entry(1, SPOT, "48")]) == ["48 1/8"]


def test_an_entry_that_names_itself_counts() -> None:
    """An entry cannot take itself away."""
    assert _values([entry(1, SPOT, "48", over=("truck.1",))]) == ["48"]


def test_a_ring_keeps_its_values() -> None:
    """Entries that stand over each other in a ring all count; what the ring stands over does not."""
    first = entry(1, SPOT, "47")
    ring = [
        entry(2, SPOT, "48", over=("truck.4", "truck.1")),
        entry(3, SPOT, "48 1/8", over=("truck.2",)),
        entry(4, SPOT, "48 1/4", over=("truck.3",)),
    ]
    assert _values([first, *ring]) == ["48", "48 1/8", "48 1/4"]


def test_what_stands_over_a_ring_stands_over_all_of_it() -> None:
    """One entry from outside settles a ring, whichever of it is named."""
    ring = [entry(1, SPOT, "48", over=("truck.2",)), entry(2, SPOT, "47", over=("truck.1",))]
    assert _values([*ring, entry(3, SPOT, "46", over=("truck.1",))]) == ["46"]


def test_an_entry_of_another_place_takes_nothing_away() -> None:
    """An entry stands over entries of its own place alone."""
    assert _values([entry(1, SPOT, "48"), entry(2, "/job/name", "x", over=("truck.1",))]) == ["48"]


def test_one_id_with_two_contents_is_always_the_same_one() -> None:
    """No store keeps two contents under one id; were there two, the order would not choose."""
    one, other = entry(1, SPOT, "48"), replace(entry(1, SPOT, "48"), value="47")
    assert unique_entries([one, other]) == unique_entries([other, one])


def test_a_long_chain_is_quick() -> None:
    """Ten thousand corrections of one place, and a ring of as many, are walked without depth."""
    chain = [entry(n, SPOT, str(n), over=(f"truck.{n - 1}",)) for n in range(10_000)]
    assert _values(chain) == ["9999"]
    assert len(_values([*chain, entry(10_000, SPOT, "x", over=("truck.9999",))])) == 1
    assert len(_values([replace(chain[0], over=("truck.9999",)), *chain[1:]])) == 10_000


@st.composite
def _wild(draw: st.DrawFn) -> list[Entry]:
    """Draw entries that name anything in ``over``: earlier, later, themselves, unknown, rings."""
    count = draw(st.integers(1, 9))
    names = [f"truck.{n}" for n in range(count + 2)]
    return [
        entry(
            n,
            SPOT,
            draw(st.sampled_from(["48", "47", None])),
            over=tuple(draw(st.lists(st.sampled_from(names), max_size=3))),
        )
        for n in range(count)
    ]


@given(book=_wild(), seed=st.integers(0, 2**32))
@settings(max_examples=400, deadline=None)
def test_any_set_keeps_a_value_in_any_order(book: list[Entry], seed: int) -> None:
    """Whatever names whatever, in any order, the same entries count, and at least one does."""
    shuffled = [*book, *random.Random(seed).choices(book, k=4)]
    random.Random(seed + 1).shuffle(shuffled)
    live = live_entries(book)
    assert live == live_entries(shuffled)
    assert live[SPOT]


@given(book=_wild())
@settings(max_examples=200, deadline=None)
def test_what_does_not_count_is_stood_over_by_what_does(book: list[Entry]) -> None:
    """Every value that no longer counts has one that does, or a taking back, standing over it at last."""
    by_id = {each.id: each for each in book}
    all_live = {each.id for each in live_entries([replace(each, taken_back=False) for each in book])[SPOT]}
    reached, ahead = set(all_live), list(all_live)
    while ahead:
        for old in by_id[ahead.pop()].over:
            if old in by_id and old not in reached:
                reached.add(old)
                ahead.append(old)
    assert reached == set(by_id)
