"""What every request passes before a page sees it: the host it names, where it comes from, how big it is.

Written as plain ASGI, since it is forty lines and the packages for it are young. A browser says where a post
comes from by ``Sec-Fetch-Site``; over plain HTTP on a local network it does not, and then ``Origin`` must be
the host that was asked. A request that changes something and says neither comes from no browser, and is let
through: it carries no cookie of anybody's unless a person put it there.
"""

from __future__ import annotations

from collections.abc import Iterable
from urllib.parse import urlsplit

from starlette.exceptions import HTTPException
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from setline.wording import say

__all__ = ["LOCAL_HOSTS", "Guard"]

LOCAL_HOSTS = frozenset({"localhost", "127.0.0.1", "::1"})
SAFE_METHODS = frozenset({"GET", "HEAD", "OPTIONS"})
MOST_BODY = 2 * 1024 * 1024
MOST_PHOTO = 26 * 1024 * 1024  # a little more than is kept, so that the answer can say so itself

HEADERS = {
    "content-security-policy": (
        "default-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; "
        "form-action 'self'; frame-ancestors 'none'"
    ),
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "geolocation=(), payment=(), usb=()",
}

SECURE_HEADERS = {"strict-transport-security": "max-age=2592000"}
"""Sent over HTTPS: for a month, so that a site that gives HTTPS up is not shut out for longer."""


class _TooLarge(HTTPException):
    """More came than a request may hold; of a kind that a route which is reading lets through."""

    def __init__(self) -> None:
        super().__init__(413, say("too-large"))


class Guard:
    """The app, guarded.

    Args:
        app: What is guarded.
        hosts: Names it answers to, besides this machine's own.
        is_secure: Whether it is reached over HTTPS.
    """

    def __init__(self, app: ASGIApp, *, hosts: Iterable[str], is_secure: bool) -> None:
        self._app = app
        self._hosts = LOCAL_HOSTS | {host.lower() for host in hosts}
        self._headers = dict(HEADERS)
        if is_secure:
            self._headers |= SECURE_HEADERS

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or refuse it."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        headers = {key.decode("latin-1").lower(): value.decode("latin-1") for key, value in scope["headers"]}
        most = MOST_PHOTO if scope["path"].endswith("/photos") else MOST_BODY
        refusal = self._refusal(scope["method"], headers, most)
        if refusal is not None:
            await refusal(scope, receive, self._with_headers(send))
            return
        try:
            await self._app(scope, _bounded(receive, most), self._with_headers(send))
        except _TooLarge:
            await _refused(413, "too-large")(scope, receive, self._with_headers(send))

    def _refusal(self, method: str, headers: dict[str, str], most: int) -> ASGIApp | None:
        """Return the answer to a request that may not pass, or None."""
        host = headers.get("host", "")
        if _name(host) not in self._hosts:
            return _refused(421, "unknown-host")
        length = headers.get("content-length", "0")
        if not length.isascii() or not length.isdigit() or len(length) > 12 or int(length) > most:
            return _refused(413, "too-large")
        if method not in SAFE_METHODS and not _same_site(headers, host):
            return _refused(403, "cross-site")
        return None

    def _with_headers(self, send: Send) -> Send:
        """Return ``send`` with this app's headers on every answer."""

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                given = {key.lower() for key, _ in message["headers"]}
                message["headers"] = [
                    *message["headers"],
                    *(
                        (key.encode(), value.encode())
                        for key, value in self._headers.items()
                        if key.encode() not in given
                    ),
                ]
            await send(message)

        return with_headers


def _name(host: str) -> str:
    """Return the name in a Host header, without its port."""
    try:
        return (urlsplit(f"//{host}").hostname or "").lower()
    except ValueError:
        return ""


def _same_site(headers: dict[str, str], host: str) -> bool:
    """Return whether a request that changes something comes from a page of this app."""
    site = headers.get("sec-fetch-site")
    if site is not None:
        return site in {"same-origin", "none"}
    origin = headers.get("origin")
    try:
        return origin is None or urlsplit(origin).netloc.lower() == host.lower()
    except ValueError:  # no address at all
        return False


def _bounded(receive: Receive, most: int) -> Receive:
    """Return ``receive`` that stops where a body grows past what was allowed, said or not."""
    taken = 0

    async def bounded() -> Message:
        nonlocal taken
        message = {} if taken > most else await receive()  # once refused nothing more is waited for
        taken += len(message.get("body", b""))
        if taken > most:
            raise _TooLarge
        return message

    return bounded


def _refused(status: int, key: str) -> ASGIApp:
    """Return a plain answer that says why."""
    return PlainTextResponse(say(key), status_code=status)
