"""Texts that are never guessed at: what is asked, word for word, and what it could be."""

from __future__ import annotations

import pytest

from setline.errors import TapeNotationError
from setline.lengths import Tape, Units, crew_tape, length_from_number, read_length
from setline.wording.lengths import SENTENCES

INCH = Tape()
METRIC = crew_tape(Units.METRIC)

QUESTIONS: list[tuple[str, Tape, str, tuple[str, ...]]] = [
    (
        "4 8 1/4",
        INCH,
        "4 8 1/4 can be read in more than one way: 4' 8 1/4 or 48 1/4.",
        ("4' 8 1/4", "48 1/4"),
    ),
    (
        "four eight and a quarter",
        INCH,
        "four eight and a quarter can be read in more than one way: 4' 8 1/4 or 48 1/4.",
        ("4' 8 1/4", "48 1/4"),
    ),
    ("9-4", INCH, "9-4 can be read in more than one way: 9' 4 or 94.", ("9' 4", "94")),
    ("1 12 3/16", INCH, "1 12 3/16 stands as two numbers; as one it is 112 3/16.", ("112 3/16",)),
    ("48 3 16", INCH, "48 3 16 has no stroke in its fraction: 48 3/16.", ("48 3/16",)),
    ("48 3 15", INCH, "48 3 15 is no length on this tape.", ()),
    ("3/10", INCH, "3/10 counts in parts that no tape shows: 5/16 or 9/32.", ("5/16", "9/32")),
    ("3/12", INCH, "3/12 counts in parts that no tape shows: 1/4.", ("1/4",)),
    (
        "875",
        INCH,
        "875 could be millimetres (~34 29/64) or inches (72' 11): write 875 mm or 875 in.",
        ("875 mm", "875 in"),
    ),
    (
        "874.5",
        INCH,
        "874.5 could be millimetres (~34 27/64) or inches (72' 10 1/2): write 874.5 mm or 874.5 in.",
        ("874.5 mm", "874.5 in"),
    ),
    ("34.37", INCH, "34.37 lies between two lines of the tape: 34 3/8 or 34 11/32.", ("34 3/8", "34 11/32")),
    (
        "9.3 ft",
        INCH,
        "9.3 ft lies between two lines of the tape: 111 19/32 or 111 5/8.",
        ("111 19/32", "111 5/8"),
    ),
    ("9' 14", INCH, "9' 14 has twelve inches or more after the feet: 10' 2.", ("10' 2",)),
    ("9-12-1/2", INCH, "9-12-1/2 has twelve inches or more after the feet: 10' 1/2.", ("10' 1/2",)),
    (
        "27/16",
        INCH,
        "The fraction of 27/16 is a whole inch or more: 1 11/16, 2 7/16 or 20 7/16.",
        ("1 11/16", "2 7/16", "20 7/16"),
    ),
    (
        "twenty three sixteenths",
        INCH,
        "The fraction of twenty three sixteenths is a whole inch or more: 1 7/16, 2 3/16 or 20 3/16.",
        ("1 7/16", "2 3/16", "20 3/16"),
    ),
    ("27,5", INCH, "27,5 has a comma, which an inch tape does not: 27.5.", ("27.5",)),
    ("87,4 cm", INCH, "87,4 cm has a comma, which an inch tape does not: 87.4 cm.", ("87.4 cm",)),
    ("9' 4,5", INCH, "9' 4,5 has a comma, which an inch tape does not: 9' 4.5.", ("9' 4.5",)),
    ("874.25", METRIC, "874.25 is finer than 0.1 mm: 874.2 or 874.3.", ("874.2", "874.3")),
    ("874.27 mm", INCH, "874.27 mm is finer than 0.1 mm: 874.3 mm or 874.2 mm.", ("874.3 mm", "874.2 mm")),
    ("1,234", METRIC, "1,234 could be thousands or a decimal: 1234, 1.2 or 1.3.", ("1234", "1.2", "1.3")),
    (
        "1,200 mm",
        METRIC,
        "1,200 mm could be thousands or a decimal: 1200 mm or 1.2 mm.",
        ("1200 mm", "1.2 mm"),
    ),
    ("3989.787", INCH, "3989.787 is no length on this tape.", ()),
    ("1,200", METRIC, "1,200 could be thousands or a decimal: 1200 or 1.2.", ("1200", "1.2")),
    ("27 1/2", METRIC, "27 1/2 is a fraction, which a metric tape does not show: 27 1/2 in.", ("27 1/2 in",)),
    ("-1/8", INCH, "-1/8 is below 0: a reading is a plain distance, 0 or more.", ()),
    ("1/64 shy", INCH, "1/64 shy is below 0: a reading is a plain distance, 0 or more.", ()),
    ("101 m", INCH, "101 m is longer than 100 m (328 ft), the longest that is read.", ()),
    ("~34 29/64", INCH, "~34 29/64 is no length on this tape.", ()),
    ("1/0", INCH, "1/0 is no length on this tape.", ()),
    ("", INCH, "An empty text is no length on this tape.", ()),
    ("٣", INCH, "٣ is no length on this tape.", ()),
    ("3" * 81, INCH, "A length is a text of at most 80 signs or a whole number.", ()),
]


@pytest.mark.parametrize(
    ("text", "tape", "sentence", "readings"), QUESTIONS, ids=[case[0][:20] for case in QUESTIONS]
)
def test_a_doubtful_text_is_asked_about(
    text: str, tape: Tape, sentence: str, readings: tuple[str, ...]
) -> None:
    """A text that could be two lengths or none is refused in these words, with these readings."""
    with pytest.raises(TapeNotationError) as asked:
        read_length(text, tape)
    assert str(asked.value) == sentence
    assert asked.value.readings == readings


@pytest.mark.parametrize(
    ("value", "sentence", "readings"),
    [
        (
            34.5,
            "34.5 is a decimal number, which a file does not hold exactly: write a text in quotes, 34.5.",
            ("34.5",),
        ),
        (
            34.37,
            "34.37 is a decimal number, which a file does not hold exactly: "
            "write a text in quotes, 34 3/8 or 34 11/32.",
            ("34 3/8", "34 11/32"),
        ),
        (float("nan"), "nan is no length on this tape.", ()),
        (-3, "-3 is below 0: a reading is a plain distance, 0 or more.", ()),
        (
            600,
            "600 could be millimetres (~23 5/8) or inches (50'): write 600 mm or 600 in.",
            ("600 mm", "600 in"),
        ),
        (10**400, "This number is longer than 100 m (328 ft), the longest that is read.", ()),
        (True, "A length is a text of at most 80 signs or a whole number.", ()),
        (None, "A length is a text of at most 80 signs or a whole number.", ()),
        ([3], "A length is a text of at most 80 signs or a whole number.", ()),
    ],
    ids=["float", "float off the tape", "nan", "below 0", "over 480", "huge", "truth", "nothing", "list"],
)
def test_a_value_that_is_no_whole_number_is_refused(
    value: object, sentence: str, readings: tuple[str, ...]
) -> None:
    """A float is refused with the text to write, and what is no number at all with what is wanted."""
    with pytest.raises(TapeNotationError) as asked:
        length_from_number(value, INCH)
    assert str(asked.value) == sentence
    assert asked.value.readings == readings


def test_every_sentence_about_lengths_is_tested_here() -> None:
    """No sentence about lengths goes untested: each stands in a question above or is the float's."""
    said = [sentence for _, _, sentence, _ in QUESTIONS]
    for key, template in SENTENCES.items():
        fixed = max((part.split("}")[-1] for part in template.split("{")), key=len)
        assert key == "length-is-no-float" or any(fixed in sentence for sentence in said), key
