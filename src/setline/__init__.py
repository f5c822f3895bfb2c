"""Setline: readings in, marks out.

Example:
    >>> from setline import load_job, plan
    >>> result = plan(load_job("examples/larkspur-street.toml"))

The three names are fetched when they are first asked for, so that a command which needs only one of them
(or a word of help) does not wait for the rest.
"""

from __future__ import annotations

import sys
from importlib import import_module
from types import ModuleType
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from setline.doubts import doubts
    from setline.job.read import load_job
    from setline.stages import plan

__all__ = ["doubts", "load_job", "plan"]

_HOME = {"doubts": "setline.doubts", "load_job": "setline.job.read", "plan": "setline.stages"}


class _Face(ModuleType):
    """The package as it is imported: its ``doubts`` is the function, never the folder that holds it."""

    def __setattr__(self, name: str, value: object) -> None:
        """Set a name; Python would put the folder's module in the place of the function of its name."""
        if not (name in _HOME and isinstance(value, ModuleType)):
            super().__setattr__(name, value)


sys.modules[__name__].__class__ = _Face


def __getattr__(name: str) -> Any:
    """Fetch one of the three names from its module."""
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found = getattr(import_module(_HOME[name]), name)
    globals()[name] = found
    return found
