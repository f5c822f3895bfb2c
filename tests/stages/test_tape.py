"""What a steel tape may be off by."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.tape import inch, mm

from setline.job.read import job_from_dict
from setline.lengths import TICKS_PER_MM
from setline.stages.tape import degrees_celsius, heat_correction, tape_error, tape_notes


def _notes(length: str, tape: dict[str, str], units: str = "inch") -> list[str]:
    """Return what is told of a tape in a room of one wall."""
    document = {
        "format": 1,
        "job": {"name": "x", "tape": units},
        "room": {"walls": [{"name": "A", "lengths": [{"length": "30"}, {"length": length}]}]},
        "tools": {"tape": tape},
    }
    return [finding.text for finding in tape_notes(job_from_dict(document))]


@pytest.mark.parametrize(
    ("length", "hooked", "tenths"),
    [(1, False, 5), (1000, False, 5), (1001, False, 7), (3514, False, 11), (3514, True, 13), (0, False, 3)],
)
def test_a_begun_metre_counts_whole(length: int, hooked: bool, tenths: int) -> None:
    """The limit steps at each whole metre, and a hooked end adds its own."""
    assert tape_error(mm(length), "II", hooked=hooked) == tenths * TICKS_PER_MM // 10


@pytest.mark.parametrize(
    ("text", "celsius"),
    [("68 F", 20), ("20 C", 20), ("32F", 0), ("-40 F", -40), ("-2 C", -2), ("212 F", 100)],
)
def test_degrees_of_either_scale(text: str, celsius: int) -> None:
    """Both scales read on one."""
    assert degrees_celsius(text) == celsius


@given(st.integers(0, 10**9), st.integers(-50, 60))
def test_as_much_colder_takes_off_what_as_much_warmer_adds(length: int, above: int) -> None:
    """The correction is none at 20 C and turns its sign there, to the tick of its rounding."""
    assert heat_correction(length, Fraction(20)) == 0
    both = heat_correction(length, Fraction(20 + above)) + heat_correction(length, Fraction(20 - above))
    assert both in (0, 1)


def test_nothing_is_told_of_a_tape_nobody_described() -> None:
    """Without its class and warmth there is no note."""
    assert _notes("138 1/2", {}) == []


def test_the_class_is_told_over_the_longest_length() -> None:
    """A class II tape hooked at the corner is 0.3 + 4 x 0.2 + 0.2 = 1.3 mm off over 3.5 m, so 1/16."""
    assert _notes("138 1/2", {"accuracy": "II"}) == [
        "A class II tape may be 1/16 off over 138 1/2, and another one as much the other way: "
        "read the walls and the boxes with one tape."
    ]
    assert _notes("3514", {"accuracy": "I"}, "metric") == [
        "A class I tape may be 1 off over 3514, and another one as much the other way: "
        "read the walls and the boxes with one tape."
    ]


@pytest.mark.parametrize(
    ("temperature", "said"),
    [
        ("60 F", "At 60 F a steel tape is off by less than 1/32 over 240: leave it."),
        (
            "28 F",
            "At 28 F a steel tape reads 1/16 long over 240: let it come to the room's warmth and read the "
            "long walls again, or take that much off.",
        ),
        (
            "104 F",
            "At 104 F a steel tape reads 1/16 short over 240: let it come to the room's warmth and read "
            "the long walls again, or add that much.",
        ),
    ],
)
def test_heat_is_told_where_it_matters(temperature: str, said: str) -> None:
    """240 x 40 x 6.44 millionths is 1/16: told with its way; 1/80 at 60 F is left."""
    assert _notes("240", {"temperature": temperature}) == [said]


def test_a_note_carries_its_amount() -> None:
    """The number behind a note is there for programs."""
    document = {
        "format": 1,
        "job": {"name": "x", "tape": "inch"},
        "room": {"walls": [{"name": "A", "lengths": [{"length": "240"}]}]},
        "tools": {"tape": {"accuracy": "II", "temperature": "28 F"}},
    }
    notes = tape_notes(job_from_dict(document))
    assert [note.code for note in notes] == ["tape-class", "tape-heat"]
    assert all(note.by_how_much and 0 < note.by_how_much < inch("1/8") for note in notes)
