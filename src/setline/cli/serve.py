"""``setline serve``: the app, on this machine alone unless sharing is asked for."""

from __future__ import annotations

import argparse
import socket
import ssl
from collections.abc import Sequence
from ipaddress import ip_address
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
    parser.add_argument(
        "--behind-proxy", nargs="?", const="127.0.0.1", metavar="ADDRESS", help=say("serve-proxy-help")
    )
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
    from setline.web.session import Role

    proxies = _proxies(args.behind_proxy)
    secured = _secured(args.certificate, args.key)
    with _listening(args.port, _where(args.share, proxies)) as listening:
        folder = _folder(args.folder)
        settings = _settings(args, folder, proxies, is_secure=secured is not None or bool(proxies))
        app = make_app(settings, database=Database(settings.store_url, keep_in=folder))
        load_jobs(app.state.site, args.load)
        config = uvicorn.Config(
            app,
            log_level="warning",
            server_header=False,
            proxy_headers=False,
            timeout_graceful_shutdown=1,
            ssl_context_factory=None if secured is None else lambda *_: secured,
        )
        _say_where(settings, args.port)
        if settings.behind_proxy:
            print(say("serve-host-code", code=app.state.site.pairing.show(Role.HOST)), flush=True)
        uvicorn.Server(config).run([listening])
    return 0


def _settings(
    args: argparse.Namespace, folder: Path, proxies: tuple[str, ...], *, is_secure: bool
) -> Settings:
    """Return how the app is run."""
    from setline.web.network import own_addresses

    on_network = args.share and not proxies
    return Settings(
        folder=folder,
        store_url=args.store or f"sqlite:///{folder / 'setline.db'}",
        share=args.share or bool(proxies),
        proxies=proxies,
        hosts=(*args.name, *own_addresses()) if on_network else tuple(args.name),
        is_secure=is_secure,
    )


def _proxies(given: str | None) -> tuple[str, ...]:
    """Return the addresses of the proxies that are believed."""
    if given is None:
        return ()
    try:
        return (str(ip_address(given)),)
    except ValueError:
        raise Refused(where="--behind-proxy", given=given, allowed=say("serve-proxy-allowed")) from None


def _where(share: bool, proxies: Sequence[str]) -> str:
    """Return the address to listen at: beyond this machine only where sharing asks for it."""
    if proxies:
        return "127.0.0.1" if all(ip_address(each).is_loopback for each in proxies) else "0.0.0.0"
    return "0.0.0.0" if share else "127.0.0.1"


def _listening(port: int, where: str) -> socket.socket:
    """Return a socket that listens."""
    if not 1 <= port <= 65535:
        raise Refused(where="--port", given=str(port), allowed=say("cli-serve-port-allowed"))
    try:
        return socket.create_server((where, port), backlog=128)
    except OSError:
        raise Refused(where="--port", given=str(port), allowed=say("serve-port-taken", port=port)) from None


def _secured(certificate: Path | None, key: Path | None) -> ssl.SSLContext | None:
    """Return what HTTPS needs, or None where plain http was asked for."""
    if (certificate is None) != (key is None):
        raise Refused(where="--certificate", given="", allowed=say("cli-serve-both"))
    if certificate is None or key is None:
        return None
    for file in (certificate, key):
        try:
            file.open("rb").close()
        except OSError as trouble:
            raise Refused.by_system(trouble) from trouble
    secured = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    try:
        secured.load_cert_chain(certificate, key)
    except ssl.SSLError as trouble:
        why = say("serve-certificate-trouble", file=certificate, why=trouble.reason or "?")
        raise Refused(where="--certificate", given=str(certificate), allowed=why) from trouble
    return secured


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
    """Print where the app is to be opened, and what is to be known of sharing."""
    scheme = "https" if settings.is_secure and not settings.behind_proxy else "http"
    if not settings.behind_proxy:
        print(say("cli-serve-open", address=f"{scheme}://localhost:{port}/"), flush=True)
    if not settings.share:
        return
    for host in settings.hosts:
        address = f"https://{host}/" if settings.behind_proxy else f"{scheme}://{host}:{port}/"
        print(say("cli-serve-open-other", address=address), flush=True)
    print(say("serve-plain" if not settings.is_secure else "serve-shared"), flush=True)
