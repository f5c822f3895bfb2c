"""A program that keeps entries one by one and prints the id of each that was acknowledged; to be killed."""

from __future__ import annotations

import sys

from tests.field_book.writing import SPOT, entry

from setline.field_book.database import Database
from setline.field_book.store import Store


def main(url: str, device: str, count: int) -> None:
    """Keep so many entries."""
    store = Store(Database(url))
    for n in range(count):
        each = entry(n, SPOT, "48 1/4 " + "x" * 500, device=device)
        store.add([each])
        sys.stdout.write(f"{each.id}\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]))
