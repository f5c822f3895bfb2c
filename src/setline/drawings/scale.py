"""The usual scales of each tape, the one that fits, and lengths on paper."""

from __future__ import annotations

from setline.drawings.shapes import Frame, Scale
from setline.lengths import TICKS_PER_MM, Units

__all__ = [
    "A4_LANDSCAPE",
    "FULL_SIZE",
    "LETTER_LANDSCAPE",
    "fit_scale",
    "on_paper",
    "page_of",
    "usual_scales",
]

LETTER_LANDSCAPE = Frame(255.0, 187.0)
"""What a letter page laid sideways leaves inside its margins, foot and heading."""
A4_LANDSCAPE = Frame(272.0, 181.0)
"""What an A4 page laid sideways leaves."""

FULL_SIZE = Scale(1, "1:1, full size")
_INCH = {
    4: "3", 8: "1 1/2", 12: "1", 16: "3/4", 24: "1/2", 32: "3/8", 48: "1/4", 64: "3/16", 96: "1/8",
    192: "1/16",
}  # fmt: skip
_INCH_SCALES = (
    *(Scale(ratio, f'{paper}" = 1\'-0" (1:{ratio})') for ratio, paper in _INCH.items()),
    Scale(600, '1" = 50\'-0" (1:600)'),
)
_METRIC_SCALES = tuple(Scale(ratio, f"1:{ratio}") for ratio in (5, 10, 20, 25, 50, 100, 200, 500))


def usual_scales(units: Units) -> tuple[Scale, ...]:
    """Return the scales that drawings of that tape are made at, the largest picture first."""
    return _INCH_SCALES if units == Units.INCH else _METRIC_SCALES


def fit_scale(units: Units, wide: int, high: int, room: Frame) -> Scale:
    """Return the largest usual scale at which a thing fits its room on paper; the smallest if none does.

    Args:
        units: The tape of the job.
        wide: Width of the thing. [ticks]
        high: Height of the thing. [ticks]
        room: What the paper leaves for it. [mm]
    """
    scales = usual_scales(units)
    for scale in scales:
        if on_paper(wide, scale) <= room.width and on_paper(high, scale) <= room.height:
            return scale
    return scales[-1]


def on_paper(ticks: int, scale: Scale) -> float:
    """Return a length on paper, in mm."""
    return ticks / (TICKS_PER_MM * scale.ratio)


def page_of(units: Units) -> Frame:
    """Return the page a drawing uses unless it is told: letter for an inch tape, A4 for a metric one."""
    return LETTER_LANDSCAPE if units == Units.INCH else A4_LANDSCAPE
