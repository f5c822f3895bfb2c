from __future__ import annotations

import pytest

from setline.drawings.ink import Ink
from setline.drawings.labels import Label
from setline.drawings.shapes import (
    Circle,
    Dots,
    Fill,
    Frame,
    Hatch,
    Layer,
    Pattern,
    Polygon,
    Scale,
    Shape,
    Table,
    Text,
)
from setline.drawings.sketch import Sketch, corners
from tests.drawings.drawing_set import texts_of

SQUARE = corners((10.0, 10.0, 40.0, 40.0))


@pytest.mark.parametrize(
    ("shape", "is_under"),
    [
        (Polygon(Layer.BOX, SQUARE, Fill.WHITE), False),
        (Polygon(Layer.PANEL, SQUARE, Fill.BLACK), True),
        (Hatch(Layer.FILLER, (SQUARE,), Pattern.SLANT, 1.5), True),
        (Circle(Layer.SPOT, (25.0, 25.0), 1.0), True),
        (Dots(Layer.UNREAD, ((24.0, 25.0), (26.0, 25.0))), True),
        (Dots(Layer.UNREAD, ((12.0, 12.0),)), False),
    ],
    ids=["white box", "black bar", "hatch", "circle", "dots", "dots elsewhere"],
)
def test_ink_lies_where_a_shape_is_drawn(shape: Shape, is_under: bool) -> None:
    """A label in the middle of a shape stands over its ink, or on clear paper inside its outline."""
    assert Ink([shape], (0.0, 0.0, 50.0, 50.0)).is_under((20.0, 23.0, 30.0, 27.0)) == is_under


def test_only_a_label_over_ink_has_a_white_edge() -> None:
    """Of two labels the one that a line runs through keeps its white edge; the other needs none."""
    sketch = Sketch(Frame(100.0, 60.0))
    sketch.line(Layer.BOX, (0.0, 20.0), (100.0, 20.0))
    sketch.write(Label("over", 5.0).centred(30.0, 20.0), Label("clear", 5.0).centred(30.0, 40.0))
    drawing = sketch.finish(
        name="some",
        title="Some",
        description="Two labels.",
        height=60.0,
        scale=Scale(1, "1:1"),
        origin=(0.0, 0.0),
        table=Table((), ()),
    )
    assert {text.text: text.halo for text in texts_of(drawing)} == {"over": True, "clear": False}
    assert isinstance(drawing.shapes[-1], Text), "labels are drawn over every line"
