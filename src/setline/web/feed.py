"""Telling open pages that a job has changed, by server-sent events."""

from __future__ import annotations

import asyncio
from collections import defaultdict
from collections.abc import AsyncIterator

__all__ = ["Feed"]


class Feed:
    """Pages listening by job. Told from any thread; heard in the server's loop."""

    def __init__(self) -> None:
        self._listening: dict[str, set[asyncio.Queue[int]]] = defaultdict(set)
        self._loop: asyncio.AbstractEventLoop | None = None

    def tell(self, job: str, revision: int) -> None:
        """Tell every page that listens to a job what its revision is now."""
        loop = self._loop
        if loop is not None and not loop.is_closed():
            loop.call_soon_threadsafe(self._hand_out, job, revision)

    def _hand_out(self, job: str, revision: int) -> None:
        """Put the revision before every listener; one that is behind gets only the newest."""
        for queue in self._listening[job]:
            if queue.full():
                queue.get_nowait()
            queue.put_nowait(revision)

    async def listen(self, job: str) -> AsyncIterator[int]:
        """Yield each new revision of a job as it comes."""
        self._loop = asyncio.get_running_loop()
        queue: asyncio.Queue[int] = asyncio.Queue(maxsize=1)
        self._listening[job].add(queue)
        try:
            while True:
                yield await queue.get()
        finally:
            self._listening[job].discard(queue)
