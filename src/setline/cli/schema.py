"""``setline schema``: the form of a job file, for editors and other programs."""

from __future__ import annotations

import argparse
import json

from setline.wording import say

__all__ = ["add", "run"]


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    parser = subparsers.add_parser(
        "schema",
        help=say("cli-schema-help"),
        description=say("cli-schema-description"),
        epilog=say("cli-schema-examples"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--json", action="store_true", help=say("cli-schema-json-help"))
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Print the JSON Schema of a job file.

    Args:
        args: ``json``, which changes nothing: a schema is JSON.

    Returns:
        0.
    """
    from setline.job.schema import job_schema

    print(json.dumps(job_schema(), ensure_ascii=False, indent=2))
    return 0
