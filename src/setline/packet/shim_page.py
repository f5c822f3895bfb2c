"""A shim map page a wall: what goes under each bearing point, made up from the shims on the truck."""

from __future__ import annotations

from typing import TypedDict

from setline.lengths import Units, show
from setline.packet.picture import Picture
from setline.result import Plan, Shim, ShimKind
from setline.told import UNKNOWN, number, within
from setline.wording import say

__all__ = ["ShimPage", "ShimRow", "shim_page"]

_READINGS_SHOWN = 3


class ShimRow(TypedDict):
    """One bearing point as printed."""

    box: str
    point: str
    under: str
    made_of: str
    within: str
    rests_on: str


class ShimPage(TypedDict):
    """Data of a wall's shim page."""

    kind: str
    key: str
    landscape: bool
    title: str
    beside: str
    note: str
    warning: str | None
    picture: Picture
    rows: list[ShimRow]


def shim_page(plan: Plan, wall: str, picture: Picture) -> ShimPage | None:
    """Return the data of a wall's shim page, or None where nothing bears on the floor along it.

    Args:
        plan: The plan.
        wall: The wall's letter.
        picture: The wall's shim map.
    """
    units = Units(plan.units)
    shims = [shim for shim in plan.shims if shim.wall == wall]
    if not shims:
        return None
    on_floor = [run for run in plan.runs if run.wall == wall and run.row == "base"]
    unsolved = ", ".join(run.name for run in on_floor if not run.solved)
    names = {item.number: item.name for run in plan.runs for item in run.items}
    unknown = sum(shim.printed is None for shim in shims)
    return ShimPage(
        kind="shims",
        key=f"shims-{wall}",
        landscape=True,
        title=say("packet-shims-title", wall=wall),
        beside=say("packet-shims-unknown", count=unknown) if unknown else "",
        note=say("packet-shims-note"),
        warning=say("packet-do-not-set", runs=unsolved) if unsolved else None,
        picture=picture,
        rows=_rows(shims, names, units),
    )


def _rows(shims: list[Shim], names: dict[int, str], units: Units) -> list[ShimRow]:
    """Return a row a bearing point; the box is named at its first."""
    rows = []
    before: int | None = None
    for shim in shims:
        box = "" if shim.box == before else f"{shim.box} {names.get(shim.box, '')}".rstrip()
        before = shim.box
        rows.append(
            ShimRow(
                box=box,
                point=shim.corner,
                under=number(shim.printed, units),
                made_of=made_of(shim, units),
                within=within(shim.thickness, units),
                rests_on=_rests_on(shim),
            )
        )
    return rows


def made_of(shim: Shim, units: Units) -> str:
    """Return how to make up what goes under a point, in words: ``1/4 + 1/16``, ``turn the leg to 5 3/8``."""
    if shim.printed is None:
        return say("packet-shim-unknown")
    if shim.kind != ShimKind.SHIM:
        over = "-over" if shim.over_limit and shim.kind == ShimKind.LEG else ""
        return say(f"packet-shim-{shim.kind.name.lower()}{over}", height=show(shim.printed, units))
    if shim.over_limit:
        return say("packet-shim-over")
    if shim.is_high_spot:
        return say("packet-shim-high-spot")
    if shim.printed == 0:
        return say("packet-shim-none")
    stack = " + ".join(show(piece, units) for piece in shim.stack)
    if not shim.remainder:
        return stack or UNKNOWN
    rest = show(shim.remainder, units)
    return say("packet-shim-remainder" if stack else "packet-shim-not-on-truck", stack=stack, rest=rest)


def _rests_on(shim: Shim) -> str:
    """Return the nearest readings a point rests on; ``setline why`` names them all."""
    shown = "; ".join(shim.thickness.readings[:_READINGS_SHOWN])
    more = len(shim.thickness.readings) - _READINGS_SHOWN
    return say("packet-readings-more", shown=shown, more=more) if more > 0 else shown
