"""The whole plan to carry: one page that is saved to the phone and still reads where there is no server."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import Response

from setline.web.assets import content
from setline.web.carried import carried_plan, file_name, inline_font
from setline.web.menu import Group
from setline.web.render import Frame, render, render_alone
from setline.web.site import JobPage, Visitor
from setline.wording import say

__all__ = ["router"]

router = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class CarryPage:
    """The page that offers the file.

    Attributes:
        check_code: The plan's check code, or empty while there is no plan.
        trouble: Why there is no plan.
    """

    check_code: str
    trouble: str


@router.get("/j/{j}/carry")
def carry(request: Request, standing: JobPage, device: Visitor) -> Response:
    """Offer the file, and say what this phone keeps without it."""
    plan = standing.plan
    page = CarryPage(
        check_code="" if plan is None else plan.check_code,
        trouble="" if plan is not None else standing.trouble or say("carry-no-plan"),
    )
    frame = Frame(title=say("page-carry"), device=device, standing=standing, group=Group.PAPER)
    return render(request, "carry.html", frame, page)


@router.get("/j/{j}/carry/file")
def carry_file(standing: JobPage, _: Visitor) -> Response:
    """Hand out the whole plan as one page, to be saved: never shown from here, so it may style itself."""
    if standing.plan is None:
        raise HTTPException(409, standing.trouble or say("carry-no-plan"))
    plan = carried_plan(standing.plan, datetime.now(UTC).astimezone())
    html = render_alone(
        "carry_file.html",
        plan=plan,
        style=(content("carry.css") or b"").decode(),
        fonts={400: inline_font("regular"), 700: inline_font("bold")},
    )
    headers = {
        "content-disposition": f'attachment; filename="{file_name(plan)}"',
        "cache-control": "no-store",
    }
    return Response(html, media_type="text/html; charset=utf-8", headers=headers)
