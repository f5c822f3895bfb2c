"""The numbers that stand on paper, and whether the plan still says so."""

from __future__ import annotations

from dataclasses import dataclass

from setline.field_book.prints import Print
from setline.lengths import Units, show
from setline.result import Plan
from setline.wording import say

__all__ = ["OldPaper", "numbers_of", "old_paper"]


@dataclass(frozen=True, slots=True, kw_only=True)
class OldPaper:
    """Paper that says other numbers than the plan.

    Attributes:
        revision: Its letter.
        text: What of it is old, as a sentence.
    """

    revision: str
    text: str


def numbers_of(plan: Plan) -> dict[str, str]:
    """Return every number that is printed from a plan, by its name: marks, lines, shims."""
    units = Units(plan.units)
    found = {f"mark {mark.name}": mark.printed for run in plan.runs for mark in run.marks}
    for line in plan.level_line.set_ups:
        found[f"line {line.set_up} level"] = line.printed_level
        found[f"line {line.set_up} strike"] = line.printed_strike
    found.update({f"shim {shim.wall} {shim.name}": shim.printed for shim in plan.shims})
    return {name: "?" if at is None else show(at, units) for name, at in found.items()}


def old_paper(plan: Plan, latest: Print | None) -> OldPaper | None:
    """Return what of the last packet is old, or None where it says what the plan says, or none was made.

    Args:
        plan: The plan as it is.
        latest: The last packet.
    """
    if latest is None:
        return None
    now, was = numbers_of(plan), dict(latest.numbers)
    changed = {name for name in {*now, *was} if now.get(name) != was.get(name)}
    if not changed:
        return None
    walls = sorted({name.split(" ")[1] for name in changed if name.startswith(("mark ", "shim "))})
    what = [say("paper-line")] if any(name.startswith("line ") for name in changed) else []
    what += [say("paper-walls", walls=", ".join(walls))] if walls else []
    text = say("paper-old", revision=latest.revision, what=", ".join(what))
    return OldPaper(revision=latest.revision, text=text)
