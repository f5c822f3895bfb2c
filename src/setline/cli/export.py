"""``setline export``: every job as a job file, with its history and its photos."""

from __future__ import annotations

import argparse
import json
from contextlib import closing
from pathlib import Path

from setline.cli.refusal import Refused
from setline.cli.stores import add_store_arguments, open_store
from setline.wording import say

__all__ = ["add", "run"]


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    parser = subparsers.add_parser(
        "export",
        help=say("cli-export-help"),
        description=say("cli-export-description"),
        epilog=say("cli-export-examples"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("into", type=Path, metavar="INTO", help=say("cli-export-folder-help"))
    add_store_arguments(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Write every job out.

    Args:
        args: ``into``, ``store``, ``folder`` and ``json``.

    Returns:
        0; a store that is not there, or a folder that holds something, is raised.
    """
    from setline.field_book.export import export_all

    with closing(open_store(args)) as store:
        try:
            exported = export_all(store, args.into)
        except FileExistsError:
            allowed = say("export-not-empty")
            raise Refused(
                where="INTO", given=str(args.into), allowed=allowed, example="setline export jobs"
            ) from None
    if args.json:
        jobs = [{"job": each.job, "files": each.files, "is_whole": each.is_whole} for each in exported]
        print(json.dumps({"ok": True, "jobs": jobs}, ensure_ascii=False))
        return 0
    print(say("cli-export-done", count=len(exported), folder=args.into))
    for each in exported:
        if not each.is_whole:
            print(say("cli-export-part", job=each.job))
    return 0
