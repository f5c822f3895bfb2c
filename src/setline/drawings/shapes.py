"""The drawing model: a drawing is a value, made of plain shapes on named layers; formats are writers.

Everything is in millimetres on paper, x to the right and y down the page. The drawing knows its scale and
where the zero of the thing it shows lies, so that a writer of true-size geometry can undo both. A layer
carries a pen (``setline.drawings.pens``); no shape has a colour, since every drawing is black on white.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = [
    "Anchor",
    "Arc",
    "Circle",
    "Dots",
    "Drawing",
    "Fill",
    "Frame",
    "Hatch",
    "Layer",
    "Line",
    "Pattern",
    "Point",
    "Polygon",
    "Polyline",
    "Rect",
    "Scale",
    "Shape",
    "Table",
    "Text",
]

Point = tuple[float, float]
"""x and y. [mm on paper]"""
Rect = tuple[float, float, float, float]
"""Left, top, right, bottom. [mm on paper]"""


class Layer(StrEnum):
    """What a shape shows; it decides the pen."""

    WALL = "wall"
    WALL_TICK = "wall-tick"
    FLOOR = "floor"
    LEVEL = "level-line"
    LASER = "laser-line"
    BOX = "box"
    FOOTPRINT = "footprint"
    OPENING = "opening"
    FILLER = "filler"
    PANEL = "panel"
    EXISTING = "existing"
    WINDOW = "window"
    CENTRE = "centre-line"
    CONTOUR = "contour"
    CONTOUR_BOLD = "contour-bold"
    TOE = "toe-line"
    SPOT = "spot"
    TAG = "tag"
    DIMENSION = "dimension"
    LEADER = "leader"
    TROUBLE = "trouble"
    UNREAD = "unread"
    SCALE = "scale"
    RULE = "rule"
    LABEL = "label"


class Fill(StrEnum):
    """What stands inside an outline."""

    NONE = "none"
    WHITE = "white"
    BLACK = "black"


class Anchor(StrEnum):
    """Which point of a text stands at its place: of its baseline, in its own reading direction."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


class Pattern(StrEnum):
    """What fills a hatched area."""

    SLANT = "slant"  # lines up to the right
    CROSS = "cross"


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    layer: Layer
    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Polyline:
    """An open chain of straight lines."""

    layer: Layer
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Polygon:
    """A closed outline."""

    layer: Layer
    points: tuple[Point, ...]
    fill: Fill = Fill.NONE


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle."""

    layer: Layer
    centre: Point
    radius: float
    fill: Fill = Fill.NONE


@dataclass(frozen=True, slots=True)
class Arc:
    """An arc of a circle, or the sector under it.

    Attributes:
        start: Where it starts, in degrees from the right, growing down the page (clockwise as seen).
        end: Where it ends, more than ``start``.
        is_sector: Whether the two ends are joined to the centre.
    """

    layer: Layer
    centre: Point
    radius: float
    start: float
    end: float
    is_sector: bool = False
    fill: Fill = Fill.NONE


@dataclass(frozen=True, slots=True)
class Hatch:
    """An area filled with a pattern; its outline is not drawn.

    Attributes:
        boundaries: Closed outlines; a place inside an odd number of them is hatched.
        pitch: Distance from line to line.
    """

    layer: Layer
    boundaries: tuple[tuple[Point, ...], ...]
    pattern: Pattern
    pitch: float


@dataclass(frozen=True, slots=True)
class Dots:
    """Dots as wide as the layer's pen."""

    layer: Layer
    centres: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Text:
    """A label: one line of text in the shipped font.

    Attributes:
        at: The anchor's place on the baseline.
        text: What it says.
        size: Size of the font; 9 pt is 3.175 mm.
        bold: Whether it is bold.
        turned: Whether it is turned 90 degrees to the left, so that it reads upwards.
        halo: Whether a white edge keeps lines off it.
        reverse: White on black: the ground is a shape of its own.
        frame: The outline it must stay in, where that is not the whole drawing.
    """

    at: Point
    text: str
    size: float
    anchor: Anchor = Anchor.START
    bold: bool = False
    turned: bool = False
    halo: bool = True
    reverse: bool = False
    frame: Rect | None = None


Shape = Line | Polyline | Polygon | Circle | Arc | Hatch | Dots | Text


@dataclass(frozen=True, slots=True)
class Frame:
    """The paper that a drawing may use, in mm."""

    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale: so many mm in the room are one on paper.

    Attributes:
        ratio: 24 for 1:24.
        words: How the drawing states it, such as ``1/2" = 1'-0" (1:24)``.
    """

    ratio: int
    words: str


@dataclass(frozen=True, slots=True)
class Table:
    """The drawing's facts as a table, for those who read it in place of the picture."""

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A finished drawing.

    Attributes:
        name: A plain file stem, such as ``wall-A``; unique within a job.
        title: What it shows.
        description: Its answer in one or two sentences.
        width: Of the paper it takes. [mm]
        height: Of the paper it takes. [mm]
        scale: The scale it is drawn at.
        origin: Where the zero of what it shows lies on the paper.
        shapes: In the order they are drawn, the later over the earlier.
        table: The same facts as a table.
    """

    name: str
    title: str
    description: str
    width: float
    height: float
    scale: Scale
    origin: Point
    shapes: tuple[Shape, ...]
    table: Table
