"""Pairing: a code the host shows, ten minutes and five tries long."""

from __future__ import annotations

import secrets
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass

from setline.web.session import Role

__all__ = ["LIVES_SECONDS", "MOST_TRIES", "Pairing"]

LIVES_SECONDS = 600
MOST_TRIES = 5
DIGITS = 8


@dataclass(slots=True)
class _Code:
    """A code that is being shown."""

    digits: str
    made: float
    role: Role
    tries: int = 0


class Pairing:
    """The one code that holds at a time; a new one ends the one before.

    Wrong tries count against the code, whoever makes them: after five it is dead. Nobody can try at all while
    the host shows none.

    Args:
        clock: Seconds that only grow; tests give their own.
    """

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._lock = threading.Lock()
        self._code: _Code | None = None

    def show(self, role: Role = Role.CREW) -> str:
        """Make a code and return it, eight digits; whoever types it may do what ``role`` may."""
        digits = "".join(secrets.choice("0123456789") for _ in range(DIGITS))
        with self._lock:
            self._code = _Code(digits, self._clock(), role)
            return digits

    def shown(self) -> str | None:
        """Return the code that holds, if one does."""
        with self._lock:
            return None if (code := self._holding()) is None else code.digits

    def accept(self, typed: str) -> Role | None:
        """Return what the typed code lets its device do, once; or None if it is not the one."""
        with self._lock:
            code = self._holding()
            if code is None:
                return None
            code.tries += 1
            digits = "".join(sign for sign in typed if sign.isascii() and sign.isdigit())
            if not secrets.compare_digest(digits, code.digits):
                return None
            self._code = None
            return code.role

    def _holding(self) -> _Code | None:
        """Return the code if it still holds."""
        code = self._code
        if code is None or self._clock() - code.made > LIVES_SECONDS or code.tries >= MOST_TRIES:
            self._code = None
        return self._code
