"""The floor: where it is read, what a reading is good for, and how flat it should be."""

from __future__ import annotations

from setline.rules.rule import Kind, Rule, Unit
from setline.rules.value import inches, millimetres

__all__ = ["FLOOR"]

FLOOR: tuple[Rule, ...] = (
    Rule(
        id="toe-line",
        what="How far out from the wall the floor is read under the front of the base boxes.",
        value=inches("20 7/8"),
        metric=millimetres("500"),
        unit=Unit.LENGTH,
        source="a stock box maker's installation handbook",
        edition="2009",
        kind=Kind.MAKERS_SHEET,
    ),
    Rule(
        id="nearest-reading",
        what="A number whose nearest reading on the same side of every step lies farther off prints as ?.",
        value=inches("12"),
        metric=millimetres("300"),
        unit=Unit.LENGTH,
        source="a default of our own; no site trial stands behind it",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="as-read-within",
        what="A bearing point takes the nearest reading as read when it lies within this distance.",
        value=inches("3"),
        metric=millimetres("75"),
        unit=Unit.LENGTH,
        source="a default of our own; no site trial stands behind it",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="doubt-limit",
        what="A number that may be off by more than this, 19 times in 20, prints as ?.",
        value=inches("1/8"),
        metric=millimetres("3"),
        unit=Unit.LENGTH,
        source="a default of our own; no site trial stands behind it",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="reading-jump",
        what="A reading that differs this much from every reading beside it is asked about.",
        value=inches("3/4"),
        metric=millimetres("20"),
        unit=Unit.LENGTH,
        source="a default of our own: a whole inch read wrong is the slip it is there to catch",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="floor-walk-step",
        what="How far apart the floor is read along a run, once its ends and openings are read.",
        value=inches("24"),
        metric=millimetres("600"),
        unit=Unit.LENGTH,
        source="a default of our own; no site trial stands behind it",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="few-readings",
        what="With fewer floor readings than this the plan says that they are few.",
        value=12,
        unit=Unit.COUNT,
        source="a default of our own: a short first walk is about a dozen numbers",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="straightedge",
        what="Length of the straightedge that gaps under it are judged by.",
        value=inches("120"),
        metric=millimetres("3000"),
        unit=Unit.LENGTH,
        source="Dimension Stone Design Manual (Marble Institute, now Natural Stone Institute), "
        "as quoted by two remodelers' magazines",
        edition="not given in the quotations",
        kind=Kind.STANDARD,
    ),
    Rule(
        id="flatness-stone",
        what="Greatest gap under the straightedge along the box tops before stone goes on.",
        value=inches("1/8"),
        metric=millimetres("3"),
        unit=Unit.LENGTH,
        source="Dimension Stone Design Manual (Marble Institute, now Natural Stone Institute), "
        "as quoted by two remodelers' magazines: flat and level within 1/8 in 10 ft",
        edition="not given in the quotations",
        kind=Kind.STANDARD,
    ),
)
