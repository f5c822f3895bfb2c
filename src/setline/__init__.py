"""Setline: readings in, marks out.

Example:
    >>> from setline import load_job, plan
    >>> result = plan(load_job("examples/larkspur-street.toml"))

The three names are fetched when they are first asked for, so that a command which needs only one of them
(or a word of help) does not wait for the rest. ``doubts`` lives in the folder ``odds``: a folder of its own
name would hide it.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from setline.job.read import load_job
    from setline.odds import doubts
    from setline.stages import plan

__all__ = ["doubts", "load_job", "plan"]

_HOME = {"doubts": "setline.odds", "load_job": "setline.job.read", "plan": "setline.stages"}


def __getattr__(name: str) -> Any:
    """Fetch one of the three names from its module."""
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(_HOME[name]), name)
