"""A wall's strip for a page: inline SVG that leads to its items, with the same facts as a table."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from urllib.parse import urlencode

from markupsafe import Markup

from setline.drawings.run_strip import run_strip
from setline.drawings.shapes import Drawing, Table
from setline.drawings.svg import Tap, to_svg
from setline.drawings.wall_facts import item_words
from setline.result import Plan

__all__ = ["Picture", "picture", "strip_picture"]


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing for a page.

    Attributes:
        svg: The drawing itself.
        title: What it shows.
        table: The same facts as a table.
    """

    svg: Markup
    title: str
    table: Table


def picture(drawing: Drawing, taps: tuple[Tap, ...] = ()) -> Picture:
    """Return a drawing for a page."""
    return Picture(Markup(to_svg(drawing, screen=True, taps=taps)), drawing.title, drawing.table)


def strip_picture(
    plan: Plan,
    wall: str,
    *,
    address: str = "",
    chosen: tuple[str, int] | None = None,
    name: str = "",
    places: Mapping[tuple[str, int], str] = MappingProxyType({}),
) -> Picture:
    """Return the strip of a wall.

    Args:
        plan: The plan.
        wall: The wall's letter.
        address: The page that its items lead to, or nothing.
        chosen: Run and item that are chosen.
        name: A name for the drawing, where two strips of a wall stand on one page.
        places: Letters of places that something may be put at, by run and how many items stand left of it.
    """
    strip = run_strip(plan, wall, name=name, places=places)
    if not address:
        return picture(strip.drawing)
    words = {item.number: item_words(item) for run in plan.runs if run.wall == wall for item in run.items}
    taps = tuple(
        Tap(
            box,
            f"{address}?{urlencode({'run': run, 'item': number})}",
            f"{run}: {words[number]}",
            is_chosen=(run, number) == chosen,
        )
        for run, number, box in strip.boxes
    )
    return picture(strip.drawing, taps)
