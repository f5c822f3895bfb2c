"""``setline plan``: the struck line, what stops, each wall; or the whole plan as JSON and drawings."""

from __future__ import annotations

import argparse
from pathlib import Path

from setline.cli.outputs import plan_text, write_plan
from setline.cli.progress import working_on
from setline.cli.summary import summary
from setline.wording import say

__all__ = ["add", "run"]


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    parser = subparsers.add_parser(
        "plan",
        help=say("cli-plan-help"),
        description=say("cli-plan-description"),
        epilog=say("cli-plan-examples"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("job", type=Path, metavar="JOB", help=say("cli-job-help"))
    parser.add_argument("--json", action="store_true", help=say("cli-plan-json-help"))
    parser.add_argument("--out", type=Path, metavar="DIR", help=say("cli-plan-out-help"))
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Plan a job and print what follows.

    Args:
        args: ``job``, ``json`` and ``out``.

    Returns:
        0; what goes wrong in the room is in the plan, what is wrong in the file is raised.
    """
    from setline import load_job, plan
    from setline.odds import doubts

    with working_on(say("cli-working-plan", job=args.job)):
        job = load_job(args.job)
        planned = plan(job)
        said = "" if args.json else "\n".join(summary(planned, doubts(job, planned))) + "\n"
    print(plan_text(planned) if args.json else said, end="")
    if args.out is not None:
        with working_on(say("cli-working-files", folder=args.out)):
            written = write_plan(planned, args.out)
        if not args.json:
            print("\n" + say("cli-wrote", count=len(written), folder=args.out))
    return 0
