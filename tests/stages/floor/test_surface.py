"""The fitted floor: against the long way round, on floors that are known, and under turns and shifts."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.stages.floor.invented import SIGMA, back_and_toe_lines, read_floor, wavy
from tests.stages.floor.plain_surface import PlainFloor
from tests.tape import inch

from setline.stages.floor.surface import LaserDoubt, Nearest, Sounding, StepLine, fit_floor

RATING = 0.125 / 360
SPOTS = back_and_toe_lines(168, 18)
ASKED = [(inch(x), inch(y)) for x, y in ((0, 0), (61, 9), (100, 30), (168, 21), (-20, 40))]


def test_the_shared_reckoning_equals_twelve_plain_solves() -> None:
    """Steps, an untied set-up and a doubted laser included, every height and band is the plain one's."""
    step = StepLine(inch(80), 0, inch(80), inch(60))
    readings = read_floor(lambda x, y: wavy(3)(x, y) + 0.4 * (x > 80), SPOTS, seed=1)
    readings[::4] = [replace(s, z=s.z + inch(5), set_up=1) for s in readings[::4]]
    readings[1::4] = [replace(s, laser=2) for s in readings[1::4]]
    lasers = (LaserDoubt(laser=2, zero=inch("1/32"), slope=RATING),)
    plain = PlainFloor(readings, (step,), lasers).at(ASKED)
    for found, (height, within) in zip(fit_floor(readings, (step,), lasers).at(ASKED), plain, strict=True):
        assert found.height == pytest.approx(height, abs=1)
        assert found.within == pytest.approx(within, abs=1)


@pytest.mark.parametrize(
    "slope", [0.0, 1 / 160, -1 / 80], ids=["flat", "3/4 in 10 ft", "1 1/2 fall in 10 ft"]
)
def test_a_plane_is_found_again(slope: float) -> None:
    """A floor without waves, read exactly, comes back within 1/64 everywhere between its readings."""
    model = fit_floor(read_floor(lambda x, y: -48 + slope * x - y / 200, SPOTS))
    for x, y in ((10, 5), (75, 12), (140, 20)):
        (found,) = model.at([(inch(x), inch(y))])
        assert found.height == pytest.approx((-48 + slope * x - y / 200) * inch(1), abs=inch("1/64"))


def test_a_marked_step_is_kept_and_an_unmarked_one_is_smeared() -> None:
    """Close to a step of 3/8 the marked model is several times nearer to the truth."""
    floor = lambda x, y: -48 + 0.375 * (x > 90)  # noqa: E731  (a floor in one line)
    readings = read_floor(floor, back_and_toe_lines(180, 20), seed=5)
    beside = [(inch(x), inch(y)) for x in (84, 88, 92, 96) for y in (0, 10, 21)]
    true = np.array([floor(x / inch(1), 0) for x, _ in beside]) * inch(1)
    marked = fit_floor(readings, (StepLine(inch(90), 0, inch(90), inch(25)),)).at(beside)
    unmarked = fit_floor(readings).at(beside)
    error = [np.abs(np.array([p.height for p in found]) - true).max() for found in (marked, unmarked)]
    assert error[0] < inch("1/16") < error[1]


def test_the_band_covers_what_it_says() -> None:
    """Over invented floors about 95 in 100 true heights lie in the 95 % band: not 80, and not all by far."""
    inside = total = width = 0
    spots = [(float(u), out) for u in range(0, 170, 10) for out in (0.0, 10.5, 21.0)]
    for seed in range(30):
        truth = wavy(seed)
        found = fit_floor(read_floor(truth, SPOTS, seed=seed)).at(
            [(inch(int(x)), round(y * inch(1))) for x, y in spots]
        )
        true = [truth(x, y) * inch(1) for x, y in spots]
        inside += sum(abs(p.height - t) <= p.within for p, t in zip(found, true, strict=True))
        width += sum(p.within for p in found)
        total += len(spots)
    assert 0.92 < inside / total < 0.999
    assert width / total < inch("1/16"), "a band that covers by being wide says nothing"


def test_few_readings_give_a_wide_band() -> None:
    """With two readings the floor a yard across from them is known to no better than an inch or so."""
    model = fit_floor(read_floor(lambda x, y: -48, [(0, 0), (100, 0)]))
    near, far = model.at([(inch(50), 0), (inch(50), inch(36))])
    assert near.within < far.within
    assert far.within > inch("1/4")


def test_turning_the_room_changes_nothing() -> None:
    """A quarter turn of the room, or a shift, leaves every height and band as it was, to a tick."""
    step = StepLine(inch(80), 0, inch(85), inch(60))
    readings = read_floor(wavy(8), SPOTS, seed=2)
    turned = [replace(s, x=inch(300) - s.y, y=s.x - inch(40)) for s in readings]
    turn = StepLine(inch(300) - step.y0, step.x0 - inch(40), inch(300) - step.y1, step.x1 - inch(40))
    before = fit_floor(readings, (step,)).at(ASKED)
    after = fit_floor(turned, (turn,)).at([(inch(300) - y, x - inch(40)) for x, y in ASKED])
    for one, other in zip(before, after, strict=True):
        assert one == pytest.approx(other, abs=1)


@settings(max_examples=20, deadline=None)
@given(order=st.permutations(range(len(SPOTS))), raised=st.integers(-inch(20), inch(20)))
def test_order_and_zero_change_nothing(order: list[int], raised: int) -> None:
    """Readings in any order give one floor, and a higher laser line lowers every height by as much."""
    readings = read_floor(wavy(4), SPOTS, seed=4)
    before = fit_floor(readings).at(ASKED)
    after = fit_floor([replace(readings[place], z=readings[place].z + raised) for place in order]).at(ASKED)
    for one, other in zip(before, after, strict=True):
        assert (one.height + raised, one.within) == pytest.approx(other, abs=1)


@settings(max_examples=20, deadline=None)
@given(zero=st.integers(-inch(40), inch(40)))
def test_an_untied_set_up_tells_of_shape_alone(zero: int) -> None:
    """Readings of an untied set-up narrow the band, whatever its own zero is."""
    readings = read_floor(wavy(6), SPOTS, seed=6)
    tied = readings[::3]
    untied = [replace(s, z=s.z + zero, set_up=1) for place, s in enumerate(readings) if place % 3]
    alone, with_it = fit_floor(tied).at(ASKED), fit_floor(tied + untied).at(ASKED)
    same = fit_floor(tied + [replace(s, z=s.z - zero) for s in untied]).at(ASKED)
    for one, other in zip(with_it, same, strict=True):
        assert one == pytest.approx(other, abs=1)
    assert sum(p.within for p in with_it) < 0.9 * sum(p.within for p in alone)


def test_a_floor_read_only_from_an_untied_set_up_has_no_height() -> None:
    """Nothing ties its readings to the line in use, so the band is inches wide."""
    readings = [replace(s, set_up=1) for s in read_floor(wavy(6), SPOTS)]
    assert all(p.within > inch(4) for p in fit_floor(readings).at(ASKED))


def test_a_doubted_laser_widens_the_band() -> None:
    """A floor read from another set-up is known no better than its tie."""
    readings = [replace(s, laser=1) for s in read_floor(wavy(6), SPOTS)]
    doubt = LaserDoubt(laser=1, zero=inch("1/16"), slope=RATING)
    sure, doubted = fit_floor(readings).at(ASKED), fit_floor(readings, lasers=(doubt,)).at(ASKED)
    for one, other in zip(sure, doubted, strict=True):
        assert other.height == pytest.approx(one.height, abs=inch("1/32"))
        assert other.within > max(one.within, inch("1/8"))


def test_repeats_are_averaged_and_a_slip_among_them_is_told() -> None:
    """Two tries at a spot count as their mean; tries 1/4 apart disagree, tries 1/16 apart do not."""
    readings = read_floor(wavy(1), SPOTS)
    spot = readings[3]
    close = replace(spot, z=spot.z + inch("1/16"))
    twice = fit_floor([*readings, close])
    mean = [*readings[:3], replace(spot, z=spot.z + inch("1/32"), sigma=round(SIGMA / 2**0.5)), *readings[4:]]
    for one, other in zip(twice.at(ASKED), fit_floor(mean).at(ASKED), strict=True):
        assert one == pytest.approx(other, abs=2)
    assert [(r.members, r.spread, r.disagrees) for r in twice.repeats] == [
        ((3, len(SPOTS)), inch("1/16"), False)
    ]
    slip = fit_floor([*readings, replace(spot, z=spot.z - inch("1/4"))])
    assert [r.disagrees for r in slip.repeats] == [True]


def test_tries_from_two_lasers_are_compared_too() -> None:
    """A spot read from two tied lasers with 1/4 between them disagrees, though each keeps its own doubt."""
    readings = read_floor(wavy(1), SPOTS)
    other = replace(readings[3], z=readings[3].z - inch("1/4"), laser=2)
    assert [r.disagrees for r in fit_floor([*readings, other]).repeats] == [True]


def test_no_reading_at_all_is_refused() -> None:
    """There is no floor without a reading."""
    with pytest.raises(ValueError, match="at least one reading"):
        fit_floor(())


def test_the_nearest_reading_lies_on_the_same_side_of_every_step() -> None:
    """A reading just across a step does not count, however near; nor does any where the side was not read."""
    step = StepLine(inch(50), 0, inch(50), inch(30))
    model = fit_floor(read_floor(lambda x, y: -48, [(40, 0), (51, 0)]), (step,))
    asked = ((inch(48), 0), (inch(54), inch(4)), (inch(50), 0))
    assert model.nearest_to_each(asked) == (Nearest(0, inch(8)), Nearest(1, inch(5)), None), (
        "on the step itself neither side tells"
    )
    second = StepLine(0, inch(10), inch(90), inch(10))
    beyond = fit_floor(read_floor(lambda x, y: -48, [(40, 0), (51, 0)]), (step, second))
    assert beyond.nearest_to_each([(inch(48), inch(20))]) == (None,)


def test_draws_are_the_floors_of_the_band() -> None:
    """Draws have the model's mean and spread at each point, move together close by, and repeat by seed."""
    model = fit_floor(read_floor(wavy(2), SPOTS[::2], seed=3))
    points = [*ASKED, (ASKED[1][0] + 5, ASKED[1][1])]
    draws = model.samples(points, 4000, seed=11)
    for place, told in enumerate(model.at(points)):
        assert draws[:, place].mean() == pytest.approx(told.height, abs=told.within / 25)
        assert 1.96 * draws[:, place].std() == pytest.approx(told.within, rel=0.1)
    assert np.corrcoef(draws[:, 1], draws[:, 5])[0, 1] > 0.999
    assert np.array_equal(draws, model.samples(points, 4000, seed=11))
    assert not np.array_equal(draws, model.samples(points, 4000, seed=12))


def test_a_large_floor_is_fitted_in_parts_that_meet() -> None:
    """Over 300 readings each part stays near the truth, and heights meet across a seam within 1/64."""
    spots = [(x, y) for x in range(0, 600, 20) for y in range(0, 400, 20)]
    model = fit_floor(read_floor(wavy(9), spots, seed=9))
    points = [(inch(x), inch(y)) for x in range(5, 590, 30) for y in (13, 201, 377)]
    for (x, y), found in zip(points, model.at(points), strict=True):
        assert found.height == pytest.approx(wavy(9)(x / inch(1), y / inch(1)) * inch(1), abs=inch("1/16"))
    walk = model.at([(inch("1/4") * step, inch(190)) for step in range(2400)])
    jumps = [abs(b.height - a.height) for a, b in pairwise(walk)]
    assert max(jumps) < inch("1/64")


def test_no_points_no_heights() -> None:
    """Asking about no point answers with nothing."""
    model = fit_floor([Sounding(0, 0, -inch(48), 0, SIGMA)])
    assert model.at([]) == ()
    assert model.nearest_to_each([]) == ()
