"""``setline check``: read a job through, plan it, and say what somebody must know before a box is fixed."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from setline.wording import say

if TYPE_CHECKING:
    from setline.result import Plan

__all__ = ["add", "run"]


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    parser = subparsers.add_parser(
        "check",
        help=say("cli-check-help"),
        description=say("cli-check-description"),
        epilog=say("cli-check-examples"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("job", type=Path, metavar="JOB", help=say("cli-job-help"))
    parser.add_argument("--json", action="store_true", help=say("cli-check-json-help"))
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Check a job and print its findings.

    Args:
        args: ``job`` and ``json``.

    Returns:
        1 if there is a stop, else 0; what is wrong in the file is raised.
    """
    from setline import load_job, plan
    from setline.cli.progress import working_on
    from setline.result import Rank

    with working_on(say("cli-working-plan", job=args.job)):
        planned = plan(load_job(args.job))
    stops = sum(finding.rank is Rank.STOP for finding in planned.findings)
    if args.json:
        print(json.dumps(_as_dict(planned, stops), ensure_ascii=False, indent=1))
    else:
        print("\n".join(_lines(planned, stops)))
    return 1 if stops else 0


def _lines(plan: Plan, stops: int) -> list[str]:
    """Return the findings in lines of at most 80 columns, a verdict before them."""
    from setline.cli.summary import finding_lines
    from setline.cli.terminal import wrapped

    verdict = "cli-check-stops" if stops else "cli-check-findings" if plan.findings else "cli-check-fine"
    said = [say(verdict, job=plan.job_name, stops=stops, count=len(plan.findings))]
    for place, finding in enumerate(plan.findings, start=1):
        said += ["", *finding_lines(place, finding)]
    return [piece for line in said for piece in wrapped(line)]


def _as_dict(plan: Plan, stops: int) -> dict[str, Any]:
    """Return the findings as plain data."""
    from setline.result.as_json import plan_as_dict

    findings = plan_as_dict(plan)["findings"]
    return {
        "ok": True,
        "job": plan.job_name,
        "check_code": plan.check_code,
        "stops": stops,
        "findings": findings,
    }
