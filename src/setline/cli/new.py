"""``setline new``: write a job to start from, which plans as it stands."""

from __future__ import annotations

import argparse
import json
import re
from pathlib import Path

from setline.cli.refusal import Refused
from setline.wording import say

__all__ = ["add", "file_name", "run"]


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    parser = subparsers.add_parser(
        "new",
        help=say("cli-new-help"),
        description=say("cli-new-description"),
        epilog=say("cli-new-examples"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("name", metavar="NAME", help=say("cli-new-name-help"))
    parser.add_argument("--tape", choices=("inch", "metric"), default="inch", help=say("cli-new-tape-help"))
    parser.add_argument("--out", type=Path, metavar="FILE", help=say("cli-new-out-help"))
    parser.add_argument("--json", action="store_true", help=say("cli-new-json-help"))
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Write the starter into a file that is not there yet.

    Args:
        args: ``name``, ``tape``, ``out`` and ``json``.

    Returns:
        0; a file that is there already, or a name that no job can have, is raised.
    """
    from setline.job.read import read_job
    from setline.job.starter import starter
    from setline.lengths import Units

    text = starter(args.name, Units(args.tape))
    read_job(text)  # refuses a name that is too long, or holds signs that no file can
    path: Path = args.out if args.out is not None else Path(file_name(args.name))
    try:
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        raise Refused(
            where=str(path), given=str(path), allowed=say("cli-new-there"), example="--out FILE"
        ) from None
    if args.json:
        print(json.dumps({"ok": True, "wrote": str(path)}, ensure_ascii=False))
    else:
        print(say("cli-new-wrote", path=path))
    return 0


def file_name(job: str) -> str:
    """Return the file that a job of this name is written to, if none is given."""
    plain = re.sub(r"[\W_]+", "-", job.casefold()).strip("-")[:60].strip("-")
    return f"{plain or 'job'}.toml"
