"""Boxes as set: how far off is asked about, told, or has to be chosen."""

from __future__ import annotations

from setline.rules.rule import Kind, Rule, Unit
from setline.rules.value import inches, millimetres

__all__ = ["AS_SET"]

AS_SET: tuple[Rule, ...] = (
    Rule(
        id="as-set-pin",
        what="How far a set box may stand off a place that it must hold, before that counts as a conflict.",
        value=inches("1/16"),
        metric=millimetres("1.5"),
        unit=Unit.LENGTH,
        source="a default of our own: two readings differ by so much",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="as-set-asks",
        what="An edge as set further than this from the plan, or from the box's width, is asked about.",
        value=inches("1/4"),
        metric=millimetres("6"),
        unit=Unit.LENGTH,
        source="a default of our own; no site trial stands behind it",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
    Rule(
        id="set-top-off",
        what="How far the top of a set box may stand off the level line before it is told.",
        value=inches("1/32"),
        metric=millimetres("1"),
        unit=Unit.LENGTH,
        source="a default of our own: what a beam or chalk line is read to",
        edition="-",
        kind=Kind.COMMON_PRACTICE,
    ),
)
