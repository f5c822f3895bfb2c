"""How the app is run: where the store lies, who may reach it."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

__all__ = ["Settings"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """How the app is run.

    Attributes:
        folder: Where photos and backups lie, beside the store.
        store_url: The store's database.
        share: Whether other devices may pair; without it nothing but this machine is answered.
        behind_proxy: Whether a proxy on this machine hands requests on: then no request counts as the host's
            by coming from this machine.
        hosts: Names and addresses this app answers to, besides this machine's own.
        is_secure: Whether pages are reached over HTTPS: then cookies are marked so.
    """

    folder: Path
    store_url: str
    share: bool = False
    behind_proxy: bool = False
    hosts: tuple[str, ...] = field(default=())
    is_secure: bool = False
