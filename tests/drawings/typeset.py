"""Drawings read back from the PDF that embeds them."""

from __future__ import annotations

import io
from typing import Any

import pdfplumber
import typst

from setline.drawings.font import font_folder
from setline.drawings.scale import FULL_SIZE
from setline.drawings.shapes import Drawing, Shape, Table, Text
from setline.drawings.svg import to_svg

MM = 25.4 / 72
"""A PDF point in mm."""


def drawing_of(*shapes: Shape, width: float = 120.0, height: float = 80.0) -> Drawing:
    """Return a drawing of just these shapes."""
    return Drawing(
        name="some",
        title="Some shapes",
        description="Shapes for a test.",
        width=width,
        height=height,
        scale=FULL_SIZE,
        origin=(0.0, 0.0),
        shapes=shapes,
        table=Table(("What",), (("shapes",),)),
    )


def svg_of_texts(*texts: Text) -> str:
    """Return the SVG of a drawing of just these labels."""
    return to_svg(drawing_of(*texts))


def pdf_of(svg: str) -> bytes:
    """Return a PDF page that is exactly the drawing."""
    sources: Any = {
        "main": b'#set page(width: auto, height: auto, margin: 0mm)\n#image("drawing.svg")',
        "drawing.svg": svg.encode(),
    }
    fonts = typst.Fonts(
        include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(font_folder())]
    )
    pdf: bytes = typst.compile(sources, font_paths=fonts, timestamp=0)
    return pdf


def page_of_svg(svg: str) -> dict[str, Any]:
    """Return width, height, letters, lines and curves of the page, in points."""
    with pdfplumber.open(io.BytesIO(pdf_of(svg))) as pdf:
        page = pdf.pages[0]
        return {
            "width": page.width,
            "height": page.height,
            "chars": page.chars,
            "lines": page.lines,
            "curves": page.curves,
            "rects": page.rects,
        }


def chars_of(svg: str) -> list[dict[str, Any]]:
    """Return the letters of the page in the order they are printed."""
    chars: list[dict[str, Any]] = page_of_svg(svg)["chars"]
    return chars
