"""``setline check``: the verdict, the findings, the exit code."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from setline.cli.main import main
from setline.job.starter import starter
from setline.lengths import Units


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job file that nothing stops."""
    path = tmp_path / "pear-tree-court.toml"
    path.write_text(starter("Pear Tree Court", Units.INCH))
    return path


@pytest.mark.parametrize("tape", list(Units))
def test_a_starter_plans_as_it_stands(
    tape: Units, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What ``setline new`` writes has nothing that stops, and nothing to decide."""
    path = tmp_path / "new.toml"
    assert main(["new", "Pear Tree Court", "--tape", tape, "--out", str(path)]) == 0
    capsys.readouterr()
    assert main(["check", str(path), "--json"]) == 0
    findings = json.loads(capsys.readouterr().out)["findings"]
    assert {finding["rank"] for finding in findings} <= {"watch", "note"}


def test_the_verdict_stands_first(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The first line says whether something stops; then every finding is numbered."""
    assert main(["check", str(job)]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("Pear Tree Court: nothing stops. ")
    assert lines[2].startswith("1 ")
    assert max(map(len, lines)) <= 80


def test_a_stop_ends_with_one(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A run that is too short stops, is told first, and is exit code 1; as JSON it is counted."""
    job.write_text(job.read_text().replace('width = "33"', 'width = "39"'))
    assert main(["check", str(job)]) == 1
    assert capsys.readouterr().out.startswith("Pear Tree Court: STOP, ")
    assert main(["check", str(job), "--json"]) == 1
    answer = json.loads(capsys.readouterr().out)
    assert answer["ok"] is True
    assert answer["stops"] >= 1
    assert answer["findings"][0]["rank"] == "stop"
    assert len(answer["check_code"]) == 6
