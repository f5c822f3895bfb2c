"""The store's schema, a file a step in ``versions``; ``upgrade`` runs those that are missing."""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import Engine

__all__ = ["upgrade"]


def upgrade(engine: Engine) -> None:
    """Bring a database up to the newest step, in one transaction."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent))
    with engine.begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
