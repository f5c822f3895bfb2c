"""docs/first-kitchen.md, done as it says: its commands, its changes to the file, the lines that come back."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest

from setline.cli.main import main

PAGE = Path(__file__).parents[1] / "docs" / "first-kitchen.md"
BLOCKS = re.compile(r"```(console|diff)\n(.*?)```", flags=re.DOTALL)


def _changed(text: str, block: str) -> str:
    """Return a file's text with a block's lines taken out and put in; what goes out stands there once."""
    lines = block.splitlines()
    out = "".join(line[1:] + "\n" for line in lines if line.startswith("-"))
    into = "".join(line[1:] + "\n" for line in lines if line.startswith("+"))
    assert text.count(out) == 1, f"stands {text.count(out)} times in the file:\n{out}"
    return text.replace(out, into)


def _told(block: str) -> tuple[list[str], list[str]]:
    """Return a block's command as words, and the lines that come back."""
    command, *back = block.splitlines()
    assert command.startswith("$ setline "), command
    words = shlex.split(command)[2:]
    return words, [line.strip() for line in back if line.strip() != "..."]


def test_the_tutorial_runs_as_it_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Each command gives back every line that the page shows, and the packet is there at the end."""
    monkeypatch.chdir(tmp_path)
    job = tmp_path / "alder-court.toml"
    for kind, block in BLOCKS.findall(PAGE.read_text(encoding="utf-8")):
        if kind == "diff":
            job.write_text(_changed(job.read_text(encoding="utf-8"), block), encoding="utf-8")
            continue
        words, back = _told(block)
        main(words)
        printed = capsys.readouterr()
        came = {line.strip() for line in (printed.out + printed.err).splitlines()}
        assert [line for line in back if line not in came] == [], f"setline {' '.join(words)}"
    assert (tmp_path / "alder-court-packet.pdf").read_bytes().startswith(b"%PDF-")


def test_the_commands_of_the_readme_are_commands(capsys: pytest.CaptureFixture[str]) -> None:
    """Every `setline <command>` that the README names tells its own use."""
    text = (PAGE.parents[1] / "README.md").read_text(encoding="utf-8")
    commands = set(re.findall(r"setline (new|check|plan|why|packet|rules|schema)\b", text))
    assert {"new", "check", "plan", "why", "packet", "rules"} <= commands
    for command in commands:
        with pytest.raises(SystemExit):
            main([command, "--help"])
        assert "examples:" in capsys.readouterr().out
