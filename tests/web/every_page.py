"""Every page that the app has, as its own routes tell: addresses at which each has something to show.

A page that is added is found by itself. Where its address holds a name that none had before, ``PARTS`` wants
an example for it; where a question in the address shows more of it, ``VIEWS`` may name that.
"""

from __future__ import annotations

import io
import re
import time
from collections.abc import Iterator
from importlib import import_module
from urllib.parse import quote

from fastapi.routing import APIRoute
from PIL import Image

from setline.field_book.entry import Entry
from setline.field_book.live import live_entries
from setline.lengths import Units, mark_step, show
from setline.web.app import PAGES
from setline.web.assets import asset
from setline.web.making import State
from tests.web.app import App

__all__ = ["GET_ROUTES", "addresses", "fill"]


def _get_routes() -> Iterator[str]:
    for page in PAGES:
        for route in import_module(f"setline.web.pages.{page}").router.routes:
            if isinstance(route, APIRoute) and "GET" in route.methods:
                yield route.path


GET_ROUTES = tuple(_get_routes())
"""The address patterns that answer to GET, in the order of the app."""

PARTS = {"w": "A", "b": "2", "slug": "filler", "name": "A base 3 left"}
"""What stands for a part of an address in both samples; the others are looked up in the filled job."""

VIEWS = {
    "/j/{j}/walk": ("?at={spot}",),
    "/j/{j}/run/{w}": ("?run={w} base&item={b}&ask=after", "?run={w} base&item={b}&ask=pin"),
    "/j/{j}/readings": ("?show=asks",),
    "/j/{j}/room": ("?wall={w}",),
    "/j/{j}/set/{b}": ("#true", "#right"),
}
"""What else a page shows for a question or a part in its address."""


def fill(app: App) -> dict[str, str]:
    """Let a sample's crew do one of everything; return what stands for each part of an address.

    The line and the marks are struck, box 2 is set a little past its mark, two people read one spot
    differently, a packet is printed, a photo is taken, a phone is paired, a code is shown.
    """
    place = _read_twice(app)
    wall, line, along = place.split("/")[-4:-1]
    parts = {**PARTS, "j": app.job, "place": quote(place), "spot": f"floor {wall} {along} {line}"}
    app.post("/agree")
    app.post("/marks/A/line")
    plan = app.standing.plan
    assert plan is not None
    marks = [mark for run in plan.runs if run.wall == "A" for mark in run.marks]
    app.post("/marks/A/sheet", shown=[mark.name for mark in marks], struck=[mark.name for mark in marks[:4]])
    ways = re.search(r'href="/j/\w+/remedy/(\w+)"', app.get("/troubles"))
    parts["remedy"] = "" if ways is None else ways[1]
    _set_box_two(app, next(mark.printed for mark in marks if mark.name == "A base 3 left"))
    parts["n"] = str(app.standing.revision)
    app.site.sessions.add_device("Kitchen phone")
    app.site.pairing.show()
    app.post("/print", paper="letter", ready="others")
    making = app.site.maker.of_job(app.job)[0]
    while making.state is State.WORKING:
        time.sleep(0.02)
    parts["pdf"] = making.key
    assert app.site.store.photos is not None
    picture = io.BytesIO()
    Image.new("RGB", (640, 480), "teal").save(picture, "JPEG")
    parts["photo"] = app.site.store.photos.add(app.job, "/room/walls/A", "host", picture.getvalue()).id
    parts["token"] = app.site.sessions.add_link(app.job, days=1)
    return parts


def _read_twice(app: App) -> str:
    """Let another phone read a spot of the floor differently, not knowing of the first; return its place."""
    place, (first,) = next(
        (place, found)
        for place, found in live_entries(app.site.store.entries(app.job)).items()
        if place.startswith("/floor/set_ups/S1/readings/") and "/toe/" in place
    )
    value = re.sub(r"^\d+", lambda whole: str(int(whole[0]) + 1), str(first.value))
    read = Entry(id=f"{app.job}-b", job=app.job, device="other", n=1, by="Ana", place=place, value=value)
    app.site.store.add([read])
    return place


def _set_box_two(app: App, right: int | None) -> None:
    """Set box 2 a little too far to the right."""
    assert right is not None
    plan = app.standing.plan
    assert plan is not None
    units = Units(plan.units)
    typed = show(right + mark_step(units) * (2 if units is Units.METRIC else 1), units)
    app.post("/set/2/as-set", key="right", answer="typed", text=typed, screwed="yes", sure="yes")


def addresses(route: str, parts: dict[str, str]) -> tuple[str, ...]:
    """Return the addresses that show a route's page in a filled job; none where a sample has nothing to show.

    Raises:
        KeyError: The route has a part in its address that has no example yet.
    """
    named = {**parts}
    if route.startswith("/static/"):
        _, _, named["digest"], named["name"] = asset("page.js").split("/")
    if "/remedy/" in route or route.endswith(".pdf"):
        named["key"] = parts["remedy" if "/remedy/" in route else "pdf"]
    pattern = re.sub(r"\{(\w+):\w+\}", r"{\1}", route)
    if not all(named[name] for name in re.findall(r"\{(\w+)\}", pattern)):
        return ()
    address = quote(pattern.format_map(named))
    if route.endswith("/history"):
        return (f"{address}?place={parts['place']}",)
    return (address, *(address + quote(view.format_map(parts), safe="?=&#") for view in VIEWS.get(route, ())))
