"""Writing a job down: as tables, as JSON, as TOML. What is written reads back as the same job.

Lengths stand as they were typed. What a job does not say is left out, so a file stays as short as what the
crew knew.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from setline.job.job import Job

__all__ = ["to_dict", "to_json", "to_toml"]

_WIDTH = 100
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")


def to_dict(job: Job) -> dict[str, Any]:
    """Return a job as tables and lists, as its TOML or JSON file gives them."""
    written = job.model_dump(mode="json", by_alias=True, exclude_none=True, exclude_defaults=True)
    return {key: written[key] for key in Job.model_fields if key in written}


def to_json(job: Job) -> str:
    """Return a job as a JSON document."""
    return json.dumps(to_dict(job), ensure_ascii=False, indent=2) + "\n"


def to_toml(job: Job) -> str:
    """Return a job as a TOML document: a header a table, what fits on a line on one line."""
    return "\n".join(_table(to_dict(job), ())).strip() + "\n"


def _table(table: Mapping[str, Any], name: tuple[str, ...]) -> Iterator[str]:
    """Yield the lines of a table: its own values first, then the tables in it under their headers."""
    under = {key: value for key, value in table.items() if _wants_header(key, value, name)}
    yield from (line for key, value in table.items() if key not in under for line in _assigned(key, value))
    for key, value in under.items():
        header = ".".join(map(_key, (*name, key)))
        if isinstance(value, Mapping):
            yield from ("", f"[{header}]", *_table(value, (*name, key)))
        else:
            for row in value:
                yield from ("", f"[[{header}]]", *_table(row, (*name, key)))


def _wants_header(key: str, value: Any, name: tuple[str, ...]) -> bool:
    """Tell whether a value is a part of the job that stands under a header of its own."""
    if isinstance(value, Mapping):
        return not name or any(isinstance(each, Mapping | list) and _is_long(each) for each in value.values())
    is_rows = isinstance(value, list) and bool(value) and all(isinstance(row, Mapping) for row in value)
    return is_rows and (name in ((), ("order",)) or key in ("walls", "set_ups") or any(map(_is_long, value)))


def _is_long(value: Any) -> bool:
    """Tell whether a value would not fit on a line of its own."""
    return len(_inline(value)) > _WIDTH - 10


def _assigned(key: str, value: Any) -> Iterator[str]:
    """Yield a key and its value, a long list broken over several lines."""
    line = f"{_key(key)} = {_inline(value)}"
    if len(line) <= _WIDTH or not isinstance(value, list):
        yield line
        return
    yield f"{_key(key)} = ["
    yield from (f"    {line}" for line in _filled([_inline(each) for each in value]))
    yield "]"


def _filled(texts: Sequence[str]) -> Iterator[str]:
    """Yield the elements of a list, as many on a line as fit."""
    line = ""
    for text in texts:
        if line and len(line) + len(text) + 2 > _WIDTH - 4:
            yield line
            line = ""
        line = f"{line} {text}," if line else f"{text},"
    yield line


def _inline(value: Any) -> str:
    """Return a value on one line."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return _quoted(value)
    if isinstance(value, Mapping):
        return f"{{ {', '.join(f'{_key(key)} = {_inline(each)}' for key, each in value.items())} }}"
    if isinstance(value, list):
        return f"[{', '.join(map(_inline, value))}]"
    return repr(value)


def _key(key: str) -> str:
    """Return a key, in quotes where TOML wants them."""
    return key if _BARE_KEY.fullmatch(key) else _quoted(key)


def _quoted(text: str) -> str:
    """Return a text in quotes; JSON's escapes are TOML's too, all but that of the delete sign."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
