"""Appliances, where their own sheets are not at hand. The maker's sheet always wins."""

from __future__ import annotations

from setline.rules.rule import Kind, Rule, Unit
from setline.rules.value import inches, millimetres

__all__ = ["APPLIANCES"]

APPLIANCES: tuple[Rule, ...] = (
    Rule(
        id="dishwasher-to-corner",
        what="Least distance from a dishwasher to a box, wall or appliance standing square to it.",
        value=inches("2"),
        metric=millimetres("50"),
        unit=Unit.LENGTH,
        source="dishwasher makers' installation sheets",
        edition="check the sheet of the machine",
        kind=Kind.MAKERS_SHEET,
    ),
)
