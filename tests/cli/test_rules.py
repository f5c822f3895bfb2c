"""``setline rules`` and ``setline schema``."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from setline.cli.main import main
from setline.job.schema import job_schema
from setline.job.starter import starter
from setline.lengths import Units
from setline.rules import RULES


def test_every_rule_is_listed_with_its_source(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a word all rules are there, in 80 columns, each with where it comes from."""
    assert main(["rules"]) == 0
    text = capsys.readouterr().out
    assert max(map(len, text.split("\n"))) <= 80
    plain = " ".join(text.split())
    for rule in RULES:
        assert f"\n{rule.id}: " in f"\n{text}"
        assert " ".join(rule.source.split()) in plain


def test_words_narrow_the_list(capsys: pytest.CaptureFixture[str]) -> None:
    """Only rules that have every word are shown."""
    assert main(["rules", "SHIM", "limit"]) == 0
    text = capsys.readouterr().out
    assert "shim-limit: 3/4 in" in text
    assert "toe-line" not in text


def test_a_metric_tape_shows_metric_values(capsys: pytest.CaptureFixture[str]) -> None:
    """On a metric tape a rule shows the value that a metric job works by."""
    assert main(["rules", "base-height", "--tape", "metric"]) == 0
    assert capsys.readouterr().out.startswith("base-height: 870 mm")


def test_a_job_shows_its_own_values(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What a job overrides is shown as this job's, in its own units, also as JSON."""
    path = tmp_path / "a.toml"
    path.write_text(starter("x", Units.INCH) + '\n[rules]\nshim-limit = "5/8"\n')
    assert main(["rules", "shim-limit", "--job", str(path)]) == 0
    assert capsys.readouterr().out.startswith("shim-limit: 5/8 in")
    assert main(["rules", "shim-limit", "--job", str(path), "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["ok"] is True
    assert answer["rules"][0]["kind"] == "this job"
    assert answer["rules"][0]["ticks"] == 5 * 65_024 // 8


def test_the_schema_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    """``setline schema`` prints the published form, with or without ``--json``."""
    for typed in (["schema"], ["schema", "--json"]):
        assert main(typed) == 0
        assert json.loads(capsys.readouterr().out) == job_schema()
