"""Files stand at addresses that hold their content: no page mixes old scripts with new HTML."""

from __future__ import annotations

import re
from importlib import resources
from pathlib import Path

import pytest

from setline.web import assets
from setline.web.assets import asset, content, digest_of
from tests.web.app import EXAMPLES, App, open_app

SCRIPTS = sorted(
    file.name for file in (resources.files("setline.web") / "static").iterdir() if file.name.endswith(".js")
)
LARGEST_SCRIPT = 12 * 1024


@pytest.fixture
def app(tmp_path: Path) -> App:
    """Return an app."""
    return open_app(tmp_path, EXAMPLES / "larkspur-street.toml")


@pytest.mark.parametrize("name", SCRIPTS)
def test_a_script_names_others_by_their_content(name: str) -> None:
    """A script imports each other by the address of that very content; it is small enough to be read."""
    given = (content(name) or b"").decode()
    imported = re.findall(r'(?:from|import)\s+"([^"]+)"', given)
    assert all(re.fullmatch(r"/static/[0-9a-f]{10}/[a-z-]+\.js", address) for address in imported)
    assert all(address == asset(address.rpartition("/")[2]) for address in imported)
    assert len(given) <= LARGEST_SCRIPT


def _forget() -> None:
    """Let files and their addresses be read anew."""
    content.cache_clear()
    digest_of.cache_clear()


def test_changing_a_script_changes_the_address_of_all_that_use_it(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The digest is of the script with the addresses in it, so a change goes all the way up."""
    before = {name: digest_of(name) for name in SCRIPTS}
    for name in SCRIPTS:
        (tmp_path / name).write_bytes((assets._STATIC / name).read_bytes())
    with (tmp_path / "tape.js").open("a", encoding="utf-8") as file:
        file.write("// an upgrade\n")
    monkeypatch.setattr(assets, "_STATIC", tmp_path)
    _forget()
    after = {name: digest_of(name) for name in SCRIPTS}
    monkeypatch.undo()
    _forget()
    changed = {name for name in SCRIPTS if before[name] != after[name]}
    assert {"tape.js", "keypad.js", "blade.js", "walk.js"} <= changed
    assert changed.isdisjoint({"page.js", "queue.js", "worker.js"})


def test_an_old_address_gives_no_new_file(app: App) -> None:
    """A page from before an upgrade finds its own scripts in the phone's store, or none."""
    assert app.client.get(asset("page.js")).status_code == 200
    assert app.client.get("/static/0000000000/page.js").status_code == 404
    assert app.client.get("/static/0000000000/no-such.js").status_code == 404
    assert app.client.get(f"/static/{digest_of('page.js')}/..%2fapp.py").status_code == 404


def test_files_may_be_kept_for_ever_and_the_worker_is_always_asked_for(app: App) -> None:
    """The worker decides what is kept, so its own age must never be decided by a cache."""
    assert "immutable" in app.client.get(asset("page.js")).headers["cache-control"]
    worker = app.client.get("/worker.js")
    assert worker.headers["cache-control"] == "no-cache"
    assert worker.headers["content-type"].startswith("text/javascript")


@pytest.mark.parametrize("page", ["", "/walk", "/readings", "/room", "/carry"])
def test_every_file_a_page_names_is_there(app: App, page: str) -> None:
    """No page asks for a file that is not served."""
    addresses = set(re.findall(r'(?:src|href)="(/static/[^"]+)"', app.get(page)))
    assert addresses
    assert {app.client.get(address).status_code for address in addresses} == {200}
