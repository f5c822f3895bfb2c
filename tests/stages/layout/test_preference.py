"""Wishes in strict order and what is shared, by hand."""

from __future__ import annotations

import pytest
from tests.tape import inch, mm

from setline.stages.layout.preference import Wish, follow, share
from setline.stages.layout.row import Gives, Row, at_least, at_most, exactly
from setline.stages.layout.windows import Windows, windows


def _allowed(rows: list[Row], nodes: int) -> Windows:
    seen = windows(rows, nodes)
    assert seen is not None
    return seen


def _fillers(total: int, count: int, *more: Row) -> Windows:
    return _allowed([*exactly(0, count, total, "between", "between", Gives.FACT), *more], count + 1)


def _equal(count: int) -> list[Wish]:
    return [Wish(left, left + 1, 0) for left in range(count)]


def test_a_later_wish_never_moves_an_earlier_one() -> None:
    """Of two widths that make up 10 together, the first gets its wish and the second the rest."""
    seen = _fillers(inch(10), 2)
    assert follow(seen, [Wish(0, 1, inch(7)), Wish(1, 2, inch(5))]) == (inch(7), inch(3))
    seen = _fillers(inch(10), 2)
    assert follow(seen, [Wish(1, 2, inch(5)), Wish(0, 1, inch(7))]) == (inch(5), inch(5))


def test_a_wish_out_of_reach_comes_as_near_as_it_can() -> None:
    """A wish beyond a window stands at the window's end."""
    seen = _allowed(
        [at_most(0, 1, inch(4), "", "m", Gives.WINDOW_MOST), at_least(0, 1, inch(2), "", "l", Gives.FACT)], 2
    )
    assert follow(seen, [Wish(0, 1, inch(9))]) == (inch(4),)


def test_a_wished_middle_of_something_of_varying_width() -> None:
    """An opening of 30 to 31 is centred where its edges may go, and the width is still free."""
    rows = [
        at_least(1, 2, inch(30), "", "least", Gives.WINDOW_LEAST),
        at_most(1, 2, inch(31), "", "most", Gives.WINDOW_MOST),
        at_least(0, 1, inch(33), "", "left", Gives.FACT),
    ]
    seen = _allowed(rows, 3)
    assert follow(seen, [Wish(1, 2, 2 * inch(47), is_middle=True)]) == (2 * inch(48),)
    assert (seen.least(1, 2), seen.most(1, 2)) == (inch(30), inch(30))
    seen = _allowed(rows, 3)
    follow(seen, [Wish(1, 2, 2 * inch(50), is_middle=True)])
    assert (seen.least(1, 2), seen.most(1, 2)) == (inch(30), inch(31))


def test_a_wished_middle_of_something_of_fixed_width() -> None:
    """A box of fixed width is centred by its edge."""
    seen = _allowed(list(exactly(1, 2, inch(33), "", "box", Gives.WIDTH)), 3)
    assert follow(seen, [Wish(1, 2, 2 * inch(48), is_middle=True)]) == (2 * inch(48),)
    assert seen.places() == (0, inch("31 1/2"), inch("64 1/2"))


@pytest.mark.arithmetic("2 1/8 / 3 = 17/24; 34/16 = 11/16 + 11/16 + 12/16")
def test_equal_fillers_take_thirds_and_the_odd_sixteenth_goes_to_the_wall_end() -> None:
    """2 1/8 over three fillers is 11/16, 11/16, 3/4 on the tape; in ticks they differ by one."""
    third = inch("2 1/8") // 3
    assert sorted(share(_fillers(inch("2 1/8"), 3), _equal(3))) == [third, third + 1, third + 1]
    widths = share(_fillers(inch("2 1/8"), 3), _equal(3), step=inch("1/16"))
    assert widths == (inch("11/16"), inch("11/16"), inch("3/4"))


def test_what_does_not_come_out_on_steps_goes_to_the_last_filler() -> None:
    """13/32 over four fillers: each gets a whole step beside its share, the last what is off the steps."""
    widths = share(_fillers(inch("13/32"), 4), _equal(4), step=inch("1/16"))
    assert widths == (inch("1/16"), inch("1/8"), inch("1/8"), inch("3/32"))


def test_what_is_off_the_steps_goes_to_the_last_filler() -> None:
    """Beside a box of 600 mm on an inch tape one filler must be off the sixteenths: the scribed one."""
    between = inch("27 1/2") - mm(600)
    first, last = share(_fillers(between, 2), _equal(2), step=inch("1/16"))
    assert first % inch("1/16") == 0
    assert last == between - first
    assert abs(last - first) <= inch("1/16")


def test_a_filler_that_cannot_follow_leaves_the_rest_equal() -> None:
    """Of three that share 9, one that may be 1 at the most leaves 4 to each of the others."""
    narrow = at_most(0, 1, inch(1), "", "narrow", Gives.FILLER_MOST)
    assert share(_fillers(inch(9), 3, narrow), _equal(3)) == (inch(1), inch(4), inch(4))


def test_departures_count_from_each_ones_target() -> None:
    """Fillers wished at 1 and 3 that have 6 to share become 2 and 4; with 2 to share, 0 and 2."""
    wishes = [Wish(0, 1, inch(1)), Wish(1, 2, inch(3))]
    assert share(_fillers(inch(6), 2), wishes) == (inch(2), inch(4))
    assert share(_fillers(inch(2), 2), wishes) == (inch(0), inch(2))


def test_fillers_of_different_runs_may_stay_equal() -> None:
    """Two fillers in runs that share nothing are equal if both can be."""
    rows = [
        at_least(0, 1, inch(1), "", "a", Gives.FILLER_LEAST),
        *exactly(2, 3, inch(2), "", "b", Gives.FACT),
    ]
    assert share(_allowed(rows, 4), [Wish(0, 1, inch(2)), Wish(2, 3, inch(1))]) == (inch(2), inch(2))
