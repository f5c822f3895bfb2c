"""Shims and legs: what is on the truck, how much is too much, and where a leg stands."""

from __future__ import annotations

from setline.rules.rule import Kind, Rule, Unit
from setline.rules.value import inches, millimetres

__all__ = ["SHIMS"]

SHIMS: tuple[Rule, ...] = (
    Rule(
        id="shim-limit",
        what="Greatest shim under a box; over it trim the high boxes, split the line or mend the floor.",
        value=inches("3/4"),
        metric=millimetres("20"),
        unit=Unit.LENGTH,
        source="an article by a practising remodeler in a trade magazine",
        edition="undated",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="trim-limit",
        what="How much may be cut off the foot of a box whose order says nothing.",
        value=inches("1/2"),
        metric=millimetres("12"),
        unit=Unit.LENGTH,
        source="common practice",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="shim-stock",
        what="Flat shims on the truck, where the job lists none.",
        value=tuple(inches(text) for text in ("1/32", "1/16", "1/8", "1/4", "3/8", "1/2", "3/4")),
        metric=tuple(millimetres(text) for text in ("1", "2", "3", "5", "10", "15")),
        unit=Unit.LENGTH,
        source="common practice",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="leg-inset",
        what="From the edge of the body to the centre of a leg, where the order gives none.",
        value=inches("2"),
        metric=millimetres("50"),
        unit=Unit.LENGTH,
        source="common practice",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
)
