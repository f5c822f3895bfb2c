"""Reading a packet back: what stands on its pages, and where, in mm."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

import pdfplumber
import pypdfium2
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


@dataclass(frozen=True)
class Sheet:
    """A page as its words and how far they reach, read quickly; in mm."""

    text: str
    width: float
    least: float
    most: float


def sheets_of(made: bytes) -> tuple[Sheet, ...]:
    """Return every page's words in the order they were set, and how far its letters reach to both sides."""
    document = pypdfium2.PdfDocument(made)
    sheets = []
    for page in document:
        words = page.get_textpage()
        text = words.get_text_range()
        letters = [at for at in range(words.count_chars()) if words.get_text_range(at, 1).strip()]
        inked = [words.get_charbox(at) for at in letters]
        sheets.append(
            Sheet(
                text=" ".join(text.split()),
                width=page.get_width() / PT_PER_MM,
                least=min(box[0] for box in inked) / PT_PER_MM,
                most=max(box[2] for box in inked) / PT_PER_MM,
            )
        )
    document.close()
    return tuple(sheets)
