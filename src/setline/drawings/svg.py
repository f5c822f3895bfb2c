"""A drawing as SVG: true to its size in mm, black on white, the same bytes for the same drawing.

Consecutive shapes of one layer share a group that carries the pen, and a class named after the layer, so
that a page may restyle it. Numbers have at most three decimals of a millimetre.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, radians, sin
from xml.etree import ElementTree

from setline.drawings.font import FAMILY
from setline.drawings.hatches import hatch_lines
from setline.drawings.pens import PENS, Pen
from setline.drawings.shapes import (
    Anchor,
    Arc,
    Circle,
    Dots,
    Drawing,
    Fill,
    Hatch,
    Layer,
    Line,
    Point,
    Polygon,
    Polyline,
    Rect,
    Shape,
    Text,
)

__all__ = ["Tap", "to_svg"]

_SCREEN_PX_PER_MM = 4.0
"""Pixels that a mm of a pen is wide on screen."""
_SCREEN_SIZE = 5.0
"""Pixels that a mm of the drawing takes on screen: its smallest text is then 16 px high."""
_HALO = 0.9
"""Width of the white edge round a label. [mm]"""


@dataclass(frozen=True, slots=True)
class Tap:
    """A part of a drawing on screen that leads somewhere.

    Attributes:
        box: Where it lies.
        address: Where it leads.
        label: What it is, in words.
        is_chosen: Whether it is the one that the page is about now.
    """

    box: Rect
    address: str
    label: str
    is_chosen: bool = False


def to_svg(drawing: Drawing, *, screen: bool = False, taps: Sequence[Tap] = ()) -> str:
    """Return a drawing as an SVG document.

    Args:
        drawing: What to write.
        screen: On paper a line keeps its weight in mm, also when the page is enlarged. On screen lines keep
            their weight in pixels however the drawing is sized: 4 px to the mm of the pen, and at least 1. It
            stands inside a page, which styles ``svg`` itself: no style of its own, since pages allow none.
        taps: On screen: its parts that lead somewhere, in the order they are walked through.

    Returns:
        The document, with ``role="img"`` (``group`` where parts of it lead somewhere), title and description,
        and its size: in mm, on screen in pixels.

    Source:
        SVG 1.1 and 2 (``vector-effect``, ``paint-order``).
    """
    root = ElementTree.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "role": "group" if taps else "img",
            "aria-labelledby": f"{drawing.name}-title {drawing.name}-desc",
            "width": _size(drawing.width, screen),
            "height": _size(drawing.height, screen),
            "viewBox": f"0 0 {_number(drawing.width)} {_number(drawing.height)}",
            "font-family": f"{FAMILY}, sans-serif",
            "fill": "none",
            "stroke-linejoin": "round",
        },
    )
    if not screen:
        root.set("style", "font-kerning:none;font-variant-ligatures:none")
    ElementTree.SubElement(root, "title", {"id": f"{drawing.name}-title"}).text = drawing.title
    ElementTree.SubElement(root, "desc", {"id": f"{drawing.name}-desc"}).text = drawing.description
    _write_shapes(root, drawing.shapes, screen)
    if screen:
        for shape in root.iter():
            if shape.tag in {"path", "circle"}:  # no group hands this down to what is in it
                shape.set("vector-effect", "non-scaling-stroke")
    for tap in taps:
        _write_tap(root, tap)
    ElementTree.indent(root, space=" ")
    return ElementTree.tostring(root, encoding="unicode") + "\n"


def _size(mm: float, screen: bool) -> str:
    """Return a width or height of the whole drawing."""
    return _number(mm * _SCREEN_SIZE) if screen else f"{_number(mm)}mm"


def _write_tap(root: ElementTree.Element, tap: Tap) -> None:
    """Lay a link over a part of the drawing."""
    left, top, right, bottom = tap.box
    kind = "tap chosen" if tap.is_chosen else "tap"
    link = ElementTree.SubElement(root, "a", {"href": tap.address, "aria-label": tap.label, "class": kind})
    if tap.is_chosen:
        link.set("aria-current", "true")
    place = {"x": _number(left), "y": _number(top)}
    size = {"width": _number(right - left), "height": _number(bottom - top)}
    ElementTree.SubElement(link, "rect", place | size | {"fill": "#fff", "fill-opacity": "0"})


def _write_shapes(root: ElementTree.Element, shapes: tuple[Shape, ...], screen: bool) -> None:
    """Write the shapes in order, each stretch of one layer into a group of its own."""
    group, layer = root, None
    for shape in shapes:
        here = Layer.LABEL if isinstance(shape, Text) else shape.layer
        if here != layer:
            layer = here
            group = ElementTree.SubElement(root, "g", {"class": layer.value} | _pen(PENS[layer], screen))
        _write_shape(group, shape)


def _pen(pen: Pen, screen: bool) -> dict[str, str]:
    """Return what a pen puts on its group."""
    if not pen.width:
        return {}
    scale = _SCREEN_PX_PER_MM if screen else 1.0
    width = max(1.0, pen.width * scale) if screen else pen.width
    style = {"stroke": "#000", "stroke-width": _number(width)}
    if pen.dashes:
        style["stroke-dasharray"] = " ".join(_number(dash * scale) for dash in pen.dashes)
    if pen.is_dotted:
        style["stroke-linecap"] = "round"
    return style


def _write_shape(group: ElementTree.Element, shape: Shape) -> None:
    """Write one shape."""
    match shape:
        case Line(start=start, end=end):
            _path(group, f"M{_point(start)}L{_point(end)}")
        case Polyline(points=points):
            _path(group, "M" + "L".join(map(_point, points)))
        case Polygon(points=points, fill=fill):
            _path(group, "M" + "L".join(map(_point, points)) + "Z", fill)
        case Circle(centre=centre, radius=radius, fill=fill):
            place = {"cx": _number(centre[0]), "cy": _number(centre[1]), "r": _number(radius)}
            ElementTree.SubElement(group, "circle", place | _fill(fill))
        case Arc():
            _path(group, _arc(shape), shape.fill)
        case Dots(centres=centres):
            dots = "".join(f"M{_point(dot)}h.01" for dot in centres)
            if dots:
                _path(group, dots).attrib.update({"stroke-linecap": "round", "stroke-dasharray": "none"})
        case Hatch():
            lines = "".join(f"M{_point(start)}L{_point(end)}" for start, end in hatch_lines(shape))
            if lines:
                _path(group, lines)
        case Text():
            _write_text(group, shape)


def _write_text(group: ElementTree.Element, text: Text) -> None:
    """Write a label, its white edge under it."""
    x, y = _number(text.at[0]), _number(text.at[1])
    style = {"x": x, "y": y, "font-size": _number(text.size), "fill": "#fff" if text.reverse else "#000"}
    if text.bold:
        style["font-weight"] = "700"
    if text.anchor != Anchor.START:
        style["text-anchor"] = text.anchor.value
    if text.turned:
        style["transform"] = f"rotate(-90 {x} {y})"
    if text.halo and not text.reverse:
        style |= {"stroke": "#fff", "stroke-width": _number(_HALO), "paint-order": "stroke"}
    ElementTree.SubElement(group, "text", style).text = text.text


def _path(group: ElementTree.Element, path: str, fill: Fill = Fill.NONE) -> ElementTree.Element:
    return ElementTree.SubElement(group, "path", {"d": path} | _fill(fill))


def _fill(fill: Fill) -> dict[str, str]:
    match fill:
        case Fill.WHITE:
            return {"fill": "#fff"}
        case Fill.BLACK:
            return {"fill": "#000"}
        case Fill.NONE:
            return {}


def _arc(arc: Arc) -> str:
    """Return an arc's path; the angle grows clockwise as seen, since y grows down the page."""
    start, end = _on_circle(arc, arc.start), _on_circle(arc, arc.end)
    large = int(arc.end - arc.start > 180)
    radius = _number(arc.radius)
    path = f"M{_point(start)}A{radius} {radius} 0 {large} 1 {_point(end)}"
    return f"{path}L{_point(arc.centre)}Z" if arc.is_sector else path


def _on_circle(arc: Arc, degrees: float) -> Point:
    angle = radians(degrees)
    return (arc.centre[0] + arc.radius * cos(angle), arc.centre[1] + arc.radius * sin(angle))


def _point(point: Point) -> str:
    return f"{_number(point[0])} {_number(point[1])}"


def _number(value: float) -> str:
    """Return a number with at most three decimals, the same on every machine; -0 is 0."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
