"""Planning clearances: counter beside things, and how near they stand to one another.

They are guidelines for comfort, not law; what the local code says stands over them.
"""

from __future__ import annotations

from setline.rules.rule import Kind, Rule, Unit
from setline.rules.value import inches

__all__ = ["PLANNING"]

_SOURCE = (
    "NKBA kitchen planning guidelines, as reprinted by a university extension; not the guidelines themselves"
)
_EDITION = "not given in the reprint"


def _guideline(rule_id: str, what: str, value: str) -> Rule:
    """Return a rule out of the planning guidelines."""
    return Rule(
        id=rule_id,
        what=what,
        value=inches(value),
        unit=Unit.LENGTH,
        source=_SOURCE,
        edition=_EDITION,
        kind=Kind.STANDARD,
    )


PLANNING: tuple[Rule, ...] = (
    _guideline(
        "dishwasher-to-sink", "Edge of the dishwasher from the nearest edge of the sink, at most.", "36"
    ),
    _guideline("sink-landing-wide", "Counter on one side of the sink, at least.", "24"),
    _guideline("sink-landing-narrow", "Counter on its other side, at least.", "18"),
    _guideline("range-landing-wide", "Counter on one side of the cooking surface, at least.", "15"),
    _guideline("range-landing-narrow", "Counter on its other side, at least.", "12"),
    _guideline("refrigerator-landing", "Counter on the handle side of the refrigerator, at least.", "15"),
)
