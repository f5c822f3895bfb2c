"""A real PostgreSQL server for the tests: started in a folder of its own, stopped and forgotten at the end.

It listens on a socket in that folder alone. PostgreSQL refuses to run as root, so then it runs as ``nobody``.
"""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

__all__ = ["fresh_database", "postgres_server"]

_COUNT = iter(range(1_000_000))


def _programs() -> Path:
    """Return the folder with the server's programs, the newest that Debian has installed."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: int(path.parts[-3]))
    if found:
        return found[-1].parent
    elsewhere = shutil.which("initdb")
    if elsewhere is None:
        raise RuntimeError("no PostgreSQL server here: run tools/system-packages.sh")
    return Path(elsewhere).parent


def _as_whom() -> dict[str, Any]:
    """Return how to start a program as somebody that PostgreSQL accepts."""
    if os.geteuid() != 0:
        return {}
    nobody = pwd.getpwnam("nobody")
    return {"user": nobody.pw_uid, "group": nobody.pw_gid, "extra_groups": []}


@contextmanager
def postgres_server() -> Iterator[str]:
    """Give the URL of a running server, with nothing in it."""
    folder = Path(tempfile.mkdtemp(prefix="setline-pg-"))
    whom = _as_whom()
    if whom:
        os.chown(folder, whom["user"], whom["group"])
    programs, data = _programs(), folder / "data"

    def run(program: str, *arguments: str) -> None:
        call = [str(programs / program), "-D", str(data), *arguments]
        subprocess.run(call, cwd=folder, check=True, stdout=subprocess.DEVNULL, timeout=60, **whom)

    try:
        run("initdb", "--no-sync", "-A", "trust", "-U", "setline", "--locale=C", "-E", "UTF8")
        options = f"-k {folder} -c listen_addresses='' -c fsync=off -c max_connections=200"
        run("pg_ctl", "start", "-w", "-l", str(folder / "log"), "-o", options)
        try:
            yield f"postgresql+psycopg://setline@/postgres?host={folder}"
        finally:
            run("pg_ctl", "stop", "-m", "immediate")
    finally:
        shutil.rmtree(folder, ignore_errors=True)


@contextmanager
def fresh_database(server: str) -> Iterator[str]:
    """Give the URL of a database of its own on a running server, dropped at the end."""
    from sqlalchemy import create_engine, text

    name = f"t{next(_COUNT)}"
    engine = create_engine(server, isolation_level="AUTOCOMMIT")
    try:
        with engine.connect() as connection:
            connection.execute(text(f"CREATE DATABASE {name}"))
        yield server.replace("/postgres?", f"/{name}?")
        with engine.connect() as connection:
            connection.execute(text(f"DROP DATABASE {name} WITH (FORCE)"))
    finally:
        engine.dispose()
