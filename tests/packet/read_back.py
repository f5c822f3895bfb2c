"""Reading a packet back: what stands on its pages, and where, in mm."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

import pdfplumber
from pdfplumber.page import Page

PT_PER_MM = 72 / 25.4


@contextmanager
def pages_of(made: bytes) -> Iterator[list[Page]]:
    """Open a PDF and give its pages."""
    with pdfplumber.open(io.BytesIO(made)) as document:
        yield document.pages


def text_of(page: Page) -> str:
    """Return a page's words in reading order, one space between them."""
    return " ".join(page.extract_text().split())


@dataclass(frozen=True)
class Upright:
    """An upright line on a page, in mm from the page's upper left corner."""

    x: float
    top: float
    bottom: float
    weight: float
    dashed: bool


def uprights(page: Page) -> list[Upright]:
    """Return every upright line of a page."""
    return [
        Upright(
            x=line["x0"] / PT_PER_MM,
            top=line["top"] / PT_PER_MM,
            bottom=line["bottom"] / PT_PER_MM,
            weight=line["linewidth"] / PT_PER_MM,
            dashed=bool(line["dash"] and line["dash"][0]),
        )
        for line in page.lines
        if abs(line["x0"] - line["x1"]) < 0.01
    ]


def frames(page: Page) -> list[tuple[float, float, float, float]]:
    """Return x, y, width and height of every outlined rectangle, in mm."""
    return [
        tuple(rect[key] / PT_PER_MM for key in ("x0", "top", "width", "height"))
        for rect in page.rects
        if not rect["fill"]
    ]
