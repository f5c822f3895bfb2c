"""``setline why``: what a mark, a shim or a line rests on, with its arithmetic."""

from __future__ import annotations

import argparse
import difflib
import json
from pathlib import Path
from typing import Any

from setline.cli.progress import working_on
from setline.cli.terminal import wrapped
from setline.errors import NotInPlan
from setline.lengths import Units
from setline.result import Figure, Plan
from setline.result.as_json import length
from setline.rules.rule import RuleBook
from setline.told import number, within
from setline.wording import say

__all__ = ["add", "answer", "answer_as_dict", "look_up", "run"]

_NEAREST = 5


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    parser = subparsers.add_parser(
        "why",
        help=say("cli-why-help"),
        description=say("cli-why-description"),
        epilog=say("cli-why-examples"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("job", type=Path, metavar="JOB", help=say("cli-job-help"))
    parser.add_argument("mark", nargs="+", metavar="MARK", help=say("cli-why-mark-help"))
    parser.add_argument("--json", action="store_true", help=say("cli-why-json-help"))
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Answer for one number of a plan.

    Args:
        args: ``job``, ``mark`` (the name's words) and ``json``.

    Returns:
        0; a name that the plan does not have is raised, with the nearest ones.
    """
    from setline import load_job, plan
    from setline.job.job import tape_of
    from setline.rules import rule_book

    with working_on(say("cli-working-plan", job=args.job)):
        job = load_job(args.job)
        planned = plan(job)
    name = look_up(planned, " ".join(args.mark))
    book = rule_book(job.rules, tape=tape_of(job))
    if args.json:
        print(json.dumps(answer_as_dict(planned, name, book), ensure_ascii=False, indent=1))
    else:
        print("\n".join(answer(planned, name, book)))
    return 0


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


def answer(plan: Plan, name: str, book: RuleBook) -> list[str]:
    """Return the answer in lines of at most 80 columns.

    Args:
        plan: The plan.
        name: A name in it, as ``look_up`` gives it.
        book: The rules it was planned by.
    """
    units = Units(plan.units)
    figure = plan.named[name]
    doubt = within(figure, units)
    value = printed_value(plan, name)
    lines = [say("cli-why-answer", name=name, value=value) + (f", {doubt}" if doubt else "")]
    lines += [f"  {detail}" for detail in _details(plan, name, units)]
    parts = {
        "cli-why-working": figure.working,
        "cli-why-readings": figure.readings,
        "cli-why-rule": _rule_lines(figure, book),
    }
    for key, said in parts.items():
        lines += [say(key), *(f"  {line}" for line in said)] if said else []
    return [piece for line in lines for piece in wrapped(line, further=4)]


def answer_as_dict(plan: Plan, name: str, book: RuleBook) -> dict[str, Any]:
    """Return the answer as plain data: the figure, what is printed for it, its rule with its source."""
    units = Units(plan.units)
    figure = plan.named[name]
    rule = None if figure.rule is None else book.rule(figure.rule)
    return {
        "name": name,
        "printed": printed_value(plan, name),
        "value": None if figure.value is None else length(figure.value, units),
        "within": None if figure.within is None else length(figure.within, units),
        "working": list(figure.working),
        "readings": list(figure.readings),
        "rule": None
        if rule is None
        else {
            "id": rule.id,
            "what": rule.what,
            "source": rule.source,
            "edition": rule.edition,
            "kind": str(rule.kind),
        },
        "details": _details(plan, name, units),
    }


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
    return _measured(None if value is None else -value, True, units)


def _details(plan: Plan, name: str, units: Units) -> list[str]:
    """Return what else is known of a mark or a shim: what to write, how far it may move, what makes it up."""
    from setline.packet.shim_page import made_of

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
    return [say("cli-why-made-of", made_of=made_of(shim, units)) for shim in plan.shims if shim.name == name]


def _rule_lines(figure: Figure, book: RuleBook) -> list[str]:
    """Return the rule a figure rests on with its source."""
    if figure.rule is None:
        return []
    rule = book.rule(figure.rule)
    edition = "" if rule.edition == "-" else f", {rule.edition}"
    return [say("cli-why-rule-line", rule=rule.id, what=rule.what, source=rule.source + edition)]
