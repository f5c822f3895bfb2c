"""Which store a command works on: named by its address or its folder, or else the user's own."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from setline.cli.refusal import Refused
from setline.wording import say

if TYPE_CHECKING:
    from setline.field_book.store import Store

__all__ = ["add_store_arguments", "folder_of", "open_store"]


def add_store_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the arguments that name a store."""
    parser.add_argument("--store", default="", metavar="URL", help=say("cli-store-help"))
    parser.add_argument("--folder", type=Path, default=None, help=say("cli-store-folder-help"))
    parser.add_argument("--json", action="store_true", help=say("cli-store-json-help"))


def folder_of(args: argparse.Namespace) -> Path:
    """Return the folder of the store and its photos; it may not be there yet."""
    from setline.field_book.folder import data_folder

    folder: Path = args.folder if args.folder is not None else data_folder()
    return folder.absolute()


def open_store(args: argparse.Namespace, *, make: bool = False) -> Store:
    """Return the store that a command works on, open.

    Args:
        args: ``store`` and ``folder``.
        make: Whether a store that is not there yet is made.

    Raises:
        StoreUnusable: It cannot be opened.
        Refused: It is not there, and is not to be made.
    """
    from setline.field_book.database import Database
    from setline.field_book.folder import PHOTOS, STORE, default_store_url
    from setline.field_book.photos import Photos
    from setline.field_book.store import Store

    folder = folder_of(args)
    if not args.store and not make and not (folder / STORE).is_file():
        raise Refused(
            where="--folder", given=str(folder), allowed=say("cli-store-none"), example="--folder FOLDER"
        )
    database = Database(args.store or default_store_url(folder), keep_in=folder)
    return Store(database, Photos(database, folder / PHOTOS))
