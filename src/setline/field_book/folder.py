"""Where the store, the photos and the backups lie on this machine."""

from __future__ import annotations

from pathlib import Path

__all__ = ["PHOTOS", "data_folder", "default_store_url"]

PHOTOS = "photos"
STORE = "setline.db"


def data_folder() -> Path:
    """Return the user's data folder for Setline, by the custom of the platform; it may not be there yet."""
    from platformdirs import user_data_path

    return user_data_path("setline", appauthor=False)


def default_store_url(folder: Path | None = None) -> str:
    """Return the URL of the store in a folder, made if it is not there; without one, of the user's own.

    Raises:
        OSError: The folder cannot be made.
    """
    folder = (folder or data_folder()).absolute()
    folder.mkdir(parents=True, exist_ok=True)
    from sqlalchemy.engine import URL

    return URL.create("sqlite", database=str(folder / STORE)).render_as_string()
