"""What this machine is called on its own network."""

from __future__ import annotations

import socket

__all__ = ["own_addresses"]


def own_addresses() -> tuple[str, ...]:
    """Return the names and addresses that other devices on this network reach this machine by."""
    found: list[str] = []
    try:
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
            probe.connect(("192.0.2.1", 9))  # an address kept for documents: nothing is sent to find our own
            found.append(probe.getsockname()[0])
    except OSError:
        pass  # no network: then there is nothing to share on
    name = socket.gethostname().lower()
    return tuple(dict.fromkeys((*found, name, f"{name}.local")))
