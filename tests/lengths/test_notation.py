"""Every written form of a length."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setline.errors import TapeNotationError
from setline.lengths import (
    TICKS_PER_INCH,
    TICKS_PER_MM,
    Length,
    Tape,
    Units,
    crew_tape,
    length_from_number,
    read_length,
    show,
)

INCH = Tape()
METRIC = crew_tape(Units.METRIC)
SIXTY_FOURTH = TICKS_PER_INCH // 64

SAME_ON_AN_INCH_TAPE = {
    "27 7/16": [
        "27-7/16",
        '27-7/16"',
        '27 7/16"',
        "27 7/16 in",
        "27 7/16 inches",
        "27.4375",
        "27″ 7/16",
        "2' 3 7/16",
    ],
    "112 3/16": [
        "9' 4 3/16",
        "9ft 4 3/16in",
        "9-4-3/16",
        '112 3/16"',
        "9′ 4 3⁄16″",
        "9' - 4 3/16",
        "9'4-3/16\"",
    ],
    "34 1/2": ["34½", "34.5", "34 ½", "34 2/4", "34.50", "34 1/2 in.", "2ft. 10 1/2in."],
    "114": ["9.5 ft", "9 1/2'", "9½ ft", "9' 6", "nine and a half feet", "9 feet 6 inches"],
    "1/2": ["½", "0.5", ".5", "0 1/2", "a half", "half an inch", "one half", "zero and a half"],
    "48 3/16": [
        "forty-eight and three sixteenths",
        "Forty eight and three-sixteenths",
        "48 and 3/16",
        "48 & 3/16",
        "48 and three sixteenths of an inch",
        "forty-eight three sixteenths inches",
        "four feet and three sixteenths",
    ],
    "112 1/2": [
        "one hundred and twelve and a half",
        "a hundred twelve and one half",
        "nine feet four and a half inches",
    ],
    "100 3/16": ["one hundred and three sixteenths", "a hundred and 3/16"],
    "3/32": ["three thirty-seconds", "3 thirty seconds"],
    "5/64": ["five sixty-fourths"],
    "7/8": ["⅞", "seven eighths"],
    "34 3/8": ["thirty-four point three seven five", "34 point 375", "34⅜"],
    "2 3/4": ["two and three quarters", "2¾"],
    "0": ["zero", "0 in", "0 mm", "0.0"],
}


@pytest.mark.parametrize(
    ("plain", "written"), [(plain, one) for plain, many in SAME_ON_AN_INCH_TAPE.items() for one in many]
)
def test_a_length_is_the_same_however_it_is_written(plain: str, written: str) -> None:
    """Every form that means one length gives the ticks of its plain form, and keeps its own text."""
    length = read_length(written, INCH)
    assert length == read_length(plain, INCH)
    assert show(length.ticks, Units.INCH) == plain
    assert length.typed == written


@pytest.mark.parametrize(
    ("written", "millimetres"),
    [
        ("874", 874),
        ("874 mm", 874),
        ("874mm", 874),
        ("87.4 cm", 874),
        ("0.874 m", 874),
        ("874.0", 874),
        ("0,874 m", 874),
        ("87,4 cm", 874),
        ("874,0 mm", 874),
        ("2,400 m", 2400),
        ("3 metres", 3000),
        ("eight hundred and seventy-four", 874),
        ("eight hundred seventy-four millimetres", 874),
        ("one thousand two hundred and six", 1206),
        ("twelve hundred", 1200),
    ],
)
def test_a_metric_tape_reads_millimetres(written: str, millimetres: int) -> None:
    """A bare number on a metric job is millimetres, and a comma is a decimal point."""
    assert read_length(written, METRIC).ticks == millimetres * TICKS_PER_MM


def test_either_tape_reads_the_other_where_the_unit_stands() -> None:
    """A length with its unit means the same on both tapes."""
    assert read_length("875 mm", INCH).ticks == 875 * TICKS_PER_MM
    assert read_length('27 1/2"', METRIC).ticks == 27 * TICKS_PER_INCH + TICKS_PER_INCH // 2
    assert read_length("9' 4", METRIC).ticks == 112 * TICKS_PER_INCH


@pytest.mark.parametrize(
    ("written", "sixteenths"),
    [
        ("48 3/16+", 1),
        ("48 3/16 strong", 1),
        ("48 3/16 heavy", 1),
        ("48 3/16 full", 1),
        ("a strong 48 3/16", 1),
        ("forty-eight and three sixteenths strong", 1),
        ("4' 3/16 +", 1),
        ("48 3/16-", -1),
        ("48 3/16 shy", -1),
        ('48 3/16" light', -1),
        ("48 3/16 scant", -1),
        ("just shy of 48 3/16", -1),
    ],
)
@pytest.mark.parametrize("worth", [1, 2, 4])
def test_strong_and_shy_are_worth_what_the_crew_says(written: str, sixteenths: int, worth: int) -> None:
    """Strong adds and shy takes off the crew's own amount: 1/64, 1/32 or 1/16."""
    tape = Tape(strong=worth * SIXTY_FOURTH)
    plain = 48 * TICKS_PER_INCH + 12 * SIXTY_FOURTH
    assert read_length(written, tape).ticks == plain + sixteenths * worth * SIXTY_FOURTH


def test_strong_is_a_thirty_second_or_half_a_millimetre_unless_said() -> None:
    """Without the crew's own amount strong is worth 1/32 in, and 0.5 mm on a metric tape."""
    assert read_length("27+", crew_tape(Units.INCH)).ticks == 27 * TICKS_PER_INCH + TICKS_PER_INCH // 32
    assert read_length("27+", METRIC).ticks == 27 * TICKS_PER_MM + TICKS_PER_MM // 2


def test_every_sixty_fourth_in_forty_feet_is_printed_and_read_back() -> None:
    """Each line of an inch tape up to 40 ft prints as a text that reads as itself."""
    for ticks in range(0, 480 * TICKS_PER_INCH + 1, SIXTY_FOURTH):
        assert read_length(show(ticks, Units.INCH), INCH).ticks == ticks


def test_every_tenth_of_a_millimetre_in_twelve_metres_is_printed_and_read_back() -> None:
    """Each 0.1 mm up to 12 m prints as a text that reads as itself on a metric tape."""
    for ticks in range(0, 12_000 * TICKS_PER_MM + 1, TICKS_PER_MM // 10):
        assert read_length(show(ticks, Units.METRIC), METRIC).ticks == ticks


def _read_or_asked(text: str, tape: Tape) -> Length | TapeNotationError:
    """Return the length of a text, or the question about it."""
    try:
        return read_length(text, tape)
    except TapeNotationError as asked:
        return asked


@given(
    st.text(max_size=100) | st.text("0123456789 /-'\".,+mcftin½", max_size=24),
    st.sampled_from([INCH, METRIC]),
)
def test_any_text_is_a_length_or_a_question(text: str, tape: Tape) -> None:
    """No text breaks the reader, and every reading that a question offers is itself read."""
    answer = _read_or_asked(text, tape)
    if isinstance(answer, Length):
        assert answer.ticks >= 0
        assert answer.typed == text
    else:
        assert str(answer).endswith(".")
        assert all(read_length(reading, tape).ticks >= 0 for reading in answer.readings)


WORDS = (
    *("zero", "two", "eleven", "twenty", "forty-eight", "hundred", "thousand", "and", "a", "half", "quarter"),
    *("sixteenths", "thirty-seconds", "point", "feet", "inch", "mm", "strong", "shy", "3", "7/16", "'", "-"),
)


@given(st.lists(st.sampled_from(WORDS), max_size=8).map(" ".join))
def test_any_speech_is_a_length_or_a_question(speech: str) -> None:
    """No order of spoken words breaks the reader."""
    answer = _read_or_asked(speech, INCH)
    assert answer.ticks >= 0 if isinstance(answer, Length) else str(answer).endswith(".")


def test_lengths_are_equal_by_value_and_shown_as_typed() -> None:
    """Two texts of one length are equal and hash alike; a failing test shows what was typed."""
    one, other = read_length("34½", INCH), read_length("34 1/2", INCH)
    assert one == other
    assert hash(one) == hash(other)
    assert one != read_length("34 17/32", INCH)
    assert repr(one) == "Length(34½)"
    assert repr(Length(0, "0")) == "Length(0)"


@pytest.mark.parametrize(
    ("value", "tape", "ticks"), [(24, INCH, 24 * TICKS_PER_INCH), (874, METRIC, 874 * TICKS_PER_MM)]
)
def test_a_bare_integer_is_whole_tape_units(value: int, tape: Tape, ticks: int) -> None:
    """An integer in a file is whole inches or whole millimetres."""
    assert length_from_number(value, tape).ticks == ticks


@pytest.mark.parametrize(
    ("typed", "same"),
    [
        ("109 held at 10", "99"),
        ("109 3/16 strong held at 10", "99 3/16 strong"),
        ("9' 1 burned at 1", "9'"),
        ("forty-eight and three sixteenths held at one", "47 3/16"),
        ("97 1/2 plus body 3", "100 1/2"),
        ("97 1/2 and the body 3 1/4", "100 3/4"),
    ],
)
def test_how_the_tape_was_held_is_told_with_what_it_showed(typed: str, same: str) -> None:
    """A hook held on a mark is taken off, the tape's body is added, and the text stays as it was said."""
    taken = read_length(typed, INCH)
    assert taken == read_length(same, INCH)
    assert taken.typed == typed


@pytest.mark.parametrize("beside", [" held at 10", " strong", " plus body 3", " shy held at 1"])
def test_what_was_said_beside_an_ambiguous_number_stays_with_each_reading(beside: str) -> None:
    """Choosing one of the readings does not lose strong, shy or how the tape was held."""
    with pytest.raises(TapeNotationError) as asked:
        read_length(f"4 8 1/4{beside}", INCH)
    assert asked.value.readings == (f"4' 8 1/4{beside}", f"48 1/4{beside}")


def test_a_tape_held_past_what_it_shows_is_refused() -> None:
    """5 shown with the 10 at the corner is no distance."""
    with pytest.raises(TapeNotationError, match="below 0"):
        read_length("5 held at 10", INCH)
