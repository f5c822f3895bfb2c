"""A drawing as SVG: true to its size in mm, black on white, the same bytes for the same drawing.

Consecutive shapes of one layer share a group that carries the pen, and a class named after the layer, so
that a page may restyle it. Numbers have at most three decimals of a millimetre.
"""

from __future__ import annotations

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
    Shape,
    Text,
)

__all__ = ["to_svg"]

_SCREEN_PX_PER_MM = 4.0
_HALO = 0.9
"""Width of the white edge round a label. [mm]"""


def to_svg(drawing: Drawing, *, screen: bool = False) -> str:
    """Return a drawing as an SVG document.

    Args:
        drawing: What to write.
        screen: On paper a line keeps its weight in mm, also when the page is enlarged. On screen lines keep
            their weight in pixels however the drawing is sized: 4 px to the mm of the pen, and at least 1.

    Returns:
        The document, with ``role="img"``, title and description, and its size in mm.

    Source:
        SVG 1.1 and 2 (``vector-effect``, ``paint-order``).
    """
    root = ElementTree.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "role": "img",
            "aria-labelledby": f"{drawing.name}-title {drawing.name}-desc",
            "width": f"{_number(drawing.width)}mm",
            "height": f"{_number(drawing.height)}mm",
            "viewBox": f"0 0 {_number(drawing.width)} {_number(drawing.height)}",
            "font-family": f"{FAMILY}, sans-serif",
            "style": "font-kerning:none;font-variant-ligatures:none",
            "fill": "none",
            "stroke-linejoin": "round",
        },
    )
    ElementTree.SubElement(root, "title", {"id": f"{drawing.name}-title"}).text = drawing.title
    ElementTree.SubElement(root, "desc", {"id": f"{drawing.name}-desc"}).text = drawing.description
    _write_shapes(root, drawing.shapes, screen)
    ElementTree.indent(root, space=" ")
    return ElementTree.tostring(root, encoding="unicode") + "\n"


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
    if screen:
        style["vector-effect"] = "non-scaling-stroke"
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
