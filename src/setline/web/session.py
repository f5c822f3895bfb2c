"""Who is asking: this machine, a paired phone, a guest with a link, or nobody known.

Unless sharing is on, only this machine is answered and it is the host, without any sign-in. With sharing,
a device pairs by a code that the host shows; it then carries a cookie with a token of which the store keeps
only the hash.
"""

from __future__ import annotations

import hashlib
import secrets
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from enum import StrEnum

from fastapi import Request
from sqlalchemy import insert, select, update

from setline.field_book.database import Database
from setline.field_book.tables import devices, links
from setline.web.settings import Settings

__all__ = ["COOKIE", "DEVICE_DAYS", "HOST", "STRANGER", "Device", "Role", "Sessions", "token_hash"]

COOKIE = "setline-device"
DEVICE_DAYS = 90
LOOPBACK = frozenset({"127.0.0.1", "::1", "testclient"})
PROXY_HEADERS = ("x-forwarded-for", "forwarded", "x-real-ip")


class Role(StrEnum):
    """What a device may do."""

    HOST = "host"  # all, and pair others
    CREW = "crew"  # all but pairing and deleting
    GUEST = "guest"  # read one job


@dataclass(frozen=True, slots=True, kw_only=True)
class Device:
    """A device that is known.

    Attributes:
        id: Its id; entries it makes through plain forms carry it.
        name: What people call it.
        role: What it may do.
        job: For a guest: the one job it may read.
    """

    id: str
    name: str
    role: Role
    job: str | None = None

    @property
    def may_write(self) -> bool:
        """Whether it may change a job."""
        return self.role is not Role.GUEST


HOST = Device(id="host", name="this machine", role=Role.HOST)
STRANGER = Device(id="", name="", role=Role.GUEST)
"""Who looks at a page without being known: it shows them nothing of any job."""


def token_hash(token: str) -> bytes:
    """Return what the store keeps of a token."""
    return hashlib.sha256(token.encode()).digest()


class Sessions:
    """Devices and links, by their tokens.

    Args:
        database: The store's database.
        settings: How the app is run.
    """

    def __init__(self, database: Database, settings: Settings) -> None:
        self._database = database
        self._settings = settings

    def device_of(self, request: Request) -> Device | None:
        """Return who is asking, or None if nobody known."""
        if self.is_this_machine(request):
            return HOST
        token = request.cookies.get(COOKIE, "")
        return self.by_token(token) if token else None

    def is_this_machine(self, request: Request) -> bool:
        """Return whether a request comes from a person at this machine."""
        if self._settings.behind_proxy or any(header in request.headers for header in PROXY_HEADERS):
            return False
        return request.client is not None and request.client.host in LOOPBACK

    def by_token(self, token: str) -> Device | None:
        """Return the device or guest that a token belongs to, if it still holds."""
        now = datetime.now(UTC).isoformat(timespec="seconds")
        with self._database.reading() as connection:
            query = select(devices).where(devices.c.token_hash == token_hash(token), ~devices.c.is_revoked)
            row = connection.execute(query.where(devices.c.expires_at > now)).mappings().first()
            if row is not None:
                return Device(id=row["id"], name=row["name"], role=Role(row["role"]), job=row["job"])
            query = select(links).where(links.c.token_hash == token_hash(token), ~links.c.is_revoked)
            link = connection.execute(query.where(links.c.expires_at > now)).mappings().first()
            return (
                None if link is None else Device(id="guest", name="guest", role=Role.GUEST, job=link["job"])
            )

    def add_device(self, name: str, role: Role = Role.CREW) -> tuple[str, str]:
        """Make a device; return its id and the token its cookie carries."""
        token, device = secrets.token_urlsafe(32), secrets.token_hex(8)
        now = datetime.now(UTC)
        row = {
            "id": device,
            "name": name[:80],
            "token_hash": token_hash(token),
            "role": role.value,
            "job": None,
            "made_at": now.isoformat(timespec="seconds"),
            "expires_at": (now + timedelta(days=DEVICE_DAYS)).isoformat(timespec="seconds"),
            "is_revoked": False,
        }
        with self._database.writing() as connection:
            connection.execute(insert(devices), [row])
        return device, token

    def known_devices(self) -> tuple[Device, ...]:
        """Return every paired device that still holds."""
        query = select(devices).where(~devices.c.is_revoked).order_by(devices.c.made_at)
        with self._database.reading() as connection:
            rows = connection.execute(query).mappings().all()
        return tuple(
            Device(id=row["id"], name=row["name"], role=Role(row["role"]), job=row["job"]) for row in rows
        )

    def revoke(self, device: str) -> None:
        """Let a device in no more."""
        with self._database.writing() as connection:
            connection.execute(update(devices).where(devices.c.id == device).values(is_revoked=True))

    def add_link(self, job: str, *, days: int) -> str:
        """Make a read-only link to one job; return its token (128 bits)."""
        token, now = secrets.token_urlsafe(16), datetime.now(UTC)
        row = {
            "token_hash": token_hash(token),
            "job": job,
            "made_at": now.isoformat(timespec="seconds"),
            "expires_at": (now + timedelta(days=days)).isoformat(timespec="seconds"),
            "is_revoked": False,
        }
        with self._database.writing() as connection:
            connection.execute(insert(links), [row])
        return token

    def revoke_links(self, job: str) -> None:
        """Let nobody in by a link to this job any more."""
        with self._database.writing() as connection:
            connection.execute(update(links).where(links.c.job == job).values(is_revoked=True))
