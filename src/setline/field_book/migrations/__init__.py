"""The store's schema, a file a step in ``versions``; ``upgrade`` runs those that are missing.

Alembic is slow to import: whoever opens a store imports this only where a step is missing, and before the
store is held.
"""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection, text

__all__ = ["config_for", "upgrade"]

_ONE_AT_A_TIME = 7310  # any number; whoever upgrades holds PostgreSQL's lock of that number


def config_for(connection: Connection) -> Config:
    """Return Alembic's settings for a connection that is inside a transaction."""
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent).replace("%", "%%"))
    config.attributes["connection"] = connection
    return config


def upgrade(connection: Connection, to: str = "head") -> None:
    """Bring a database up to a step, inside the transaction of the connection: all of it or nothing.

    Args:
        connection: A connection that writes.
        to: The step; without it, the newest.
    """
    if connection.dialect.name == "postgresql":
        connection.execute(text(f"SELECT pg_advisory_xact_lock({_ONE_AT_A_TIME})"))
    command.upgrade(config_for(connection), to)
