"""Shims from the truck: fewest pieces, thickest first, and what they leave."""

from __future__ import annotations

from itertools import combinations_with_replacement

from hypothesis import given
from hypothesis import strategies as st
from tests.tape import inch

from setline.stages.gaps.stack import make_up

TRUCK = tuple(inch(text) for text in ("1/32", "1/16", "1/8", "1/4", "3/8", "1/2"))


def test_three_thirty_seconds_are_a_sixteenth_and_a_thirty_second() -> None:
    """The thickest goes first."""
    stack = make_up(inch("3/32"), TRUCK)
    assert (stack.pieces, stack.remainder) == ((inch("1/16"), inch("1/32")), 0)


def test_nothing_needs_no_shim() -> None:
    """A box that rests on the floor has an empty stack, and nothing is left over."""
    assert (make_up(0, TRUCK).pieces, make_up(0, TRUCK).remainder) == ((), 0)


def test_what_the_truck_cannot_make_up_is_told() -> None:
    """With eighths only, 5/32 is an eighth and 1/32 over; with nothing at all it is all left."""
    stack = make_up(inch("5/32"), (inch("1/8"),))
    assert (stack.pieces, stack.remainder) == ((inch("1/8"),), inch("1/32"))
    assert make_up(inch("5/32"), ()).remainder == inch("5/32")
    assert make_up(inch("1/32"), (inch("1/8"),)).pieces == ()


def test_thick_first_is_not_always_fewest() -> None:
    """6 of 4, 3 and 1 is two threes, not a four and two ones."""
    assert make_up(6, (1, 3, 4)).pieces == (3, 3)


@given(st.integers(0, 40), st.sets(st.integers(1, 12), min_size=1, max_size=4))
def test_no_other_choice_of_pieces_does_better(thickness: int, stock: set[int]) -> None:
    """Against every choice of up to six pieces: none comes nearer, none as near with fewer or thicker."""
    stack = make_up(thickness, tuple(stock))
    assert sum(stack.pieces) + stack.remainder == thickness
    assert list(stack.pieces) == sorted(stack.pieces, reverse=True)
    for count in range(min(len(stack.pieces), 6) + 1):
        for pieces in combinations_with_replacement(sorted(stock, reverse=True), count):
            left = thickness - sum(pieces)
            if left < 0 or left > stack.remainder:
                continue
            assert left == stack.remainder
            assert (len(pieces), [-piece for piece in pieces]) >= (
                len(stack.pieces),
                [-piece for piece in stack.pieces],
            )
