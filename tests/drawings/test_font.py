from __future__ import annotations

import pytest

from setline.drawings.font import ASCENT, DESCENT, font_folder, text_extent, text_width
from setline.drawings.labels import label_box
from setline.drawings.shapes import Anchor, Text
from tests.drawings.typeset import chars_of, svg_of_texts


@pytest.mark.parametrize("bold", [False, True], ids=["regular", "bold"])
def test_digits_are_equally_wide(bold: bool) -> None:
    """All digits have one width, so that numbers under each other line up."""
    assert len({text_width(digit, 10.0, bold=bold) for digit in "0123456789"}) == 1


def test_width_grows_with_size_and_letters() -> None:
    """A text is as long as its letters together, in proportion to its size."""
    assert text_width("13 3/8", 8.0) == pytest.approx(2 * text_width("13 3/8", 4.0))
    assert text_width("13 3/8", 4.0) == pytest.approx(text_width("13 ", 4.0) + text_width("3/8", 4.0))


def test_accents_make_the_box_higher() -> None:
    """A letter whose ink goes past the ascent makes the box higher; numbers keep to it."""
    assert text_extent("31 7/16")[1:] == (ASCENT, DESCENT)
    assert text_extent("Å")[1] > ASCENT


def test_a_letter_that_the_font_lacks_is_an_em_wide() -> None:
    """An unknown letter takes an em, so that its box is not too small."""
    assert text_width("\u4e00", 5.0) == pytest.approx(5.0)


def test_the_font_is_shipped() -> None:
    """The folder holds the regular and the bold that metrics are read from."""
    names = {path.name for path in font_folder().iterdir()}
    assert {"SourceSansPro-Regular.ttf", "SourceSansPro-Bold.ttf"} <= names


@pytest.mark.parametrize("text", ["31 1/2", "STRIKE 13 3/8 DOWN", "WALL A", "Eckschrank, links"])
@pytest.mark.parametrize("bold", [False, True], ids=["regular", "bold"])
def test_the_printed_text_is_as_wide_as_its_box(text: str, bold: bool) -> None:
    """In the PDF a label's letters start and end where its box does, in the shipped font."""
    label = Text((60.0, 20.0), text, 5.0, Anchor.MIDDLE, bold=bold)
    letters = chars_of(svg_of_texts(label))
    left, _, right, _ = label_box(label)
    assert {letter["fontname"].split("+")[1] for letter in letters} == {
        f"SourceSansPro-{'Bold' if bold else 'Regular'}"
    }
    assert min(letter["x0"] for letter in letters) * 25.4 / 72 == pytest.approx(left, abs=0.02)
    assert max(letter["x1"] for letter in letters) * 25.4 / 72 == pytest.approx(right, abs=0.02)


def test_a_turned_text_reads_upwards_in_its_box() -> None:
    """A turned label starts at the foot of its box and ends at the top."""
    label = Text((60.0, 50.0), "31 1/2", 5.0, bold=True, turned=True)
    letters = chars_of(svg_of_texts(label))
    left, top, right, bottom = label_box(label)
    first, last = letters[0], letters[-1]
    assert first["bottom"] * 25.4 / 72 == pytest.approx(bottom, abs=0.02)
    assert last["top"] * 25.4 / 72 == pytest.approx(top, abs=0.02)
    assert left < first["x1"] * 25.4 / 72 - 0.1
    assert right > first["x0"] * 25.4 / 72 + 0.1
