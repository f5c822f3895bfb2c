"""Arranging one wall: the list is the control, the strip its picture."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import JSONResponse, Response

from setline.web.arranging.page import page_of, shown
from setline.web.arranging.view import run_lists
from setline.web.site import JobPage, Visitor

__all__ = ["router"]

router = APIRouter()


@router.get("/j/{j}/run/{w}")
def run_editor(
    request: Request, standing: JobPage, device: Visitor, w: str, run: str = "", item: str = "", ask: str = ""
) -> Response:
    """Show a wall's runs, with one item chosen."""
    number = int(item) if item.isascii() and item.isdigit() and len(item) < 5 else 0
    page = page_of(standing, w, name=run, number=number, ask=ask)
    return shown(request, standing, device, page)


@router.get("/j/{j}/run/{w}/data")
def data(standing: JobPage, _: Visitor, w: str) -> Response:
    """Return what the list and the strip show, as JSON."""
    plan = standing.plan
    runs = () if plan is None else run_lists(standing, plan, w)
    return JSONResponse(
        {
            "ok": True,
            "revision": standing.revision,
            "runs": [
                {
                    "name": run.name,
                    "fits": run.solved,
                    "items": [
                        {"number": item.number, "from": item.left, "to": item.right} for item in run.items
                    ],
                }
                for run in runs
            ],
        }
    )
