"""``setline restore``: a store made again from a backup."""

from __future__ import annotations

import argparse
import json
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

from setline.cli.stores import add_store_arguments, folder_of, open_store
from setline.wording import say

if TYPE_CHECKING:
    from setline.field_book.store import Store

__all__ = ["add", "run"]


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    parser = subparsers.add_parser(
        "restore",
        help=say("cli-restore-help"),
        description=say("cli-restore-description"),
        epilog=say("cli-restore-examples"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("file", type=Path, metavar="FILE", help=say("cli-restore-file-help"))
    parser.add_argument("--replace", action="store_true", help=say("cli-restore-replace-help"))
    add_store_arguments(parser)
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Lay the backup into the store.

    Args:
        args: ``file``, ``replace``, ``store``, ``folder`` and ``json``.

    Returns:
        0; a file that is no backup, or a store that holds something, is raised.
    """
    from setline.field_book.restore import restore_backup

    with closing(open_store(args, make=True)) as store:
        assert store.photos is not None
        before = _keep(store, folder_of(args)) if args.replace and store.job_ids() else None
        held = restore_backup(args.file, store.database, store.photos, replace=args.replace)
    facts = {"jobs": held.jobs, "entries": held.entries, "photos": held.photos}
    if args.json:
        kept = None if before is None else str(before)
        print(json.dumps({"ok": True, **facts, "before": kept}, ensure_ascii=False))
        return 0
    if before is not None:
        print(say("cli-restore-before", file=before))
    print(say("cli-restore-done", **facts))
    return 0


def _keep(store: Store, folder: Path) -> Path:
    """Back up what the store holds, before it goes."""
    from datetime import UTC, datetime

    from setline.field_book.backup import write_backup

    assert store.photos is not None
    out = folder / f"before-restore-{datetime.now(UTC).strftime('%Y-%m-%d-%H%M%S')}.backup"
    folder.mkdir(parents=True, exist_ok=True)
    write_backup(store.database, store.photos.folder, out, over=True)
    return out
