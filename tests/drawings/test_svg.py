from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from xml.etree import ElementTree

import pytest

from setline.drawings.floor_picture import floor_picture
from setline.drawings.shapes import Dots, Fill, Hatch, Layer, Line, Pattern, Polygon, Text
from setline.drawings.svg import Tap, to_svg
from setline.result import Plan
from tests.drawings.drawing_set import drawings_of, texts_of
from tests.drawings.sample_plans import inch_sample, metric_sample
from tests.drawings.typeset import MM, drawing_of, page_of_svg

SVG = "{http://www.w3.org/2000/svg}"


@pytest.mark.parametrize("make", [inch_sample, metric_sample], ids=["inch", "metric"])
def test_every_drawing_is_valid_and_says_what_it_is(make: Callable[[], Plan]) -> None:
    """Each SVG parses, is an image with title and description, and states its size in mm."""
    for drawing in drawings_of(make()):
        root = ElementTree.fromstring(to_svg(drawing))
        assert root.get("role") == "img"
        title, desc = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
        assert title is not None
        assert desc is not None
        assert (title.text, desc.text) == (drawing.title, drawing.description)
        assert root.get("aria-labelledby") == f"{title.get('id')} {desc.get('id')}"
        assert root.get("width") == f"{drawing.width:.3f}".rstrip("0").rstrip(".") + "mm"
        written = [text.text for text in root.iter(f"{SVG}text")]
        assert written == [text.text for text in texts_of(drawing)]


def test_the_same_drawing_gives_the_same_bytes() -> None:
    """Two plans made alike give the same SVG, byte for byte, of every drawing."""
    first = [to_svg(drawing) for drawing in drawings_of(inch_sample())]
    second = [to_svg(drawing) for drawing in drawings_of(inch_sample())]
    assert first == second


def test_names_are_escaped() -> None:
    """A name with <, > and & comes out as it went in, and closes no element."""
    plan = replace(inch_sample(), job_name="<script>&\"'</svg>")
    svg = to_svg(floor_picture(plan))
    assert "<script>" not in svg
    texts = [text.text for text in ElementTree.fromstring(svg).iter(f"{SVG}text")]
    assert "<script>&\"'</svg>" in texts


def test_numbers_are_short_and_never_minus_zero() -> None:
    """Places have at most three decimals, and a tiny negative is written 0."""
    svg = to_svg(drawing_of(Line(Layer.BOX, (-0.0001, 1 / 3), (2.0, 10.0))))
    assert 'd="M0 0.333L2 10"' in svg


def test_a_page_may_be_styled_for_the_screen() -> None:
    """On screen lines keep their weight in pixels, at least one, however the drawing is sized."""
    lines = (Line(Layer.WALL, (0.0, 0.0), (9.0, 0.0)), Line(Layer.LEADER, (0.0, 1.0), (9.0, 1.0)))
    svg = to_svg(drawing_of(*lines), screen=True)
    root = ElementTree.fromstring(svg)
    groups = list(root.iter(f"{SVG}g"))
    assert [path.get("vector-effect") for path in root.iter(f"{SVG}path")] == ["non-scaling-stroke"] * 2
    assert root.get("style") is None
    assert root.get("width") == f"{5 * float(root.get('viewBox', '').split()[2]):g}"
    assert [group.get("stroke-width") for group in groups] == ["2.8", "1"]


def test_parts_of_a_drawing_lead_somewhere() -> None:
    """Links lie over the drawing in their order, each with its words, and the drawing is a group of them."""
    taps = [
        Tap((0.0, 0.0, 9.0, 9.0), "?item=1", "box 1", is_chosen=True),
        Tap((9.0, 0.0, 18.0, 9.0), "?item=2&row=base", "box <2>"),
    ]
    root = ElementTree.fromstring(
        to_svg(drawing_of(Line(Layer.BOX, (0.0, 0.0), (9.0, 0.0))), screen=True, taps=taps)
    )
    links = list(root.iter(f"{SVG}a"))
    assert root.get("role") == "group"
    assert [link.get("aria-label") for link in links] == ["box 1", "box <2>"]
    assert [link.get("href") for link in links] == ["?item=1", "?item=2&row=base"]
    assert [link.get("aria-current") for link in links] == ["true", None]


def test_shapes_of_one_layer_share_a_pen() -> None:
    """Neighbours of one layer stand in one group named after it."""
    svg = to_svg(
        drawing_of(
            Line(Layer.BOX, (0.0, 0.0), (9.0, 0.0)),
            Line(Layer.BOX, (0.0, 1.0), (9.0, 1.0)),
            Line(Layer.WALL, (0.0, 2.0), (9.0, 2.0)),
        )
    )
    groups = list(ElementTree.fromstring(svg).iter(f"{SVG}g"))
    assert [(group.get("class"), len(group)) for group in groups] == [("box", 2), ("wall", 1)]


def test_a_drawing_prints_at_its_size() -> None:
    """Embedded in a PDF, 100 mm are 100 mm along and across, and the page is as large as the drawing."""
    drawing = drawing_of(
        Line(Layer.BOX, (10.0, 10.0), (110.0, 10.0)), Line(Layer.BOX, (10.0, 10.0), (10.0, 60.0))
    )
    page = page_of_svg(to_svg(drawing))
    assert page["width"] * MM == pytest.approx(120.0, abs=0.01)
    across, down = page["lines"]
    assert (across["x1"] - across["x0"]) * MM == pytest.approx(100.0, abs=0.001)
    assert (down["bottom"] - down["top"]) * MM == pytest.approx(50.0, abs=0.001)


def test_labels_are_text_once_in_the_pdf() -> None:
    """A label with its white edge is printed as text, and only once."""
    page = page_of_svg(to_svg(drawing_of(Text((10.0, 10.0), "27 7/16", 5.0, bold=True))))
    assert "".join(char["text"] for char in page["chars"]) == "27 7/16"


def test_dots_and_hatches_come_out_as_one_path() -> None:
    """Ten thousand dots or lines of a hatch are one element each: pages stay small."""
    square = ((0.0, 0.0), (50.0, 0.0), (50.0, 50.0), (0.0, 50.0))
    dots = Dots(Layer.UNREAD, tuple((x / 2, y / 2) for x in range(100) for y in range(100)))
    svg = to_svg(drawing_of(dots, Hatch(Layer.FILLER, (square,), Pattern.SLANT, 0.5)))
    assert svg.count("<path") == 2


def test_fills_are_black_or_white() -> None:
    """An outline is filled with black, with white or not at all; no grey is used."""
    square = ((0.0, 0.0), (5.0, 0.0), (5.0, 5.0))
    svg = to_svg(drawing_of(*(Polygon(Layer.BOX, square, fill) for fill in Fill)))
    fills = [path.get("fill") for path in ElementTree.fromstring(svg).iter(f"{SVG}path")]
    assert fills == [None, "#fff", "#000"]
