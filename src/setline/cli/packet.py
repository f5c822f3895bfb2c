"""``setline packet``: the sheets for the site as one PDF."""

from __future__ import annotations

import argparse
from pathlib import Path

from setline.cli.progress import working_on
from setline.wording import say

__all__ = ["add", "run"]


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    parser = subparsers.add_parser(
        "packet",
        help=say("cli-packet-help"),
        description=say("cli-packet-description"),
        epilog=say("cli-packet-examples"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("job", type=Path, metavar="JOB", help=say("cli-job-help"))
    parser.add_argument("--paper", choices=("letter", "a4"), help=say("cli-packet-paper-help"))
    parser.add_argument("--out", type=Path, metavar="FILE", help=say("cli-packet-out-help"))
    parser.add_argument(
        "--no-story-pole", dest="story_pole", action="store_false", help=say("cli-packet-pole-help")
    )
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Write a job's packet.

    Args:
        args: ``job``, ``paper``, ``out`` and ``story_pole``.

    Returns:
        0; the packet of a job that has a stop is written too, and says so.
    """
    from setline import load_job, plan
    from setline.job.job import tape_of
    from setline.odds import doubts
    from setline.packet import packet
    from setline.rules import rule_book

    out: Path = args.out if args.out is not None else Path(f"{args.job.stem}-packet.pdf")
    with working_on(say("cli-working-packet", out=out)):
        job = load_job(args.job)
        planned = plan(job)
        made = packet(
            planned,
            job,
            rule_book(job.rules, tape=tape_of(job)),
            paper=args.paper,
            doubts=doubts(job, planned),
            story_pole=args.story_pole,
        )
        out.parent.mkdir(parents=True, exist_ok=True)
        out.write_bytes(made)
    print(say("cli-packet-wrote", out=out, kilobytes=round(len(made) / 1000)))
    return 0
