"""The layout: fronts, corners, and the steps that boxes are sold in."""

from __future__ import annotations

from setline.rules.rule import Kind, Rule, Unit
from setline.rules.value import inches, millimetres

__all__ = ["LAYOUT"]

LAYOUT: tuple[Rule, ...] = (
    Rule(
        id="front-thickness",
        what="Thickness of a door or drawer front, where the order gives none.",
        value=inches("3/4"),
        metric=millimetres("19"),
        unit=Unit.LENGTH,
        source="common practice",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="corner-filler",
        what="Least filler on each side of an inside corner, doors only; drawers and pulls want more.",
        value=inches("1 1/2"),
        metric=millimetres("50"),
        unit=Unit.LENGTH,
        source="common practice, and how-to pages",
        edition="undated pages",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="stock-step",
        what="Step between the widths that boxes are sold in, from 9 to 48 in.",
        value=inches("3"),
        metric=millimetres("100"),
        unit=Unit.LENGTH,
        source="how-to pages and a trade magazine; the metric module as remembered from EN 1116",
        edition="undated pages",
        kind=Kind.COMMON_PRACTICE,
    ),
)
