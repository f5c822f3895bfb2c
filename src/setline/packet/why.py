"""What a number rests on, in words: for the terminal and for the screen."""

from __future__ import annotations

import difflib
from dataclasses import dataclass

from setline.errors import NotInPlan
from setline.lengths import Rounding, Units, fine_step, round_to
from setline.packet.shim_page import made_of
from setline.result import Figure, Plan, Shim
from setline.rules.rule import RuleBook
from setline.told import number, within
from setline.wording import say

__all__ = ["Why", "look_up", "printed_value", "why"]

_NEAREST = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Why:
    """What a number of a plan rests on.

    Attributes:
        name: Its name in the plan.
        printed: The number as the sheets print it, a line's with its way.
        within: Its doubt, such as ``within 1/32``; nothing if none was worked out.
        details: What else is known of it: what to write, how far it may move, what makes it up.
        working: The arithmetic, a line a step.
        readings: What it rests on, each with the text as typed.
        rule: The rule it rests on with its source, or nothing.
    """

    name: str
    printed: str
    within: str
    details: tuple[str, ...]
    working: tuple[str, ...]
    readings: tuple[str, ...]
    rule: str


def why(plan: Plan, name: str, book: RuleBook) -> Why:
    """Return what a number rests on.

    Args:
        plan: The plan.
        name: A name in it, as ``look_up`` gives it.
        book: The rules it was planned by.
    """
    units, figure = Units(plan.units), plan.named[name]
    return Why(
        name=name,
        printed=printed_value(plan, name),
        within=within(figure, units),
        details=tuple(_details(plan, name, units)),
        working=figure.working,
        readings=figure.readings,
        rule=_rule_line(figure, book),
    )


def look_up(plan: Plan, asked: str) -> str:
    """Return the name in the plan that was meant: any case, any spacing.

    Args:
        plan: The plan.
        asked: A name such as ``A base 3 left``, ``3 back-left``, ``line``, ``S2 strike`` or ``high spot``.

    Raises:
        NotInPlan: Nothing goes by that name; carries the nearest names.
    """
    known = {name.casefold(): name for name in plan.named}
    known |= {key: name for key, name in _also(plan).items() if key not in known}
    wanted = " ".join(asked.split()).casefold()
    if wanted in known:
        return known[wanted]
    close = difflib.get_close_matches(wanted, known, n=_NEAREST, cutoff=0.4)
    nearest = tuple(dict.fromkeys(known[key] for key in close))
    said = "; ".join(nearest)
    key = "cli-why-nearest" if nearest else "cli-why-none"
    sentence = say(key, asked=asked, nearest=said)
    raise NotInPlan(sentence, asked=asked, nearest=nearest)


def _also(plan: Plan) -> dict[str, str]:
    """Return the short names: ``line`` and ``strike`` are those of the set-up in use."""
    line = next((line for line in plan.level_line.set_ups if line.in_use), None)
    if line is None:
        return {}
    strike = f"{line.set_up} strike"
    names = {"line": strike, "line 1": strike, "strike": strike, "struck line": strike}
    return {short: name for short, name in names.items() if name in plan.named}


def printed_value(plan: Plan, name: str) -> str:
    """Return a figure's number as the sheets print it, rounded once; a line's with its way."""
    units = Units(plan.units)
    for run in plan.runs:
        for mark in run.marks:
            if mark.name == name:
                return number(mark.printed, units)
    for shim in plan.shims:
        if shim.name == name:
            return number(shim.printed, units)
    for line in plan.level_line.set_ups:
        printed = {f"{line.set_up} line": line.printed_level, f"{line.set_up} strike": line.printed_strike}
        if name in printed:
            return _measured(printed[name], line.is_exact, units)
    return _height(plan, name, units)


def _measured(ticks: int | None, is_exact: bool, units: Units) -> str:
    """Return a distance from a laser line with its way."""
    if ticks is None:
        return "?"
    near = "" if is_exact else "~"
    way = say("packet-up" if ticks < 0 else "packet-down")
    return f"{near}{number(abs(ticks), units).removeprefix('~')} {way}"


def _height(plan: Plan, name: str, units: Units) -> str:
    """Return a height as measured from the laser line in use, a distance along a wall as it is."""
    value = plan.named[name].value
    if any(name in (f"{run.name} left end", f"{run.name} right end") for run in plan.runs):
        return number(value, units)
    if name.startswith("limit ") and value is not None:
        value = -round_to(-value, fine_step(units), Rounding.NEAREST_UP)  # as the band's picture prints it
    return _measured(None if value is None else -value, True, units)


def _details(plan: Plan, name: str, units: Units) -> list[str]:
    """Return what else is known of a mark or a shim: what to write, how far it may move, what makes it up."""
    for run in plan.runs:
        joints = {joint.name: joint for joint in run.joints}
        for mark in run.marks:
            if mark.name == name:
                said = [say("cli-why-write", write=mark.write)]
                joint = joints.get(name)
                if joint is not None and joint.earliest is not None:
                    facts = {"least": number(joint.earliest, units), "most": number(joint.latest, units)}
                    is_fixed = joint.earliest == joint.latest
                    said.append(say("cli-why-fixed" if is_fixed else "cli-why-window", **facts))
                return said
    return [_made_of(shim, units) for shim in plan.shims if shim.name == name]


def _made_of(shim: Shim, units: Units) -> str:
    """Return what makes a shim up; where no shims do, what stands there says it by itself."""
    said = made_of(shim, units)
    return say("cli-why-made-of", made_of=said) if shim.stack else said


def _rule_line(figure: Figure, book: RuleBook) -> str:
    """Return the rule a figure rests on with its source."""
    if figure.rule is None:
        return ""
    rule = book.rule(figure.rule)
    edition = "" if rule.edition == "-" else f", {rule.edition}"
    return say("cli-why-rule-line", rule=rule.id, what=rule.what, source=rule.source + edition)
