"""What the source says in quotes: words given to calls, and every word at all."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

PACKAGE = Path(__file__).parents[1] / "src" / "setline"


def trees(*, without: str = "") -> Iterator[tuple[Path, ast.Module]]:
    """Yield every file of the package with its syntax, one folder or file left out."""
    for path in sorted(PACKAGE.rglob("*.py")):
        if not without or path.relative_to(PACKAGE).parts[0] != without:
            yield path, ast.parse(path.read_text(encoding="utf-8"))


def words_in(node: ast.AST) -> Iterator[str]:
    """Yield every text in quotes below a node."""
    for below in ast.walk(node):
        if isinstance(below, ast.Constant) and isinstance(below.value, str):
            yield below.value


def all_words(*, without: str = "") -> set[str]:
    """Return every text in quotes of the package, one folder left out."""
    return {word for _, tree in trees(without=without) for word in words_in(tree)}


def calls(*names: str, without: str = "") -> Iterator[ast.Call]:
    """Yield every call of a function, class or method of these names."""
    for _, tree in trees(without=without):
        for node in ast.walk(tree):
            if isinstance(node, ast.Call):
                called = node.func
                name = called.attr if isinstance(called, ast.Attribute) else getattr(called, "id", "")
                if name in names:
                    yield node


def call_words(name: str, keyword: str) -> set[str]:
    """Return the texts in quotes that calls of a name give for a keyword, choices within it included."""
    return {
        word
        for call in calls(name)
        for given in call.keywords
        if given.arg == keyword
        for word in words_in(given.value)
    }
