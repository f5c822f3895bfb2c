"""Reading a job: TOML or JSON, the tape first, and everything that is wrong with it at once.

The same document can be a TOML file, a JSON file or tables in Python. Whatever is given, what comes back is a
``Job`` or one ``JobFileError`` with every fault; no file, however broken, ends in anything else.
"""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Literal

from pydantic import ValidationError

from setline.errors import Fault, JobFileError
from setline.job.checks import check_document
from setline.job.document import NOTHING, Wrong, clean, section, ticks_at
from setline.job.faults import refusal, wrong_by_model
from setline.job.job import Job
from setline.job.toml_lines import lines_of
from setline.lengths import Tape, Units, crew_tape
from setline.wording import say

__all__ = ["GREATEST_SIZE", "job_from_dict", "load_job", "read_job"]

GREATEST_SIZE = 2_000_000
"""The largest file that is read, in bytes."""

_LONGEST_KEY = re.compile(r"(?<![\w\"'-])(?:[\w\"'-]++[ \t]*+\.[ \t]*+){20}")
"""Twenty keys in one: no job has them, and the standard library slows down by their square."""


def load_job(path: str | Path) -> Job:
    """Return the job of a file.

    Args:
        path: A file that ends in ``.json``, or else holds TOML.

    Raises:
        JobFileError: The file cannot be read, or has faults; it carries all of them.
    """
    path = Path(path)
    try:
        with path.open("rb") as file:
            content = file.read(GREATEST_SIZE + 1)
    except (OSError, ValueError) as trouble:  # ValueError: a path that holds a zero byte
        raise _no_file(path, trouble) from None
    return read_job(content, "json" if path.suffix.lower() == ".json" else "toml")


def read_job(content: str | bytes, form: Literal["toml", "json"] = "toml") -> Job:
    """Return the job of a document.

    Raises:
        JobFileError: It is no TOML or JSON, or has faults; it carries all of them.
    """
    text = _text(content)
    job, wrong = _read(_json(text) if form == "json" else _toml(text))
    if job is None:
        raise refusal(wrong, lines_of(text) if form == "toml" else {})
    return job


def job_from_dict(data: Mapping[str, Any]) -> Job:
    """Return the job of a document in tables, as TOML and JSON give them.

    Raises:
        JobFileError: It has faults; it carries all of them.
    """
    job, wrong = _read(data)
    if job is None:
        raise refusal(wrong, {})
    return job


def _read(data: object) -> tuple[Job | None, list[Wrong]]:
    """Return the job of a document, or None and everything that is wrong with it."""
    document, wrong = clean(data)
    if document is NOTHING:
        return None, wrong
    tape = _tape(document)
    job: Job | None = None
    try:
        job = Job.model_validate(document, context={"tape": tape or Tape()})
    except ValidationError as error:
        wrong += wrong_by_model(error, document, tape)
    wrong += check_document(document, tape)
    return (None if wrong else job), wrong


def _tape(document: object) -> Tape | None:
    """Return the crew's tape, read before any length; None where the job does not say which it is."""
    about = section(document, "job")
    named = about.get("tape")
    if not isinstance(named, str) or named not in set(Units):
        return None
    units = Units(named)
    return crew_tape(units, ticks_at(about.get("strong"), crew_tape(units)))


# --- texts ----------------------------------------------------------------------------------------------


def _file_fault(given: str, allowed: str, *, where: str = "", line: int | None = None) -> JobFileError:
    """Return the refusal of a whole file."""
    fault = Fault(where=where or say("fault-where-file"), given=given, allowed=allowed, example="", line=line)
    return JobFileError((fault,))


def _no_file(path: Path, trouble: Exception) -> JobFileError:
    """Return the refusal of a file that cannot be opened."""
    where = str(path).encode("utf-8", "replace").decode()
    keys: dict[type[Exception], str] = {
        FileNotFoundError: "file-missing",
        IsADirectoryError: "file-is-folder",
        NotADirectoryError: "file-missing",
        PermissionError: "file-locked",
    }
    return _file_fault(say(keys.get(type(trouble), "file-unreadable")), say("file-wanted"), where=where)


def _text(content: str | bytes) -> str:
    """Return the text of a file."""
    if len(content) > GREATEST_SIZE:
        raise _file_fault(say("file-size"), say("file-smaller", most=GREATEST_SIZE // 1_000_000))
    if isinstance(content, str):
        return content
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as trouble:
        line = content.count(b"\n", 0, trouble.start) + 1
        raise _file_fault(say("file-byte", at=trouble.start), say("file-utf-8"), line=line) from None


def _toml(text: str) -> object:
    """Return the tables of a TOML text."""
    if endless := _LONGEST_KEY.search(text):
        line = text.count("\n", 0, endless.start()) + 1
        raise _file_fault(say("file-key"), say("file-shorter-key"), line=line)
    try:
        return tomllib.loads(text)
    except RecursionError:
        raise _file_fault(say("file-nested"), say("file-flatter")) from None
    except ValueError as trouble:
        raise _no_toml(text, str(trouble)) from None


def _no_toml(text: str, trouble: str) -> JobFileError:
    """Return the refusal of a text that is no TOML, with the line that stops it."""
    found = re.search(r" \(at (?:line (\d+), column \d+|end of document)\)$", trouble)
    line = (int(found[1]) if found[1] else text.count("\n") + 1) if found else None
    read = text.split("\n")[line - 1].strip()[:60] if line else ""
    why = trouble[: found.start()] if found else trouble
    return _file_fault(read or say("fault-nothing"), say("file-no-toml", why=why), line=line)


def _json(text: str) -> object:
    """Return the tables of a JSON text; a key that stands twice is refused, as it is in TOML."""

    def once(pairs: list[tuple[str, object]]) -> dict[str, object]:
        table = dict(pairs)
        if len(table) < len(pairs):
            keys = [key for key, _ in pairs]
            twice = next(key for key in keys if keys.count(key) > 1)
            raise _file_fault(json.dumps(twice), say("file-key-twice"))
        return table

    try:
        return json.loads(text, object_pairs_hook=once)
    except RecursionError:
        raise _file_fault(say("file-nested"), say("file-flatter")) from None
    except json.JSONDecodeError as trouble:
        read = text.split("\n")[trouble.lineno - 1].strip()[:60]
        allowed = say("file-no-json", why=trouble.msg)
        raise _file_fault(read or say("fault-nothing"), allowed, line=trouble.lineno) from None
    except JobFileError:
        raise
    except ValueError:  # a number of thousands of digits
        raise _file_fault(say("file-number"), say("file-smaller-number")) from None
