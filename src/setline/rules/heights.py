"""Heights: of boxes, of the struck line over them, and of what must clear above."""

from __future__ import annotations

from setline.rules.rule import Kind, Rule, Unit
from setline.rules.value import inches, millimetres

__all__ = ["HEIGHTS"]

HEIGHTS: tuple[Rule, ...] = (
    Rule(
        id="base-height",
        what="Height of a base box from its foot to its top, toe kick or legs included.",
        value=inches("34 1/2"),
        metric=millimetres("870"),
        unit=Unit.LENGTH,
        source="makers' installation handbooks, framed and frameless",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="struck-line-clearance",
        what="How far the struck line stands above the box tops, so that it is seen over the boxes.",
        value=inches("1/8"),
        metric=millimetres("3"),
        unit=Unit.LENGTH,
        source="common practice",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="wall-box-bottom",
        what="Underside of the wall boxes above the box tops: 18 over a 1 1/2 top (450 over one of 40 mm).",
        value=inches("19 1/2"),
        metric=millimetres("490"),
        unit=Unit.LENGTH,
        source="how-to pages and a university extension page; 54 above the finished floor over a 36 counter",
        edition="undated pages",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="ceiling-clearance",
        what="Least space from a tall box to the finished ceiling; standing it up takes its diagonal.",
        value=inches("1/4"),
        metric=millimetres("6"),
        unit=Unit.LENGTH,
        source="common practice",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="sill-clearance",
        what="Least space between the upper face of the tops and a window's sill, for sealant.",
        value=inches("1/8"),
        metric=millimetres("3"),
        unit=Unit.LENGTH,
        source="common practice",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="toe-height",
        what="Height of the toe kick, where the order gives none.",
        value=inches("4 1/2"),
        metric=millimetres("150"),
        unit=Unit.LENGTH,
        source="how-to pages: 4 to 4 1/2 high; legs of 150 under a frameless box",
        edition="undated pages",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="kick-stock-height",
        what="Height of the strip that the toe kick is cut from.",
        value=inches("4 1/2"),
        metric=millimetres("150"),
        unit=Unit.LENGTH,
        source="common practice",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="kick-reserve",
        what="How much more than the strip the toe space may grow: what a shoe moulding hides.",
        value=inches("1/2"),
        metric=millimetres("12"),
        unit=Unit.LENGTH,
        source="common practice",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
)
