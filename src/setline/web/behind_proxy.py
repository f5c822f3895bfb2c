"""Requests that a proxy hands on: believed about who asked only where the proxy itself was named.

Without a proxy nothing in ``X-Forwarded-*`` is believed. With one, nobody else is answered, and of several
values the last counts: it is the one that the named proxy wrote.
"""

from __future__ import annotations

from collections.abc import Iterable

from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Receive, Scope, Send

from setline.wording import say

__all__ = ["BehindProxy"]


class BehindProxy:
    """The app, behind proxies.

    Args:
        app: What is behind them.
        proxies: Their addresses.
    """

    def __init__(self, app: ASGIApp, *, proxies: Iterable[str]) -> None:
        self._app = app
        self._proxies = frozenset(proxies)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer what a named proxy hands on, as it was asked there."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        if (scope["client"] or ("",))[0] not in self._proxies:
            await PlainTextResponse(say("not-by-proxy"), status_code=403)(scope, receive, send)
            return
        await self._app(_as_asked(scope), receive, send)


def _as_asked(scope: Scope) -> Scope:
    """Return a request as the proxy got it: by whom, for which host, over which scheme."""
    told = {
        name: value.rpartition(b",")[2].strip().decode("latin-1")
        for name, value in scope["headers"]
        if name in (b"x-forwarded-for", b"x-forwarded-host", b"x-forwarded-proto")
    }
    asked = dict(scope)
    if by := told.get(b"x-forwarded-for"):
        asked["client"] = (by, 0)
    if told.get(b"x-forwarded-proto") in ("http", "https"):
        asked["scheme"] = told[b"x-forwarded-proto"]
    if host := told.get(b"x-forwarded-host"):
        others = [(name, value) for name, value in scope["headers"] if name != b"host"]
        asked["headers"] = [*others, (b"host", host.encode("latin-1"))]
    return asked
