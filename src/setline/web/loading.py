"""Loading job files into the store when the app starts, for samples and for moving in."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from pathlib import Path

from setline.job.read import load_job
from setline.job.write import to_dict
from setline.web.pages.jobs import start_job
from setline.web.session import HOST
from setline.web.site import Site

__all__ = ["load_jobs"]


def load_jobs(site: Site, files: Iterable[Path]) -> None:
    """Start a job from each file that was not loaded before.

    Args:
        site: The running app's parts.
        files: Job files.

    Raises:
        JobFileError: A file holds no job.
    """
    for file in files:
        document = to_dict(load_job(file))
        act = hashlib.sha256(file.read_bytes()).hexdigest()[:20]
        start_job(site, HOST, document, act=act)
