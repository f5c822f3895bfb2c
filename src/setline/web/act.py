"""Names for what one form will do, made with the form."""

from __future__ import annotations

import secrets

__all__ = ["new_act"]


def new_act() -> str:
    """Return a name for what one form will do: sent twice, it is done once."""
    return secrets.token_hex(10)
