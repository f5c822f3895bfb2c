"""The examples in docstrings."""

from __future__ import annotations

import doctest
from importlib import import_module
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
WITH_EXAMPLES = sorted(
    path.relative_to(ROOT / "src")
    for path in (ROOT / "src" / "setline").rglob("*.py")
    if ">>> " in path.read_text(encoding="utf-8")
)


@pytest.mark.parametrize("path", WITH_EXAMPLES, ids=str)
def test_an_example_gives_what_it_says(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each example is run as it stands, from the project's folder, and gives the answer beside it."""
    monkeypatch.chdir(ROOT)
    module = import_module(".".join(path.with_suffix("").parts).removesuffix(".__init__"))
    result = doctest.testmod(module)
    assert result.attempted > 0
    assert result.failed == 0
