"""Typesetting: the only file that knows typst.

The document is compiled in memory from the templates beside this file, one JSON text of plain page data and
the drawings as SVG. No font of the machine is used, only the shipped one, and no time is stamped: so the same
data gives the same bytes.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import typst

__all__ = ["FONT", "typeset"]

FONT = "Source Sans Pro"
_MAIN = "packet.typ"


@cache
def _fonts() -> typst.Fonts:
    """Return the shipped font, looked up once."""
    import typst

    folder = files("font_source_sans_pro") / "files"
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder)])


@cache
def _templates() -> dict[str, bytes]:
    """Return the page templates by name, read once."""
    folder = files("setline.packet") / "templates"
    return {entry.name: entry.read_bytes() for entry in folder.iterdir() if entry.name.endswith(".typ")}


def typeset(document: Mapping[str, Any], pictures: Mapping[str, str]) -> bytes:
    """Return a PDF of the pages.

    Args:
        document: Plain page data: texts, numbers, lists. Lengths on paper are numbers of mm.
        pictures: SVG texts by the file name that the pages call them by.

    Returns:
        The PDF, the same bytes for the same arguments.

    Raises:
        typst.TypstError: A template and its data do not fit together, which is a fault of ours.
    """
    import typst

    templates = _templates()
    # The library takes a dict of sources, which its own type stubs leave out.
    sources: Any = {name: text for name, text in templates.items() if name != _MAIN}
    sources["main"] = templates[_MAIN]
    sources.update({name: svg.encode() for name, svg in pictures.items()})
    made: bytes = typst.compile(
        sources,
        sys_inputs={"data": json.dumps(document, ensure_ascii=False)},
        font_paths=_fonts(),
        timestamp=0,
    )
    return made
