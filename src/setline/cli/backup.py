"""``setline backup``: all of the store in one file."""

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
        "backup",
        help=say("cli-backup-help"),
        description=say("cli-backup-description"),
        epilog=say("cli-backup-examples"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--out", type=Path, metavar="FILE", help=say("cli-backup-out-help"))
    parser.add_argument("--over", action="store_true", help=say("cli-backup-over-help"))
    add_store_arguments(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Write the backup.

    Args:
        args: ``out``, ``over``, ``store``, ``folder`` and ``json``.

    Returns:
        0; a store that is not there, or a file that is, is raised.
    """
    from datetime import UTC, datetime

    from setline.field_book.backup import write_backup

    out: Path = args.out or Path(f"setline-{datetime.now(UTC).date().isoformat()}.backup")
    with closing(open_store(args)) as store:
        assert store.photos is not None
        try:
            held = write_backup(store.database, store.photos.folder, out, over=args.over)
        except FileExistsError:
            raise Refused(
                where=str(out), given=str(out), allowed=say("cli-backup-there"), example="--out FILE"
            ) from None
    facts = {"file": str(out), "jobs": held.jobs, "entries": held.entries, "photos": held.photos}
    print(json.dumps({"ok": True, **facts}, ensure_ascii=False) if args.json else _said(facts))
    return 0


def _said(facts: dict[str, object]) -> str:
    """Return what was written as a sentence."""
    return say("cli-backup-wrote", **facts)
