"""``setline why``: what a mark, a shim or a line rests on, with its arithmetic."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from setline.cli.progress import working_on
from setline.cli.terminal import wrapped
from setline.lengths import Units
from setline.result import Plan
from setline.result.as_json import length
from setline.rules.rule import RuleBook
from setline.wording import say

__all__ = ["add", "answer", "answer_as_dict", "run"]


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
    from setline.packet.why import look_up
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


def answer(plan: Plan, name: str, book: RuleBook) -> list[str]:
    """Return the answer in lines of at most 80 columns.

    Args:
        plan: The plan.
        name: A name in it, as ``look_up`` gives it.
        book: The rules it was planned by.
    """
    from setline.packet.why import why

    found = why(plan, name, book)
    doubt = f", {found.within}" if found.within else ""
    lines = [say("cli-why-answer", name=name, value=found.printed) + doubt]
    lines += [f"  {detail}" for detail in found.details]
    parts = {
        "cli-why-working": found.working,
        "cli-why-readings": found.readings,
        "cli-why-rule": (found.rule,) if found.rule else (),
    }
    for key, said in parts.items():
        lines += [say(key), *(f"  {line}" for line in said)] if said else []
    return [piece for line in lines for piece in wrapped(line, further=4)]


def answer_as_dict(plan: Plan, name: str, book: RuleBook) -> dict[str, Any]:
    """Return the answer as plain data: the figure, what is printed for it, its rule with its source."""
    from setline.packet.why import why

    units = Units(plan.units)
    figure, found = plan.named[name], why(plan, name, book)
    rule = None if figure.rule is None else book.rule(figure.rule)
    return {
        "name": name,
        "printed": found.printed,
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
        "details": list(found.details),
    }
