"""A job from nothing: each page leads on, and none speaks of what was not asked yet."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from tests.rooms import box
from tests.web.app import open_app, text_of

EMPTY: dict[str, Any] = {"format": 1, "job": {"name": "Heron Lane", "tape": "inch"}, "room": {}}
WALLS = {"walls": [{"name": "A", "lengths": [{"length": "131 3/8"}]}]}


def test_an_empty_job_asks_for_its_walls_and_names_no_fields(tmp_path: Path) -> None:
    """The first page of a new job shows what to do and no sentence about the job file."""
    said = text_of(open_app(tmp_path, EMPTY).get(""))
    assert "Name the walls and read their lengths" in said
    assert "room.walls" not in said
    assert "Not a whole job yet" not in said


def test_what_is_on_order_leads_on_to_arranging_until_a_run_stands(tmp_path: Path) -> None:
    """The order's page leads to the first wall while no run is there, and is quiet after."""
    document = {**EMPTY, "room": WALLS, "order": {"boxes": [box(1, "24", "drawers")]}}
    app = open_app(tmp_path, document)
    leads = f'<a class="button main" href="/j/{app.job}/run/A">'
    assert leads in app.get("/order")
    app.post("/run/A/start", row="base", items="1", seen=app.standing.revision)
    assert app.document["runs"]
    assert leads not in app.get("/order")
