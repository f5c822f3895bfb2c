"""plan, why and packet from the command line, and the demonstration, on files."""

from __future__ import annotations

import json
import re
import subprocess
import sys
import time
from pathlib import Path
from xml.etree import ElementTree

import pytest
from tests.packet.read_back import sheets_of

from setline.cli import demo
from setline.cli.main import main
from setline.cli.progress import working_on
from setline.job.starter import starter
from setline.lengths import Units
from setline.version import VERSION

SAMPLES = Path(__file__).parents[2] / "examples"
Said = pytest.CaptureFixture[str]


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A small kitchen that fits."""
    path = tmp_path / "pear-tree-court.toml"
    path.write_text(starter("Pear Tree Court", Units.INCH), encoding="utf-8")
    return path


def test_plan_prints_the_line_and_each_wall(job: Path, capsys: Said) -> None:
    """``setline plan`` says in 80 columns what to strike and which walls fit."""
    assert main(["plan", str(job)]) == 0
    text = capsys.readouterr().out
    assert re.search(r"^STRIKE \d.* DOWN from the laser line of S1\.", text, flags=re.MULTILINE)
    assert re.search(r"^A base fits: \d+ boxes", text, flags=re.MULTILINE)
    assert max(len(line) for line in text.splitlines()) <= 80


def test_plan_as_json_is_the_plan_and_nothing_else(job: Path, capsys: Said) -> None:
    """``--json`` prints what docs/plan.md says, so that a program can read it."""
    assert main(["plan", str(job), "--json"]) == 0
    data = json.loads(capsys.readouterr().out)
    assert data["job_name"] == "Pear Tree Court"
    assert data["runs"][0]["marks"][0]["printed"]["ticks"] >= 0


def test_plan_writes_the_plan_and_every_drawing(job: Path, tmp_path: Path, capsys: Said) -> None:
    """``--out`` fills a folder: plan.json and an SVG for the floor, each wall and each run."""
    folder = tmp_path / "out" / "pear"
    assert main(["plan", str(job), "--out", str(folder)]) == 0
    names = {path.name for path in folder.iterdir()}
    assert {"plan.json", "floor.svg", "wall-A.svg", "shims-A.svg", "pole-A-base.svg"} <= names
    assert f"Wrote {len(names)} files into" in capsys.readouterr().out
    assert json.loads((folder / "plan.json").read_text(encoding="utf-8"))["format"] == 1
    for path in folder.glob("*.svg"):
        assert ElementTree.parse(path).getroot().tag.endswith("svg")


def test_why_answers_for_every_name(job: Path, capsys: Said) -> None:
    """Each name in plan.json can be asked about, with or without quotes, and answers as text and as JSON."""
    main(["plan", str(job), "--json"])
    names = list(json.loads(capsys.readouterr().out)["named"])
    assert len(names) > 20
    for name in (names[0], names[-1], *(name for name in names if name.startswith("A base 2"))):
        assert main(["why", str(job), *name.split()]) == 0
        assert capsys.readouterr().out.startswith(f"{name}: ")
        assert main(["why", str(job), name, "--json"]) == 0
        assert json.loads(capsys.readouterr().out)["name"] == name


def test_why_of_an_unknown_name_tells_the_nearest(job: Path, capsys: Said) -> None:
    """A name that is not in the plan ends with 2 and the names that look like it."""
    assert main(["why", str(job), "A bsae 2 left"]) == 2
    assert "A base 2 left" in capsys.readouterr().err
    assert main(["why", str(job), "A bsae 2 left", "--json"]) == 2
    assert "A base 2 left" in json.loads(capsys.readouterr().out)["errors"][0]["allowed"]


def test_packet_writes_a_pdf(
    job: Path, tmp_path: Path, capsys: Said, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without ``--out`` the packet stands in this folder, named after the job file."""
    monkeypatch.chdir(tmp_path)
    assert main(["packet", str(job)]) == 0
    made = (tmp_path / "pear-tree-court-packet.pdf").read_bytes()
    assert "Print it at 100 %." in capsys.readouterr().out
    assert "Pear Tree Court" in sheets_of(made)[0].text


def test_packet_obeys_paper_and_place(job: Path, tmp_path: Path) -> None:
    """``--paper``, ``--out`` and ``--no-story-pole`` are kept."""
    out = tmp_path / "site" / "sheets.pdf"
    assert main(["packet", str(job), "--paper", "a4", "--out", str(out), "--no-story-pole"]) == 0
    sheets = sheets_of(out.read_bytes())
    assert {round(sheet.width) for sheet in sheets} == {210, 297}
    assert not any("story pole" in sheet.text[:24] for sheet in sheets)


def test_the_demonstration_fills_a_folder_a_job(tmp_path: Path, capsys: Said) -> None:
    """``make demo`` plans both samples and writes packet, plan and drawings of each."""
    assert demo.main(tmp_path, SAMPLES) == 0
    said = capsys.readouterr().out
    assert said.startswith("Setline: planning 2 sample kitchens.")
    for name in ("larkspur-street", "mill-row"):
        files = {path.name for path in (tmp_path / name).iterdir()}
        assert {"packet.pdf", "plan.json", "floor.svg", "wall-A.svg"} <= files
    assert said.count("STRIKE") == 2


def test_the_demonstrations_first_line_waits_for_nothing_heavy() -> None:
    """Up to its first line the demonstration has imported neither numpy nor typst nor pydantic."""
    code = (
        "import sys, setline.cli.demo as demo; demo._one = lambda *_: None; demo.main();"
        "sys.exit(bool({'numpy', 'typst', 'pydantic'} & set(sys.modules)))"
    )
    assert subprocess.run([sys.executable, "-c", code], capture_output=True, check=False).returncode == 0


def test_a_demonstration_without_samples_says_so_with_its_exit_code(tmp_path: Path) -> None:
    """Where there is no sample, nothing was shown."""
    assert demo.main(tmp_path / "out", tmp_path) == 2


def test_work_of_over_a_second_says_what_it_is(capsys: Said, monkeypatch: pytest.MonkeyPatch) -> None:
    """A line goes to stderr once work has taken its time, and none where it was quick."""
    with working_on("Quick ..."):
        pass
    monkeypatch.setattr("setline.cli.progress.PATIENCE", 0.01)
    with working_on("Slow ..."):
        time.sleep(0.1)
    assert capsys.readouterr().err == "Slow ...\n"


def test_the_version_is_in_the_check_code(job: Path, capsys: Said, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two plans of one job by two versions bear two check codes, so that their sheets are told apart."""
    main(["plan", str(job), "--json"])
    before = json.loads(capsys.readouterr().out)["check_code"]
    monkeypatch.setattr("setline.stages.VERSION", VERSION + ".1")
    main(["plan", str(job), "--json"])
    assert json.loads(capsys.readouterr().out)["check_code"] != before
