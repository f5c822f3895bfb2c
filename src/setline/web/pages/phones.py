"""Who is on this job: paired devices, letting one in, letting one out, links for guests."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Form, HTTPException, Request
from fastapi.responses import RedirectResponse, Response
from markupsafe import Markup

from setline.web.menu import Group
from setline.web.render import Frame, render
from setline.web.security import LOCAL_HOSTS
from setline.web.session import Device, Role
from setline.web.site import JobPage, Visitor, site_of
from setline.wording import say

__all__ = ["router"]

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class PhonesPage:
    """Who is on.

    Attributes:
        devices: Paired devices.
        shares: Whether other devices can reach this machine at all.
        code: The code that is being shown, if one is.
        address: Where another device types it.
        picture: The same address and code as a QR picture.
        link: A link that was just made, shown once.
    """

    devices: tuple[Device, ...]
    shares: bool
    code: str | None
    address: str
    picture: Markup | None
    link: str | None = None


@router.get("/j/{j}/phones")
def phones(request: Request, standing: JobPage, device: Visitor) -> Response:
    """Show who is on."""
    frame = Frame(title=say("page-phones"), device=device, standing=standing, group=Group.PAPER)
    return render(request, "phones.html", frame, _page(request, device))


@router.post("/j/{j}/phones/code")
def show_code(request: Request, standing: JobPage, device: Visitor) -> Response:
    """Show a new code."""
    _must_be_host(device)
    site_of(request).pairing.show()
    return RedirectResponse(f"/j/{standing.job_id}/phones", status_code=303)


@router.post("/j/{j}/phones/revoke")
def revoke(
    request: Request, standing: JobPage, device: Visitor, which: Annotated[str, Form(max_length=64)]
) -> Response:
    """Let a device in no more."""
    _must_be_host(device)
    site_of(request).sessions.revoke(which)
    return RedirectResponse(f"/j/{standing.job_id}/phones", status_code=303)


@router.post("/j/{j}/phones/link")
def link(
    request: Request, standing: JobPage, device: Visitor, days: Annotated[int, Form(ge=1, le=90)] = 14
) -> Response:
    """Make a read-only link to this job and show it once."""
    _must_be_host(device)
    token = site_of(request).sessions.add_link(standing.job_id, days=days)
    frame = Frame(title=say("page-phones"), device=device, standing=standing, group=Group.PAPER)
    page = _page(request, device, link=f"{_address(request)}/guest/{token}")
    return render(request, "phones.html", frame, page)


@router.post("/j/{j}/phones/end-links")
def end_links(request: Request, standing: JobPage, device: Visitor) -> Response:
    """End every link to this job."""
    _must_be_host(device)
    site_of(request).sessions.revoke_links(standing.job_id)
    return RedirectResponse(f"/j/{standing.job_id}/phones", status_code=303)


def _page(request: Request, device: Device, *, link: str | None = None) -> PhonesPage:
    """Return the page's data."""
    site = site_of(request)
    code = site.pairing.shown() if device.role is Role.HOST else None
    address = f"{_address(request)}/pair"
    return PhonesPage(
        devices=() if device.role is Role.GUEST else site.sessions.known_devices(),
        shares=site.settings.share,
        code=code,
        address=address,
        picture=None if code is None else _qr(f"{address}?code={code}"),
        link=link,
    )


def _address(request: Request) -> str:
    """Return how another device reaches this app: as it was asked here, else by the first of its names."""
    settings = site_of(request).settings
    asked = request.url.hostname or ""
    host = next(iter(settings.hosts), asked) if asked in LOCAL_HOSTS else asked
    host = f"[{host}]" if ":" in host else host
    port = f":{request.url.port}" if request.url.port else ""
    return f"{'https' if settings.is_secure else 'http'}://{host}{port}"


def _qr(text: str) -> Markup:
    """Return a QR picture as SVG."""
    import segno

    return Markup(segno.make(text, error="m").svg_inline(scale=5, border=4, omitsize=False, svgclass="qr"))


def _must_be_host(device: Device) -> None:
    """Refuse anybody but the host."""
    if device.role is not Role.HOST:
        raise HTTPException(403, say("host-only"))
