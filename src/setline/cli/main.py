"""The command line: one command a file, and only the one that is called is imported.

Exit codes: 0 fine; 1 a stop among the findings (``check`` alone); 2 the file or the call is wrong.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from difflib import get_close_matches
from importlib import import_module
from typing import NoReturn

from setline.cli.refusal import Refused, tell
from setline.errors import SetlineError
from setline.version import VERSION
from setline.wording import say

__all__ = ["COMMANDS", "main"]

COMMANDS = (
    "new",
    "check",
    "plan",
    "why",
    "packet",
    "rules",
    "schema",
    "serve",
    "backup",
    "restore",
    "export",
)
"""In the order of a job; each is a module of this folder with ``add(subparsers)`` and ``run(args)``."""

_WRONG = 2


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command.

    Args:
        arguments: What was typed after ``setline``; without it, what this program was started with.

    Returns:
        The exit code.
    """
    typed = list(sys.argv[1:] if arguments is None else arguments)
    # No other package has a say in how a job is read; looking for such plugins takes a tenth of the start.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):  # a terminal of few letters still gets every line
            stream.reconfigure(errors="backslashreplace")
    try:
        return _run(typed)
    except BrokenPipeError:  # whoever was reading has seen enough; the last flush must not say so either
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except KeyboardInterrupt:
        return 130


def _run(typed: list[str]) -> int:
    """Read the call, run its command, tell what was wrong with it."""
    as_json = "--json" in typed
    called = next((word for word in typed if not word.startswith("-")), None)
    if not typed:
        _parser(None).print_help(sys.stderr)
        return _WRONG
    try:
        if called is not None and called not in COMMANDS:
            raise _no_command(called)
        args = _parser(called).parse_args(typed)
        code: int = args.run(args)
        sys.stdout.flush()
    except (SetlineError, Refused) as wrong:
        tell(wrong, as_json=as_json)
        return _WRONG
    except BrokenPipeError:
        raise
    except OSError as trouble:  # a folder that cannot be written to, a full disk
        tell(Refused.by_system(trouble), as_json=as_json)
        return _WRONG
    return code


class _Parser(argparse.ArgumentParser):
    """A parser that refuses a call as every other refusal is told."""

    def error(self, message: str) -> NoReturn:
        """Refuse a call: what was typed, what is allowed, how it is used."""
        raise Refused(where=self.prog, given="", allowed=message, example=self.format_usage().strip())


def _no_command(called: str) -> Refused:
    """Return the refusal of a command that there is not, with the nearest one that there is."""
    near = get_close_matches(called, COMMANDS, n=1)
    example = f"setline {near[0]}" if near else "setline --help"
    return Refused(
        where="COMMAND", given=called, allowed=say("cli-no-command", given=called), example=example
    )


def _parser(called: str | None) -> argparse.ArgumentParser:
    """Return the parser: the command that is called in full, the others by their one line."""
    parser = _Parser(
        prog="setline",
        description=say("cli-description"),
        epilog=say("cli-examples"),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"setline {VERSION}")
    subparsers = parser.add_subparsers(metavar="COMMAND", required=True, title=say("cli-commands"))
    for name in COMMANDS:
        if name == called:
            import_module(f"setline.cli.{name}").add(subparsers)
        else:
            subparsers.add_parser(name, help=say(f"cli-{name}-help"))
    return parser


if __name__ == "__main__":
    sys.exit(main())
