"""The arrows of docs/architecture.md, checked: a folder imports only what its row allows."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "src" / "setline"
BASE = {"lengths", "errors", "wording"}
FACE = {""}  # the package itself: load_job, plan and doubts, as anybody imports them
DATA = BASE | {"job", "rules", "result"}
MAY_IMPORT = {
    "lengths": {"errors", "wording"},
    "errors": set(),
    "wording": set(),
    "result": {"lengths"},
    "rules": {"lengths", "errors"},
    "job": {"lengths", "errors", "wording"},
    "stages": DATA | {"version"},
    "odds": DATA | {"stages"},
    "told": BASE | {"result"},
    "drawings": BASE | {"result"},
    "packet": BASE | {"result", "job", "rules", "told", "drawings"},
    "version": set(),
    "field_book": DATA | {"version"},
    "web": FACE | DATA | {"version", "stages", "odds", "told", "drawings", "packet", "field_book"},
    "cli": FACE | DATA | {"version", "stages", "odds", "told", "drawings", "packet", "field_book", "web"},
}
CORE = {"lengths", "errors", "wording", "result", "rules", "job", "stages", "odds"}
OUTSIDE_WORLD = {"os", "io", "sqlite3", "socket", "subprocess", "logging", "time", "random", "sys", "shutil"}


def _imports(path: Path) -> Iterator[str]:
    """Yield the dotted name of every module that a file imports, anywhere in it."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path.name}: name the whole module"
            yield node.module or ""


def _part(path: Path) -> str:
    """Return the folder or file of the package's top that a file belongs to."""
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


FILES = sorted(path for path in PACKAGE.rglob("*.py") if path != PACKAGE / "__init__.py")


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_arrows_point_inwards(path: Path) -> None:
    """A part of the house imports only the parts its row allows."""
    part = _part(path)
    for name in _imports(path):
        root, _, rest = name.partition(".")
        if root == "setline" and part != "__init__":
            other = rest.split(".")[0]
            assert other in MAY_IMPORT[part] | {part}, f"{part}/ may not import {other}"


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_the_core_reaches_nothing_outside(path: Path) -> None:
    """Engine files open no file, ask no clock and start nothing."""
    if _part(path) not in CORE or path.name in {"read.py"}:
        return
    tree = ast.parse(path.read_text(encoding="utf-8"))
    for name in _imports(path):
        assert name.split(".")[0] not in OUTSIDE_WORLD | {"pathlib"}, f"{path.name} imports {name}"
    calls = [
        node.func.id
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    ]
    assert not {"open", "print"} & set(calls), f"{path.name} opens or prints"
