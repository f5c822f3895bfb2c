"""``setline rules``: the trade's rules with their sources, as a job works by them."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from setline.cli.refusal import Refused
from setline.cli.terminal import wrapped
from setline.lengths import Tape, Units, crew_tape, show
from setline.rules import RemedyKind, Rule, RuleBook, Unit, rule_book
from setline.wording import say

__all__ = ["add", "run"]


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    parser = subparsers.add_parser(
        "rules",
        help=say("cli-rules-help"),
        description=say("cli-rules-description"),
        epilog=say("cli-rules-examples"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("word", nargs="*", metavar="WORD", help=say("cli-rules-word-help"))
    parser.add_argument("--job", type=Path, metavar="JOB", help=say("cli-rules-job-help"))
    parser.add_argument("--tape", choices=("inch", "metric"), help=say("cli-rules-tape-help"))
    parser.add_argument("--json", action="store_true", help=say("cli-rules-json-help"))
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Print the rules, or those that have every word in them.

    Args:
        args: ``word`` (any number), ``job``, ``tape`` and ``json``.

    Returns:
        0; words that no rule has are raised.
    """
    book, tape = _book(args)
    words = [word.casefold() for word in args.word]
    rules = [rule for rule in book.all() if _has(words, rule.id, rule.what, rule.source, rule.kind)]
    remedies = [each for each in book.remedies() if _has(words, each.key, each.what, each.source)]
    if not rules and not remedies:
        raise Refused(
            where="WORD", given=" ".join(args.word), allowed=say("cli-rules-none"), example="setline rules"
        )
    if args.json:
        print(json.dumps(_as_dict(rules, remedies, tape.units), ensure_ascii=False, indent=1))
    else:
        print("\n".join(_lines(rules, remedies, tape.units)))
    return 0


def _book(args: argparse.Namespace) -> tuple[RuleBook, Tape]:
    """Return the rules that a job works by, or the trade's own on one of the two tapes."""
    if args.job is None:
        tape = crew_tape(Units(args.tape or "inch"))
        return rule_book(tape=tape), tape
    from setline import load_job
    from setline.job.job import tape_of

    job = load_job(args.job)
    tape = tape_of(job) if args.tape is None else crew_tape(Units(args.tape))
    return rule_book(job.rules, tape=tape), tape


def _has(words: list[str], *texts: str) -> bool:
    """Tell whether every word stands in some texts."""
    searched = " ".join(texts).casefold()
    return all(word in searched for word in words)


def _lines(rules: list[Rule], remedies: list[RemedyKind], units: Units) -> list[str]:
    """Return each rule with its value, what it says and where that comes from."""
    lines: list[str] = []
    for rule in rules:
        edition = "" if rule.edition == "-" else f", {rule.edition}"
        source = f"{rule.kind}: {rule.source}{edition}" if rule.source != rule.kind else str(rule.kind)
        lines += [f"{rule.id}: {_value(rule, units)}", *_set_in(rule.what), *_set_in(source), ""]
    for remedy in remedies:
        cost = say("cli-rules-cost", hours=f"{remedy.hours:g}", days=f"{remedy.days:g}")
        lines += [f"{remedy.key}: {cost}", *_set_in(remedy.what), *_set_in(remedy.source), ""]
    return lines[:-1]


def _set_in(text: str) -> list[str]:
    """Return a text in lines that stand a little in."""
    return wrapped(f"    {text}", further=0)


def _value(rule: Rule, units: Units) -> str:
    """Return a rule's value with its unit."""
    if rule.unit is not Unit.LENGTH:
        unit = {Unit.HOURS: " h", Unit.DAYS: " days"}.get(rule.unit, "")
        return f"{rule.value:g}{unit}" if isinstance(rule.value, int | float) else str(rule.value)
    lengths = rule.value if isinstance(rule.value, tuple) else (rule.value,)
    unit = "in" if units == Units.INCH else "mm"
    return f"{', '.join(show(int(length), units) for length in lengths)} {unit}"


def _as_dict(rules: list[Rule], remedies: list[RemedyKind], units: Units) -> dict[str, Any]:
    """Return the rules and the kinds of remedy as plain data."""
    return {
        "ok": True,
        "rules": [
            {
                "id": rule.id,
                "what": rule.what,
                "value": _value(rule, units),
                "ticks": rule.value if rule.unit is Unit.LENGTH else None,
                "unit": str(rule.unit),
                "source": rule.source,
                "edition": rule.edition,
                "kind": str(rule.kind),
            }
            for rule in rules
        ],
        "remedies": [
            {
                "key": each.key,
                "what": each.what,
                "hours": each.hours,
                "days": each.days,
                "source": each.source,
            }
            for each in remedies
        ],
    }
