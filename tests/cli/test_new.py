"""``setline new``: a file to start from, and nothing overwritten."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from setline.cli.main import main
from setline.cli.new import file_name
from setline.job.read import load_job


def test_a_new_job_is_written_under_its_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Without a file named it goes into this folder under the job's name."""
    monkeypatch.chdir(tmp_path)
    assert main(["new", "Pear Tree Court, No. 4"]) == 0
    assert "pear-tree-court-no-4.toml" in capsys.readouterr().out
    assert load_job("pear-tree-court-no-4.toml").job.name == "Pear Tree Court, No. 4"


def test_a_file_that_is_there_is_left_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A file of that name keeps every byte, and the call is wrong."""
    path = tmp_path / "mine.toml"
    path.write_text("mine")
    assert main(["new", "x", "--out", str(path)]) == 2
    assert "is there already and is left alone" in capsys.readouterr().err
    assert path.read_text() == "mine"


def test_a_new_job_told_as_json(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A program is told which file was written."""
    path = tmp_path / "a.toml"
    assert main(["new", "x", "--tape", "metric", "--out", str(path), "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == {"ok": True, "wrote": str(path)}
    assert load_job(path).job.tape == "metric"


@pytest.mark.parametrize(
    ("job", "file"),
    [
        ("Quay 7", "quay-7.toml"),
        ("../../etc/passwd", "etc-passwd.toml"),
        ("Küche", "küche.toml"),
        ("...", "job.toml"),
        ("a" * 80, "a" * 60 + ".toml"),
    ],
)
def test_a_job_gives_a_plain_file_name(job: str, file: str) -> None:
    """A file's name holds letters, digits and dashes, whatever the job is called."""
    assert file_name(job) == file
