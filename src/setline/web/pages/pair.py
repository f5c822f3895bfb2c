"""Letting another device in: the code the host shows, typed here."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import APIRouter, Form, HTTPException, Request
from fastapi.responses import RedirectResponse, Response

from setline.web.render import Frame, render
from setline.web.session import COOKIE, DEVICE_DAYS, STRANGER, Role
from setline.web.site import site_of
from setline.wording import say

__all__ = ["router"]

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class PairPage:
    """The page that asks for the code.

    Attributes:
        code: What was typed or scanned.
        name: What the device is to be called.
        sentence: What was wrong with the last try.
    """

    code: str = ""
    name: str = ""
    sentence: str = ""


@router.get("/pair")
def pair(request: Request, code: str = "") -> Response:
    """Show the form; a scanned code fills it in, but a person still presses."""
    return render(request, "pair.html", _frame(), PairPage(code=code[:20]))


@router.post("/pair")
def pair_with(
    request: Request, code: Annotated[str, Form()] = "", name: Annotated[str, Form()] = ""
) -> Response:
    """Take the code; on success give the device its cookie."""
    site = site_of(request)
    if not site.settings.share:
        raise HTTPException(404, say("no-such-page"))
    role = site.pairing.accept(code[:40])
    if role is None:
        page = PairPage(code=code[:20], name=name[:80], sentence=say("pair-wrong-code"))
        return render(request, "pair.html", _frame(), page, status=403)
    _, token = site.sessions.add_device(name.strip()[:80] or say("pair-no-name"), role)
    answer = RedirectResponse("/jobs", status_code=303)
    answer.set_cookie(
        COOKIE,
        token,
        max_age=DEVICE_DAYS * 86400,
        httponly=True,
        samesite="lax",
        secure=site.settings.is_secure,
    )
    return answer


@router.get("/guest/{token}")
def guest(request: Request, token: str) -> Response:
    """Let a guest in by a read-only link."""
    site = site_of(request)
    device = site.sessions.by_token(token)
    if device is None or device.job is None:
        raise HTTPException(404, say("link-ended"))
    answer = RedirectResponse(f"/j/{device.job}", status_code=303)
    known = site.sessions.device_of(request)
    if known is not None and known.role is not Role.GUEST:  # who may do more keeps the cookie that says so
        return answer
    answer.set_cookie(COOKIE, token, httponly=True, samesite="lax", secure=site.settings.is_secure)
    return answer


def _frame() -> Frame:
    """Return the frame of a page that nobody known is looking at."""
    return Frame(title=say("page-pair"), device=STRANGER)
