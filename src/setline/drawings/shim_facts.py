"""What a shim map says in words: its signs, its answer, and its facts as a table."""

from __future__ import annotations

from collections.abc import Sequence

from setline.drawings.shapes import Table
from setline.lengths import Units, show
from setline.result import Plan, Shim, ShimKind
from setline.wording import say

__all__ = ["shim_description", "shim_notes", "shim_number", "shim_table", "shim_words"]


def shim_words(shims: Sequence[Shim]) -> str:
    """Return what the map shows: shims, legs, or both."""
    legs = {shim.kind == ShimKind.LEG for shim in shims if shim.kind != ShimKind.LEDGER}
    return say("shim-what-both" if len(legs) == 2 else "shim-what-legs" if legs == {True} else "shim-what")


def shim_notes(shims: Sequence[Shim], short: str) -> list[str]:
    """Return what explains the tags that are used."""
    if not shims and not short:
        return [say("shim-none")]
    signs = [say("shim-legs")] if any(shim.kind == ShimKind.LEG for shim in shims) else []
    if any(shim.kind == ShimKind.LEDGER for shim in shims):
        signs.append(say("shim-ledgers"))
    if any(shim.is_high_spot for shim in shims):
        signs.append(say("shim-sign-high"))
    if any(shim.printed is None for shim in shims):
        signs.append(say("shim-sign-unread"))
    if any(shim.over_limit for shim in shims):
        legs = any(shim.over_limit and shim.kind == ShimKind.LEG for shim in shims)
        signs.append(say("shim-sign-over-leg" if legs else "shim-sign-over"))
    if short:
        signs.append(say("shim-sign-short", run=short))
    return [say("shim-one-line"), " ".join(signs)] if signs else [say("shim-one-line")]


def shim_number(shim: Shim, units: Units) -> str:
    """Return a point's number; a ledger's stands behind an L."""
    if shim.printed is None:
        return "?"
    number = show(shim.printed, units)
    return say("shim-ledger", number=number) if shim.kind == ShimKind.LEDGER else number


def shim_description(plan: Plan, wall: str, shims: Sequence[Shim]) -> str:
    """Return the answer of the map in a sentence or two."""
    units = Units(plan.units)
    known = [shim for shim in shims if shim.printed is not None]
    unread = len(shims) - len(known)
    words = [say("shim-says", wall=wall, count=len(shims))]
    if known:
        most = max(known, key=lambda shim: (shim.kind != ShimKind.LEDGER, shim.printed or 0))
        words.append(say("shim-says-most", name=most.name, amount=shim_number(most, units)))
    high = next((shim.name for shim in shims if shim.is_high_spot), None)
    if high:
        words.append(say("shim-says-high", name=high))
    if unread:
        words.append(say("shim-says-unread", count=unread))
    return " ".join(words)


def _note(shim: Shim) -> str:
    """Return what a point's tag says beside its number."""
    if shim.is_high_spot:
        return say("shim-is-high")
    if shim.over_limit:
        return say("shim-is-over-leg" if shim.kind == ShimKind.LEG else "shim-is-over")
    return ""


def shim_table(shims: Sequence[Shim], units: Units) -> Table:
    """Return every bearing point with its thickness and the shims that make it."""
    header = tuple(say(f"shim-table-{key}") for key in ("box", "corner", "kind", "amount", "stack", "note"))
    rows = []
    for shim in shims:
        stack = " + ".join(show(part, units) for part in shim.stack)
        if shim.remainder:
            stack = say("shim-left", stack=stack, rest=show(shim.remainder, units)).strip()
        amount = "?" if shim.printed is None else show(shim.printed, units)
        rows.append((str(shim.box), shim.corner, shim.kind.value, amount, stack, _note(shim)))
    return Table(header, tuple(rows))
