"""Styles, scripts, pictures and the font as they are served: each at an address that holds its own hash.

An address once given out always means the same bytes, so a browser may keep it for ever, and a page that was
kept for reading without signal finds the very scripts it was made for. A script's own imports are written as
such addresses, so that changing one file changes the address of every file that uses it.
"""

from __future__ import annotations

import hashlib
import re
from functools import cache
from importlib import resources

from setline.web.font import subset_font

__all__ = ["asset", "content", "digest_of"]

_STATIC = resources.files("setline.web") / "static"
_IMPORT = re.compile(rb"""(\bfrom\s+|\bimport\s+)"\./([a-z-]+\.js)";""")
_FONTS = {"text-regular.woff": "regular", "text-bold.woff": "bold"}


@cache
def content(name: str) -> bytes | None:
    """Return a file's bytes as they are served, or None if there is none of that name."""
    if name in _FONTS:
        return subset_font(_FONTS[name])
    file = _STATIC / name
    if not file.is_file():
        return None
    given = file.read_bytes()
    return _IMPORT.sub(_with_address, given) if name.endswith(".js") else given


def _with_address(found: re.Match[bytes]) -> bytes:
    """Return one import with the hashed address of what it names."""
    return found[1] + b'"' + asset(found[2].decode()).encode() + b'";'


@cache
def digest_of(name: str) -> str:
    """Return the hash in a file's address.

    Raises:
        KeyError: There is no such file: a template names one that was not written.
    """
    given = content(name)
    if given is None:
        raise KeyError(name)
    return hashlib.sha256(given).hexdigest()[:10]


def asset(name: str) -> str:
    """Return the address of a static file."""
    return f"/static/{digest_of(name)}/{name}"
