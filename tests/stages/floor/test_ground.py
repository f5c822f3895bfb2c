"""Which number stands at a point: the nearest reading as read, else the surface, else ?."""

from __future__ import annotations

from typing import Any

import pytest
from tests.stages.floor.kitchens import job, set_up
from tests.tape import inch

from setline.job.job import Job
from setline.rules import rule_book
from setline.stages.floor.ground import Ground, GroundHeight, read_ground
from setline.stages.room import outline

LEVEL = [(str(u), "48") for u in range(0, 121, 12)]


def _ground(a_job: Job) -> Ground:
    """Return the floor of a job."""
    book = rule_book(a_job.rules)
    return read_ground(a_job, book, outline(a_job, book))


def _at(ground: Ground, u: str | int, out: str | int = 0) -> GroundHeight:
    """Return the number at a spot along wall A."""
    return ground.heights([ground.outline.to_room("A", inch(u), inch(out))])[0]


def test_a_reading_within_three_inches_stands_as_read() -> None:
    """At 3 in exactly it does, beyond it the surface's mean stands."""
    ground = _ground(job(set_up("S1", A_wall=[*LEVEL, ("55", "47 3/4")])))
    assert (_at(ground, 52).bare, _at(ground, 52).as_read) == (-inch("47 3/4"), True)
    assert not _at(ground, "51 15/16").as_read
    assert _at(ground, "51 15/16").bare is not None


def test_of_equally_near_readings_the_middle_stands() -> None:
    """Two readings 2 in to either side give their middle; a repeat of one spot does too."""
    ground = _ground(
        job(set_up("S1", A_wall=[("10", "48"), ("14", "48 1/4"), ("40", "48"), ("40", "48 1/8")]))
    )
    assert _at(ground, 12).bare == -inch("48 1/8")
    assert _at(ground, 40).bare == -inch("48 1/16")
    assert len(_at(ground, 40).readings) == 2


def test_with_no_reading_within_twelve_inches_it_is_unknown() -> None:
    """12 in off still has a number, a hair more prints ?; what the surface says stays a guess."""
    ground = _ground(job(set_up("S1", A_wall=LEVEL, A_toe=LEVEL)))
    assert _at(ground, 132).bare is not None
    beyond = _at(ground, "132 1/32")
    assert (beyond.bare, beyond.too_far) == (None, True)
    assert beyond.guess is not None


def test_doubt_over_the_limit_is_unknown_too() -> None:
    """Between two lone readings 20 in apart no number stands for a job that asks for 1/16."""
    readings = set_up("S1", A_wall=[("0", "48"), ("20", "48")])
    between = _at(_ground(job(readings, rules={"doubt-limit": "1/16"})), 10, 6)
    assert (between.bare, between.too_far) == (None, False)
    assert between.within is not None
    assert between.within > inch("1/16")


def test_the_reach_is_a_rule_of_the_job() -> None:
    """A job may set how near a reading must be."""
    ground = _ground(job(set_up("S1", A_wall=LEVEL, A_toe=LEVEL), rules={"nearest-reading": "10"}))
    assert _at(ground, 131).bare is None


STEP: dict[str, Any] = {
    "steps": [{"wall": "A", "from_u": 60, "from_out": 0, "to_u": 60, "to_out": 30}],
}


def test_no_reading_is_carried_across_a_step() -> None:
    """2 in past a marked step the reading on this side of it does not stand, nor does it help to be near."""
    readings = [("0", "48"), ("12", "48"), ("24", "48"), ("36", "48"), ("48", "48"), ("59", "48")]
    stepped = _ground(job(set_up("S1", A_wall=readings), floor=STEP))
    plain = _ground(job(set_up("S1", A_wall=readings)))
    assert _at(plain, 61).as_read
    assert _at(stepped, 61).bare is None
    assert _at(stepped, 61).too_far
    assert _at(stepped, 58).as_read


def test_a_tied_set_up_counts_as_read_and_an_untied_one_only_shapes_the_surface() -> None:
    """The untied reading is the nearest, yet what stands is the surface's mean."""
    one = set_up("S1", marks=[{"name": "nail", "down": "10"}], A_wall=LEVEL)
    tied = set_up("S2", marks=[{"name": "nail", "down": "12"}], A_toe=[("60", "50 1/8")])
    untied = set_up("S3", A_toe=[("60", "50 1/8")])
    assert _at(_ground(job(one, tied)), 60, "20 7/8").bare == -inch("48 1/8")
    shaped = _at(_ground(job(one, untied)), 60, "20 7/8")
    assert not shaped.as_read
    assert shaped.guess is not None


def test_a_tie_adds_to_the_doubt_and_not_to_the_number() -> None:
    """What was read from another set-up is doubted more than what was read from the one in use."""
    marks = [{"name": "nail", "down": "10"}]
    one = set_up("S1", marks=marks, A_wall=LEVEL)
    other = set_up("S2", marks=marks, A_toe=[("12", "48"), ("60", "48"), ("100", "48")])
    ground = _ground(job(one, other))
    here, there = _at(ground, 60), _at(ground, 60, "20 7/8")
    assert here.bare == there.bare == -inch(48)
    assert here.within is not None
    assert there.within is not None
    assert there.within > here.within
    assert here.within == pytest.approx(1.96 * inch("1/32"), rel=1e-3)


def test_without_a_reading_nothing_is_known() -> None:
    """An unread floor is ? everywhere, without a guess."""
    nothing = _at(_ground(job()), 12)
    assert (nothing.bare, nothing.guess, nothing.within) == (None, None, None)


def test_a_covering_read_on_is_taken_off_the_bare_floor() -> None:
    """Read on a laid covering 3/4 thick, the bare floor lies 3/4 lower; read on the bare floor, not."""
    covered = {"coverings": [{"name": "oak", "thickness": "3/4", "when": "laid"}]}
    line = {"wall": "A", "readings": [["12", "47 1/4"]]}
    on_it = _ground(job({"name": "S1", "lines": [line]}, floor=covered))
    beside = _ground(job({"name": "S1", "lines": [{**line, "on": "bare"}]}, floor=covered))
    assert (_at(on_it, 12).bare, on_it.spots[0].on_covering) == (-inch(48), True)
    assert (_at(beside, 12).bare, beside.spots[0].on_covering) == (-inch("47 1/4"), False)
