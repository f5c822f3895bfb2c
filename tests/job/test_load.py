"""Files on disk: what cannot be opened is told, and what can is read by its name."""

from __future__ import annotations

from pathlib import Path

import pytest

from setline.errors import JobFileError
from setline.job.read import load_job
from setline.job.starter import starter
from setline.job.write import to_json
from setline.lengths import Units

WANTED = "the path of a job file is wanted; `setline new` writes one to start from."


def _refusal(path: Path | str) -> str:
    """Return what is said of a path."""
    with pytest.raises(JobFileError) as refused:
        load_job(path)
    return str(refused.value)


def test_a_file_is_read_by_its_ending(tmp_path: Path) -> None:
    """A file that ends in .json holds JSON, any other TOML, with or without a byte order mark."""
    toml, other, json = tmp_path / "a.toml", tmp_path / "a.job", tmp_path / "a.JSON"
    toml.write_text(starter("Test room", Units.INCH))
    other.write_bytes(b"\xef\xbb\xbf" + toml.read_bytes())
    json.write_text(to_json(load_job(toml)))
    assert load_job(toml) == load_job(other) == load_job(str(json))


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    """A missing file, also below something that is no folder, is told by its path."""
    path = tmp_path / "none.toml"
    assert _refusal(path) == f"{path}: read no file of that name; {WANTED}"
    path.write_text("")
    assert _refusal(path / "x") == f"{path / 'x'}: read no file of that name; {WANTED}"


def test_a_folder_is_told(tmp_path: Path) -> None:
    """A folder is no job file."""
    assert _refusal(tmp_path) == f"{tmp_path}: read a folder; {WANTED}"


def test_a_file_that_may_not_be_read_is_told(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A file that the system does not give out is told as such."""

    def locked(self: Path, mode: str) -> None:
        raise PermissionError(13, mode)

    monkeypatch.setattr(Path, "open", locked)
    assert _refusal(tmp_path) == f"{tmp_path}: read a file that may not be read; {WANTED}"


def test_a_path_that_no_system_takes_is_told() -> None:
    """A path with a zero byte, or one of odd bytes, is told without a traceback."""
    assert _refusal("a\0b") == f"a\0b: read a file that cannot be read; {WANTED}"
    assert _refusal("nothing-\udcff") == f"nothing-?: read no file of that name; {WANTED}"
