"""``setline backup``, ``restore`` and ``export``: one file out, one file in, and every job as a file."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from tests.field_book.writing import SPOT, entry

from setline.cli.main import main
from setline.field_book.database import Database
from setline.field_book.folder import PHOTOS, default_store_url
from setline.field_book.photos import Photos
from setline.field_book.store import Store
from setline.field_book.transfer import import_job
from setline.job.read import load_job
from setline.job.write import to_dict, to_toml

MILL_ROW = load_job("examples/mill-row.toml")


@pytest.fixture
def site(tmp_path: Path) -> Path:
    """The folder of a store with a kitchen, and a job that has only begun."""
    folder = tmp_path / "site"
    database = Database(default_store_url(folder))
    store = Store(database, Photos(database, folder / PHOTOS))
    store.add(import_job(to_dict(MILL_ROW), "truck", job="mill", act="a"), made_at="1")
    store.add([entry(1, SPOT, "48", device="pad")], made_at="2")
    store.close()
    return folder


def test_a_backup_is_restored(site: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Out into one file and in at another place, and the same can be backed up again."""
    out = tmp_path / "one.backup"
    assert main(["backup", "--folder", str(site), "--out", str(out)]) == 0
    assert "2 jobs" in capsys.readouterr().out
    assert main(["restore", str(out), "--folder", str(tmp_path / "new")]) == 0
    assert capsys.readouterr().out.startswith("Restored 2 jobs")
    assert main(["backup", "--folder", str(tmp_path / "new"), "--out", str(tmp_path / "two"), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["ok"] is True
    assert told["jobs"] == 2


def test_a_file_that_is_there_is_left_alone(
    site: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A backup is written over another only when told."""
    out = tmp_path / "one.backup"
    out.write_text("mine")
    call = ["backup", "--folder", str(site), "--out", str(out)]
    assert main(call) == 2
    assert "--over" in capsys.readouterr().err
    assert out.read_text() == "mine"
    assert main([*call, "--over"]) == 0


def test_a_store_that_holds_something_is_kept_before_it_goes(
    site: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Without --replace nothing happens; with it, what was there lies in a file first."""
    out = tmp_path / "one.backup"
    main(["backup", "--folder", str(site), "--out", str(out)])
    assert main(["restore", str(out), "--folder", str(site)]) == 2
    assert "holds something" in capsys.readouterr().err
    assert main(["restore", str(out), "--folder", str(site), "--replace"]) == 0
    assert "before-restore" in capsys.readouterr().out
    (before,) = site.glob("before-restore-*.backup")
    assert main(["restore", str(before), "--folder", str(tmp_path / "old")]) == 0


@pytest.mark.parametrize("command", [["backup"], ["export", "out"]])
def test_a_store_that_is_not_there_is_not_made(
    command: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A mistyped folder is told; no empty store is made and taken for the real one."""
    assert main([*command, "--folder", str(tmp_path / "none"), "--json"]) == 2
    (told,) = json.loads(capsys.readouterr().out)["errors"]
    assert "no store" in told["text"]
    assert not (tmp_path / "none").exists()


def test_a_file_that_is_no_backup(site: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Any other file is refused with a sentence."""
    wrong = tmp_path / "notes.txt"
    wrong.write_text("notes")
    assert main(["restore", str(wrong), "--folder", str(tmp_path / "new")]) == 2
    assert "no backup" in capsys.readouterr().err


def test_every_job_is_written_out(site: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A whole job is its file again; one that has only begun is there by its entries, and is named."""
    into = tmp_path / "jobs"
    assert main(["export", str(into), "--folder", str(site)]) == 0
    assert "Not whole yet, so without a job file: j." in capsys.readouterr().out
    assert (into / "mill-row-mill.toml").read_text() == to_toml(MILL_ROW)
    (line,) = (into / "j.entries.jsonl").read_text().splitlines()
    assert json.loads(line)["value"] == "48"
    assert main(["export", str(into), "--folder", str(site)]) == 2
    assert "name another" in capsys.readouterr().err
