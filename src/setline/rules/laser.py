"""The laser and the tape: what they are rated at, and what a reading by them is worth."""

from __future__ import annotations

from setline.rules.rule import Kind, Rule, Unit
from setline.rules.value import inches, millimetres

__all__ = ["LASER"]

LASER: tuple[Rule, ...] = (
    Rule(
        id="laser-rating-error",
        what="Rated error of the laser, where the job gives none: this much ...",
        value=inches("1/8"),
        metric=millimetres("3"),
        unit=Unit.LENGTH,
        source="a builders' magazine on line lasers: the class of 1/8 at 30 ft (0.3 mm in 1 m)",
        edition="undated",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="laser-rating-over",
        what="... over this distance.",
        value=inches("360"),
        metric=millimetres("10000"),
        unit=Unit.LENGTH,
        source="a builders' magazine on line lasers: the class of 1/8 at 30 ft (0.3 mm in 1 m)",
        edition="undated",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="laser-closing-limit",
        what="Most that the closing shot on the first point may differ from the first one.",
        value=inches("1/16"),
        metric=millimetres("2"),
        unit=Unit.LENGTH,
        source="a default of our own: two readings to 1/32 each",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="floor-reading-doubt",
        what="One standard deviation of a floor reading taken down from the laser line.",
        value=inches("1/32"),
        metric=millimetres("1"),
        unit=Unit.LENGTH,
        source="common practice",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="length-reading-doubt",
        what="One standard deviation of a length read by tape.",
        value=inches("1/32"),
        metric=millimetres("1"),
        unit=Unit.LENGTH,
        source="common practice",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
)
