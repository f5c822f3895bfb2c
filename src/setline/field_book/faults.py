"""What can go wrong with the store.

StoreError(SetlineError)
    StoreFull        the disk has no room; nothing was kept, the text is still with who sent it
    StoreBusy        others held the store too long
    StoreUnusable    it cannot be opened: not a database, made by a newer Setline, no such server
    NotInStore       no such job, photo or device
    EntryRefused     an entry that the store holds already, with another content
    PhotoRefused     a photo that is too large, or is none
    BackupUnusable   a file that is no backup, is damaged, or was made by a newer Setline
    StoreNotEmpty    a backup was to be laid into a store that holds something
"""

from __future__ import annotations

from setline.errors import InputError, SetlineError

__all__ = [
    "BackupUnusable",
    "EntryRefused",
    "NotInStore",
    "PhotoRefused",
    "StoreBusy",
    "StoreError",
    "StoreFull",
    "StoreNotEmpty",
    "StoreUnusable",
]


class StoreError(SetlineError):
    """Something is wrong with the store."""


class StoreFull(StoreError):
    """The disk has no room: nothing of what was sent was kept."""


class StoreBusy(StoreError):
    """Others held the store too long: nothing of what was sent was kept; it may be sent again."""


class StoreUnusable(StoreError):
    """The store cannot be opened."""


class NotInStore(StoreError, LookupError):
    """The store holds no such job, photo or device."""


class EntryRefused(StoreError, InputError):
    """An entry's id is in the store already with another content."""


class PhotoRefused(StoreError, InputError):
    """A photo is too large, one too many, or no picture that is read."""


class BackupUnusable(StoreError, InputError):
    """A file is no backup, is damaged, or was made by a newer Setline."""


class StoreNotEmpty(StoreError):
    """A backup was to be laid into a store that holds something."""
