"""The command line as a whole: help, exit codes, and one way of telling what is wrong."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from setline.cli.main import COMMANDS, main
from setline.job.starter import starter
from setline.lengths import Units
from setline.version import VERSION

ERROR_KEYS = ["where", "given", "allowed", "example", "line", "text"]


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job file that is right."""
    path = tmp_path / "pear-tree-court.toml"
    path.write_text(starter("Pear Tree Court", Units.INCH))
    return path


@pytest.fixture
def broken(job: Path) -> Path:
    """A job file with two faults."""
    text = job.read_text().replace('width = "33"', "width = 33.5")
    job.write_text(text.replace('kind = "base"', 'kind = "bas"', 1))
    return job


def test_help_lists_every_command_with_its_line(capsys: pytest.CaptureFixture[str]) -> None:
    """``setline --help`` names each command in a line, gives examples, and says what exit codes mean."""
    with pytest.raises(SystemExit) as done:
        main(["--help"])
    text = capsys.readouterr().out
    assert done.value.code == 0
    for name in COMMANDS:
        assert f"    {name} " in text
    assert "examples:" in text
    assert "exit codes:" in text


@pytest.mark.parametrize("command", COMMANDS)
def test_each_command_has_help_with_examples(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    """``--help`` of a command says what it does and shows calls that can be copied."""
    with pytest.raises(SystemExit) as done:
        main([command, "--help"])
    text = capsys.readouterr().out
    assert done.value.code == 0
    assert "examples:" in text
    assert f"  setline {command}" in text
    assert max(map(len, text.split("\n"))) <= 100


def test_a_bare_call_shows_the_help_and_is_wrong(capsys: pytest.CaptureFixture[str]) -> None:
    """``setline`` alone prints the help where faults go."""
    assert main([]) == 2
    assert "commands:" in capsys.readouterr().err


def test_the_version_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """``--version`` prints the version that the check code counts in."""
    with pytest.raises(SystemExit):
        main(["--version"])
    assert capsys.readouterr().out == f"setline {VERSION}\n"


def test_a_command_that_is_not_there_gets_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    """A slip in the command's name is answered with the command that was likely meant."""
    assert main(["chek", "x.toml"]) == 2
    assert capsys.readouterr().err == "COMMAND: there is no command chek\nsetline check\n"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (["check"], "setline check: the following arguments are required: JOB"),
        (["check", "no.toml"], "no.toml: read no file of that name; the path of a job file is wanted"),
        (["check", "."], ".: read a folder; the path of a job file is wanted"),
        (["new", "x", "--tape", "yard"], "setline new: argument --tape"),
        (["new", "x" * 81, "--out", "none.toml"], "job.name (line 11): read"),
        (
            ["new", "a\udcff", "--out", "none.toml"],
            "a text holds letters, digits and signs that can be printed",
        ),
        (
            ["new", "x", "--out", "no/such/folder/x.toml"],
            "no/such/folder/x.toml: it cannot be opened or written",
        ),
        (["rules", "no", "such", "words"], "WORD: no rule has these words in it"),
        (["rules", "--job", "no.toml"], "no.toml: read no file of that name"),
    ],
)
def test_a_wrong_call_is_told_and_ends_with_two(
    typed: list[str],
    said: str,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Whatever is wrong with a call is one line on stderr, the same in JSON's one shape, and exit code 2."""
    monkeypatch.chdir(tmp_path)
    assert main(typed) == 2
    told = capsys.readouterr()
    assert said in told.err
    assert told.out == ""
    assert main([*typed, "--json"]) == 2
    told = capsys.readouterr()
    answer = json.loads(told.out)
    assert told.err == ""
    assert answer["ok"] is False
    assert all(list(error) == ERROR_KEYS for error in answer["errors"])
    assert said in answer["errors"][0]["text"]
    assert list(tmp_path.iterdir()) == []


def test_every_fault_of_a_file_is_told(broken: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """All faults come at once, each with its line, counted at the end; as JSON each with its parts."""
    assert main(["check", str(broken)]) == 2
    lines = capsys.readouterr().err.splitlines()
    assert lines[0].startswith("order.boxes[0].kind (line ")
    assert lines[1].startswith("order.boxes[1].width (line ")
    assert lines[2] == "2 things to mend; nothing was planned."
    assert main(["check", str(broken), "--json"]) == 2
    errors = json.loads(capsys.readouterr().out)["errors"]
    assert [error["where"] for error in errors] == ["order.boxes[0].kind", "order.boxes[1].width"]
    assert errors[1]["example"] == 'width = "33.5"'
    assert errors[1]["line"] > errors[0]["line"] > 0


def test_a_rule_that_is_not_there_is_told(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A job that overrides a rule of no such name is refused by that name."""
    job.write_text(job.read_text() + '\n[rules]\ntoe-lines = "21"\n')
    assert main(["check", str(job), "--json"]) == 2
    [error] = json.loads(capsys.readouterr().out)["errors"]
    assert error["where"] == "rules.toe-lines"
    assert "toe-line" in error["text"]


def test_a_mark_that_is_not_there_is_told_in_the_one_shape(
    job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """``why`` of a name that the plan does not have is refused as everything else is."""
    assert main(["why", str(job), "A", "bse", "3", "left", "--json"]) == 2
    [error] = json.loads(capsys.readouterr().out)["errors"]
    assert error["example"] == "A base 3 left"


def test_a_reader_that_goes_away_leaves_no_traceback() -> None:
    """Output into a pipe that closes early ends quietly."""
    with subprocess.Popen(
        [sys.executable, "-m", "setline.cli.main", "schema"], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as program:
        assert program.stdout is not None
        assert program.stderr is not None
        program.stdout.close()
        assert program.stderr.read() == b""
    assert program.returncode == 0


def test_a_terminal_of_few_letters_still_gets_every_line(tmp_path: Path) -> None:
    """Where the terminal knows only plain letters, others are written as numbers, not refused."""
    path = tmp_path / "a.toml"
    path.write_text(starter("Küche 厨房", Units.METRIC), encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "setline.cli.main", "check", str(path)],
        capture_output=True,
        check=False,
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
    )
    assert done.returncode == 0
    assert done.stdout.startswith(b"K\\xfcche")


def test_a_call_imports_only_its_own_command() -> None:
    """A word of help waits for nothing heavy."""
    code = (
        "import sys\nfrom setline.cli.main import main\n"
        "try: main(['--help'])\n"
        "except SystemExit: pass\n"
        "sys.exit(str(sorted({'pydantic', 'numpy', 'setline.job.job'} & set(sys.modules))))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.stderr.strip() == "[]"
