"""The pens: one visual language for every drawing, on screen and on paper, in black and white.

Line weight, dashes and hatch carry the meaning; no grey and no colour does. Weights are in mm on paper.
"""

from __future__ import annotations

from dataclasses import dataclass

from setline.drawings.shapes import Layer

__all__ = ["LEAST_TEXT", "PENS", "Pen"]

LEAST_TEXT = 3.2
"""No text on paper is smaller than 9 pt (3.175 mm)."""


@dataclass(frozen=True, slots=True)
class Pen:
    """How a layer is drawn.

    Attributes:
        width: Weight of the line. [mm]
        dashes: Lengths of line and gap, in turn; empty for a whole line. [mm]
        is_dotted: Whether the dashes are round dots.
    """

    width: float
    dashes: tuple[float, ...] = ()
    is_dotted: bool = False


_DOTTED = (0.01, 1.0)

PENS: dict[Layer, Pen] = {
    Layer.WALL: Pen(0.7),
    Layer.WALL_TICK: Pen(0.25),
    Layer.FLOOR: Pen(0.7),
    Layer.LEVEL: Pen(0.5, (7.0, 1.3, 0.6, 1.3)),
    Layer.LASER: Pen(0.25, (1.6, 1.2)),
    Layer.BOX: Pen(0.35),
    Layer.FOOTPRINT: Pen(0.25),
    Layer.OPENING: Pen(0.35),
    Layer.FILLER: Pen(0.25),
    Layer.PANEL: Pen(0.0),
    Layer.EXISTING: Pen(0.35, (3.0, 0.9)),
    Layer.WINDOW: Pen(0.25),
    Layer.CENTRE: Pen(0.18, (4.0, 0.9, 0.4, 0.9)),
    Layer.CONTOUR: Pen(0.18),
    Layer.CONTOUR_BOLD: Pen(0.45),
    Layer.TOE: Pen(0.18, (1.2, 0.8)),
    Layer.SPOT: Pen(0.25),
    Layer.TAG: Pen(0.35),
    Layer.DIMENSION: Pen(0.25),
    Layer.LEADER: Pen(0.18),
    Layer.TROUBLE: Pen(0.7),
    Layer.UNREAD: Pen(0.4, _DOTTED, is_dotted=True),
    Layer.SCALE: Pen(0.25),
    Layer.RULE: Pen(0.35),
    Layer.LABEL: Pen(0.0),
}
"""The pen of every layer; a width of 0 means that only its fill is drawn."""
