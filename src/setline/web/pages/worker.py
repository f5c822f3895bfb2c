"""What a phone needs to read without signal: the worker, a page for what it did not keep, a sign of life."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response

from setline.web.assets import content
from setline.web.render import Frame, render
from setline.web.site import Visitor
from setline.wording import say

__all__ = ["router"]

router = APIRouter()


@router.get("/worker.js")
def worker() -> Response:
    """Return the worker. It stands at the root: a worker serves only what lies below its own address."""
    return Response(content("worker.js"), media_type="text/javascript", headers={"cache-control": "no-cache"})


@router.get("/alive")
def alive() -> Response:
    """Say that the server is there."""
    return Response(status_code=204, headers={"cache-control": "no-store"})


@router.get("/not-on-phone")
def not_on_phone(request: Request, device: Visitor) -> Response:
    """Return the page that a phone without signal shows in place of one it does not keep."""
    return render(request, "not_on_phone.html", Frame(title=say("not-on-phone-title"), device=device))
