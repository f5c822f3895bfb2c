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
        proxies: Addresses of the proxies that hand requests on; where there are any, nobody else is answered.
        hosts: Names and addresses this app answers to, besides this machine's own.
        is_secure: Whether pages are reached over HTTPS: then cookies are marked so.
    """

    folder: Path
    store_url: str
    share: bool = False
    proxies: tuple[str, ...] = ()
    hosts: tuple[str, ...] = field(default=())
    is_secure: bool = False

    @property
    def behind_proxy(self) -> bool:
        """Whether requests come through a proxy: then none is the host's by coming from this machine."""
        return bool(self.proxies)
