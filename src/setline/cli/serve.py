"""``setline serve``: the app, on this machine alone unless sharing is asked for."""

from __future__ import annotations

import argparse
from pathlib import Path

from setline.cli.refusal import Refused
from setline.web.settings import Settings
from setline.wording import say

__all__ = ["add", "run"]


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    parser = subparsers.add_parser(
        "serve",
        help=say("cli-serve-help"),
        description=say("cli-serve-description"),
        epilog=say("cli-serve-examples"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--store", default="", help=say("cli-serve-store-help"))
    parser.add_argument("--folder", type=Path, default=None, help=say("cli-serve-folder-help"))
    parser.add_argument("--port", type=int, default=8321, help=say("cli-serve-port-help"))
    parser.add_argument("--share", action="store_true", help=say("cli-serve-share-help"))
    parser.add_argument("--name", action="append", default=[], help=say("cli-serve-name-help"))
    parser.add_argument("--behind-proxy", action="store_true", help=say("cli-serve-proxy-help"))
    parser.add_argument("--certificate", type=Path, default=None, help=say("cli-serve-certificate-help"))
    parser.add_argument("--key", type=Path, default=None, help=say("cli-serve-key-help"))
    parser.add_argument("--load", action="append", type=Path, default=[], help=say("cli-serve-load-help"))
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Serve until stopped.

    Args:
        args: What was typed.

    Returns:
        0 when it was stopped.
    """
    import uvicorn

    from setline.field_book.database import Database
    from setline.web.app import make_app
    from setline.web.loading import load_jobs
    from setline.web.network import own_addresses

    if (args.certificate is None) != (args.key is None):
        raise Refused(where="--certificate", given="", allowed=say("cli-serve-both"))
    if not 1 <= args.port <= 65535:
        raise Refused(where="--port", given=str(args.port), allowed=say("cli-serve-port-allowed"))
    folder = _folder(args.folder)
    hosts = (*args.name, *own_addresses()) if args.share else tuple(args.name)
    settings = Settings(
        folder=folder,
        store_url=args.store or f"sqlite:///{folder / 'setline.db'}",
        share=args.share,
        behind_proxy=args.behind_proxy,
        hosts=hosts,
        is_secure=args.certificate is not None or args.behind_proxy,
    )
    app = make_app(settings, database=Database(settings.store_url, keep_in=folder))
    load_jobs(app.state.site, args.load)
    _say_where(settings, args.port)
    uvicorn.run(
        app,
        host="0.0.0.0" if args.share else "127.0.0.1",
        port=args.port,
        log_level="warning",
        server_header=False,
        proxy_headers=False,
        timeout_graceful_shutdown=1,
        ssl_certfile=None if args.certificate is None else str(args.certificate),
        ssl_keyfile=None if args.key is None else str(args.key),
    )
    return 0


def _folder(given: Path | None) -> Path:
    """Return the folder for the store and photos, made if it is not there."""
    if given is None:
        from platformdirs import user_data_path

        given = user_data_path("setline", appauthor=False)
    try:
        given.mkdir(parents=True, exist_ok=True)
    except OSError as trouble:
        raise Refused.by_system(trouble) from trouble
    return given.resolve()


def _say_where(settings: Settings, port: int) -> None:
    """Print where the app is to be opened."""
    scheme = "https" if settings.is_secure and not settings.behind_proxy else "http"
    print(say("cli-serve-open", address=f"{scheme}://localhost:{port}/"), flush=True)
    if settings.share:
        for host in settings.hosts:
            print(say("cli-serve-open-other", address=f"{scheme}://{host}:{port}/"), flush=True)
        if scheme == "http" and not settings.behind_proxy:
            print(say("cli-serve-plain"), flush=True)
