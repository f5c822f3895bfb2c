"""The shipped font for screens: cut down to the signs that the pages use, so that it weighs little."""

from __future__ import annotations

import io
from functools import cache
from importlib import resources

__all__ = ["subset_font"]

SIGNS = "".join(map(chr, range(0x20, 0x7F))) + "½¼¾×°·–—‘’“”′″→←↑↓≤≥±≈…é"
FILES = {"regular": "SourceSansPro-Regular.ttf", "bold": "SourceSansPro-Bold.ttf"}


@cache
def subset_font(weight: str) -> bytes:
    """Return one weight of the font as WOFF with the signs that pages use.

    Args:
        weight: ``regular`` or ``bold``.
    """
    from fontTools import subset
    from fontTools.ttLib import TTFont

    file = resources.files("font_source_sans_pro") / "files" / FILES[weight]
    font = TTFont(io.BytesIO(file.read_bytes()))
    options = subset.Options(layout_features=["kern", "tnum", "lnum"], hinting=False, flavor="woff")
    cutter = subset.Subsetter(options)
    cutter.populate(text=SIGNS)
    cutter.subset(font)
    font.flavor = "woff"
    out = io.BytesIO()
    font.save(out)
    return out.getvalue()
