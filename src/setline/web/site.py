"""What every page reaches for: the store, the planner, the sessions, the feed."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Annotated

from fastapi import Depends, HTTPException, Request
from starlette.concurrency import run_in_threadpool

from setline.field_book.faults import NotInStore
from setline.field_book.store import Store
from setline.web.feed import Feed
from setline.web.making import Maker
from setline.web.pairing import Pairing
from setline.web.planning import Planner, Standing
from setline.web.session import HOST, Device, Role, Sessions
from setline.web.settings import Settings
from setline.wording import say

__all__ = ["JobPage", "NotPaired", "Site", "Visitor", "Writer", "WriterPage", "site_of"]


@dataclass(frozen=True, slots=True)
class Site:
    """The parts of a running app."""

    settings: Settings
    store: Store
    planner: Planner
    sessions: Sessions
    pairing: Pairing
    feed: Feed
    maker: Maker = field(default_factory=Maker)


class NotPaired(Exception):
    """Nobody known is asking; the app answers with the pairing page."""


def site_of(request: Request) -> Site:
    """Return the running app's parts."""
    site = request.app.state.site
    assert isinstance(site, Site)
    return site


async def visitor(request: Request) -> Device:
    """Return who is asking; only a token is looked up in the store, in a thread of its own.

    Raises:
        NotPaired: Nobody known is.
    """
    sessions = site_of(request).sessions
    device = (
        HOST if sessions.is_this_machine(request) else await run_in_threadpool(sessions.device_of, request)
    )
    if device is None:
        raise NotPaired
    return device


Visitor = Annotated[Device, Depends(visitor)]


async def writer(device: Visitor) -> Device:
    """Return who is asking, if they may change things."""
    if not device.may_write:
        raise HTTPException(403, say("guest-reads-only"))
    return device


Writer = Annotated[Device, Depends(writer)]


def standing(request: Request, j: str, device: Visitor) -> Standing:
    """Return the job that a page is about, as it stands."""
    if device.role is Role.GUEST and device.job != j:
        raise HTTPException(404, say("no-such-page"))
    try:
        return site_of(request).planner.standing(j)
    except NotInStore as missing:
        raise HTTPException(404, str(missing)) from missing


JobPage = Annotated[Standing, Depends(standing)]


async def writable_standing(standing: JobPage, _: Writer) -> Standing:
    """Return the job that a form changes, for somebody who may."""
    return standing


WriterPage = Annotated[Standing, Depends(writable_standing)]
