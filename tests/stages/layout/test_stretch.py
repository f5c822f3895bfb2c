"""Centres lined up with centres, both of varying width, by hand and against an integer program."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from random import Random

import pytest
from tests.stages.layout.referees import IntegerProgram
from tests.tape import inch

from setline.stages.layout.row import Gives, Row, at_least, at_most, exactly
from setline.stages.layout.stretch import GRAIN, Stretch, nearest_widths
from setline.stages.layout.windows import windows


@pytest.mark.arithmetic("centre at 40 + w/2 at the least, and at 56 at the most: w at most 32")
def test_an_opening_grows_no_wider_than_the_hood_over_it_lets_it() -> None:
    """An opening right of a box at 40 with its centre under 56 is 32 wide at the most."""

    def rows_at(widths: Sequence[int]) -> list[Row]:
        return [
            at_least(0, 1, inch(40), "box", "box", Gives.FACT),
            *exactly(0, 1, inch(56) - widths[0] // 2, "hood", "hood", Gives.PIN),
        ]

    assert nearest_widths(rows_at, 2, [Stretch(inch(34), inch(30), inch(36))]) == (inch(32),)
    assert nearest_widths(rows_at, 2, [Stretch(inch(31), inch(30), inch(36))]) == (inch(31),)
    assert nearest_widths(rows_at, 2, [Stretch(inch(34), inch(33), inch(36))]) is None


def test_without_widths_the_rows_decide() -> None:
    """With nothing to stretch, rows can hold or not."""
    row = at_least(0, 1, inch(1), "a", "a", Gives.FACT)
    against = at_most(0, 1, 0, "b", "b", Gives.FACT)
    assert nearest_widths(lambda _: [row], 2, []) == ()
    assert nearest_widths(lambda _: [row, against], 2, []) is None


def test_a_trouble_that_no_width_cures_is_not_searched_for_ever() -> None:
    """Where rows contradict each other whatever the width, there is none."""
    rows = [at_least(0, 1, inch(1), "a", "a", Gives.FACT), at_most(0, 1, 0, "b", "b", Gives.FACT)]
    assert nearest_widths(lambda _: rows, 2, [Stretch(inch(30), 0, None)]) is None


RowsAt = Callable[[tuple[int, ...]], list[Row]]


def _two_rows(random: Random) -> tuple[RowsAt, list[Stretch]]:
    """Return two rows of filler, opening and box between walls, the openings in line by their centres."""
    rows: list[Row] = []
    stretches = []
    for first in (1, 5):
        least = random.randint(200, 300)
        stretches.append(Stretch(random.randint(least, least + 60), least, least + random.randint(0, 60)))
        filler = random.randint(0, 80)
        box = 2 * random.randint(50, 150)
        rows += exactly(0, first, 2 * random.randint(0, 40), "wall", f"wall {first}", Gives.FACT)
        rows.append(at_least(first, first + 1, filler, "filler", f"filler {first} least", Gives.FILLER_LEAST))
        rows.append(
            at_most(first, first + 1, filler + 60, "filler", f"filler {first} most", Gives.FILLER_MOST)
        )
        rows += exactly(first + 2, first + 3, box, "box", f"box {first}", Gives.WIDTH)
        end = least + filler + box + random.randint(30, 140)
        rows.append(at_most(0, first + 3, end, "right wall", f"right wall {first}", Gives.FACT))
        rows.append(at_least(0, first + 3, end - 90, "right wall", f"right wall {first} near", Gives.FACT))

    def rows_at(widths: tuple[int, ...]) -> list[Row]:
        return [
            *rows,
            *exactly(2, 3, widths[0], "opening", "opening", Gives.WIDTH),
            *exactly(6, 7, widths[1], "other opening", "other opening", Gives.WIDTH),
            *exactly(2, 6, (widths[0] - widths[1]) // 2, "in line", "line", Gives.PIN),
        ]

    return rows_at, stretches


def _by_integer_program(rows: Sequence[Row], stretches: Sequence[Stretch]) -> tuple[int, ...] | None:
    """Return the same by an integer program that knows four joints at once."""
    program = IntegerProgram(rows, 9)
    place, model = program.place, program.model
    pairs = [(2, 3), (6, 7)]
    for (left, right), each in zip(pairs, stretches, strict=True):
        model.add(place[right] - place[left] >= each.least)
        if each.most is not None:
            model.add(place[right] - place[left] <= each.most)
        steps = model.new_int_var(-1000, 1000, "")
        model.add(place[right] - place[left] == each.wished + GRAIN * steps)
    model.add(place[2] + place[3] == place[6] + place[7])
    if program.solve() is None:
        return None
    found = []
    for (left, right), each in zip(pairs, stretches, strict=True):
        departs = program.departure(left, right, each.wished)
        least = program.best(departs)
        model.add(departs <= least)
        found.append(least)
    return tuple(found)


def test_widths_are_as_near_to_the_wished_as_an_integer_program_finds() -> None:
    """In 300 pairs of rows at random the widths depart as little as they can, the first before the second."""
    possible = 0
    for seed in range(300):
        random = Random(seed)
        rows_at, stretches = _two_rows(random)
        stretches = [each._replace(wished=each.wished - each.wished % 2) for each in stretches]
        widths = nearest_widths(rows_at, 9, stretches)
        fixed = [row for row in rows_at((0, 0)) if row.piece not in {"opening", "other opening", "line"}]
        expected = _by_integer_program(fixed, stretches)
        assert (widths is None) is (expected is None)
        if widths is not None:
            possible += 1
            assert windows(rows_at(widths), 9) is not None
            departures = tuple(
                abs(width - each.wished) for width, each in zip(widths, stretches, strict=True)
            )
            assert departures == expected
    assert 50 <= possible <= 250
