"""Saying what is going on, where it takes over a second: on stderr, so that what is asked for stays clean."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Timer

__all__ = ["PATIENCE", "working_on"]

PATIENCE = 1.0
"""Seconds after which a line says what is being worked on."""


@contextmanager
def working_on(what: str) -> Iterator[None]:
    """Say what is being worked on if it is still going after a second.

    Args:
        what: The line to say.
    """
    timer = Timer(PATIENCE, lambda: print(what, file=sys.stderr, flush=True))
    timer.daemon = True
    timer.start()
    try:
        yield
    finally:
        timer.cancel()
