"""A plugin for pytest that counts the checks that hold: by kind of evidence, and by source within a kind.

One check is one test of one clause, table or example: a test that runs over several values counts once. The
source is the text of its mark before the colon; what follows the colon says which clause or example it was.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Generator

import pytest

KINDS = {
    "published": "published: the value stands in the source",
    "arithmetic": "arithmetic: worked out again, apart from the code",
    "from_memory": "from memory: does not count as published",
    "common_practice": "common practice: a fact of the trade",
}

_ran: dict[str, set[tuple[str, str]]] = defaultdict(set)
_failed: set[str] = set()


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Keep the tests that carry a kind of evidence, wherever they stand."""
    kept = [item for item in items if any(item.get_closest_marker(kind) for kind in KINDS)]
    config.hook.pytest_deselected(items=[item for item in items if item not in set(kept)])
    items[:] = kept


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(
    item: pytest.Item, call: pytest.CallInfo[None]
) -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Note for each test that ran what its mark names, and whether it held."""
    report = yield
    if call.when == "call":
        test = item.nodeid.partition("[")[0]
        for kind in KINDS:
            for mark in item.iter_markers(kind):
                _ran[kind].add((test, str(mark.args[0]) if mark.args else kind.replace("_", " ")))
        if report.failed:
            _failed.add(test)
    return report


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print each kind with its number of checks, and each source with its own."""
    for kind, title in KINDS.items():
        checks = {(test, source) for test, source in _ran[kind] if test not in _failed}
        terminalreporter.write_line(f"\n{len(checks):4} {title}")
        by_source = Counter(source.partition(":")[0] for _, source in checks)
        for source, count in sorted(by_source.items()):
            terminalreporter.write_line(f"    {count:4} {source}")
    if _failed:
        terminalreporter.write_line(f"\n{len(_failed):4} do not hold and are not counted")
