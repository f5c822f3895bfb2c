"""The documents: links lead somewhere, every field, code and rule is written down, examples hold."""

from __future__ import annotations

import ast
import inspect
import re
import tomllib
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest

from setline.job.fields import Model
from setline.rules import RULES
from setline.wording import SENTENCES
from tests.source_words import all_words, call_words, trees, words_in

ROOT = Path(__file__).parents[1]
DOCS = sorted([*ROOT.glob("*.md"), *ROOT.glob("docs/**/*.md")])
_TELLERS = ("one_row", "two_rows", "listed")
JOB_FILES = ("job", "room", "floor", "order", "runs", "tools", "record", "fields")
PROSE = (*DOCS, *sorted(ROOT.glob("examples/*.toml")), *sorted((ROOT / "src").rglob("*.py")))


def _page(name: str) -> str:
    """Return a page of the documents."""
    return (ROOT / "docs" / name).read_text(encoding="utf-8")


@pytest.mark.parametrize("path", DOCS, ids=lambda path: str(path.relative_to(ROOT)))
def test_links_between_documents_lead_somewhere(path: Path) -> None:
    """Every link to a file of this project names one that is there."""
    text = re.sub(r"```.*?```", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
    for target in re.findall(r"\]\(([^)#]+)(?:#[^)]*)?\)", text):
        if "://" not in target:
            assert (path.parent / target).exists(), f"{path.name} links to {target}"


def test_every_document_is_reached_from_the_readme() -> None:
    """A page that nothing links to would not be found."""
    seen, waiting = set(), [ROOT / "README.md"]
    while waiting:
        page = waiting.pop().resolve()
        if page in seen:
            continue
        seen.add(page)
        if page.is_dir():
            waiting += page.glob("*.md")
        elif page.suffix == ".md":
            links = re.findall(r"\]\(([^)#:]+)(?:#[^)]*)?\)", page.read_text(encoding="utf-8"))
            waiting += [page.parent / link for link in links]
    assert {path.resolve() for path in DOCS} <= seen


@pytest.mark.parametrize("path", PROSE, ids=lambda path: str(path.relative_to(ROOT)))
def test_nothing_names_a_machine(path: Path) -> None:
    """No page, example or source file names a folder of a machine, or a host that packages come from."""
    text = path.read_text(encoding="utf-8")
    assert not re.search(r"(?<![\w.])/(?:work|tmp|home|root|Users)/", text)
    assert not re.search(r"pypi\.|pythonhosted|npmjs", text)


def _models() -> Iterator[tuple[str, type[Model]]]:
    """Yield every model of the job with its name."""
    for file in JOB_FILES:
        module = import_module(f"setline.job.{file}")
        for name, thing in vars(module).items():
            if inspect.isclass(thing) and issubclass(thing, Model) and thing.__module__ == module.__name__:
                yield name, thing


@pytest.mark.parametrize(("name", "model"), [each for each in _models() if each[0] != "Model"])
def test_every_field_of_the_job_is_written_down(name: str, model: type[Model]) -> None:
    """One table of docs/job-file.md has exactly the model's fields, needed ones said to be needed."""
    tables = re.findall(r"\| field \| what it is \|\n\|---\|---\|\n((?:\|.*\n)+)", _page("job-file.md"))
    rows = [re.findall(r"^\| `(\w+)`( \(needed\))? \|", table, flags=re.MULTILINE) for table in tables]
    wanted = {field.alias or key: field.is_required() for key, field in model.model_fields.items()}
    told = [{key: bool(needed) for key, needed in table} for table in rows]
    assert wanted in told, f"{name} has {wanted}"


def test_the_examples_of_the_job_file_are_one_job_that_plans() -> None:
    """The examples on the page, put together in order, are read and planned, and nothing stops them."""
    from setline import plan
    from setline.job.read import read_job
    from setline.result import Rank

    text = "".join(re.findall(r"```toml\n(.*?)```", _page("job-file.md"), flags=re.DOTALL))
    assert tomllib.loads(text)["job"]["name"] == "Fern Close"
    kitchen = plan(read_job(text, "toml"))
    assert all(run.solved for run in kitchen.runs)
    assert [finding.text for finding in kitchen.findings if finding.rank is Rank.STOP] == []


def test_every_finding_code_is_written_down() -> None:
    """docs/findings.md lists every code that a finding can bear, and none that the source never names."""
    written = set(re.findall(r"^\| `([a-z0-9-]+)` \|", _page("findings.md"), flags=re.MULTILINE))
    assert _codes() - written == set()
    assert written - all_words() == set()


def _codes() -> set[str]:
    """Return every code in the source: given to a finding, kept in a name `code`, or told beside its text."""
    found = call_words("Finding", "code")
    for path, tree in trees(without="wording"):
        for node in ast.walk(tree):
            if isinstance(node, ast.Assign | ast.For) and "code" in _bound(node):
                found |= set(words_in(node.value if isinstance(node, ast.Assign) else node.iter))
            if path.stem == "tell" and isinstance(node, ast.FunctionDef) and node.name in _TELLERS:
                returns = (below.value for below in ast.walk(node) if isinstance(below, ast.Return))
                found |= {
                    word for told in returns if isinstance(told, ast.Tuple) for word in words_in(told.elts[0])
                }
    clearances = {key.removeprefix("clearance-") for key in SENTENCES if key.startswith("clearance-")}
    return (found - {rule.id for rule in RULES}) | clearances


def _bound(node: ast.Assign | ast.For) -> set[str]:
    """Return the names that a statement binds."""
    targets = node.targets if isinstance(node, ast.Assign) else [node.target]
    return {name.id for target in targets for name in ast.walk(target) if isinstance(name, ast.Name)}


def test_every_published_source_is_written_down() -> None:
    """The text of every published check begins with a source that docs/sources.md lists, and each is used."""
    table = _page("sources.md").partition("## Published")[2].partition("\n## ")[0]
    listed = re.findall(r"^\| (.+?) \|", table, flags=re.MULTILINE)[1:]
    texts = list(_published())
    assert [text for text in texts if not text.startswith(tuple(listed))] == []
    assert [source for source in listed if not any(text.startswith(source) for text in texts)] == []


def _published() -> Iterator[str]:
    """Yield the text of every mark of a published check."""
    for path in sorted((ROOT / "tests" / "published").glob("test_*.py")):
        for thing in vars(import_module(f"tests.published.{path.stem}")).values():
            for mark in getattr(thing, "pytestmark", ()):
                if mark.name == "published":
                    yield mark.args[0]


def test_the_arrows_of_the_architecture_page_are_the_tested_ones() -> None:
    """The table of imports in docs/architecture.md has a row for every part that the test knows."""
    from tests.test_architecture import MAY_IMPORT

    page = _page("architecture.md")
    missing = [part for part in MAY_IMPORT if not re.search(rf"^\| {part} \|", page, flags=re.MULTILINE)]
    assert missing == []
