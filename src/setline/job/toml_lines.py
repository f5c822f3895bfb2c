"""On which line of a TOML file a value stands.

The standard library reads TOML but forgets its lines. A fault is mended faster with one, so a file that has
faults is gone through again here: tokens only, no values, since the file is known to be TOML already.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping

from setline.job.document import Place

__all__ = ["line_of", "lines_of"]

_TOKEN = re.compile(
    r'(?P<text>"""(?:[^\\]|\\.)*?"{3,5}|\'\'\'.*?\'{3,5}|"(?:[^"\\\n]|\\.)*"|\'[^\'\n]*\')'
    r"|(?P<comment>#[^\n]*)|(?P<newline>\n)|(?P<sign>[\[\]{},=.])|(?P<bare>[^\s\[\]{},=.#\"']+)",
    re.DOTALL,
)


def lines_of(text: str) -> dict[Place, int]:
    """Return the line of every table, list and value of a TOML document, counted from 1."""
    return _Scanner(text).lines


def line_of(place: Place, lines: Mapping[Place, int]) -> int | None:
    """Return the line of a place, or of the nearest thing around it that has one."""
    for length in range(len(place), 0, -1):
        if place[:length] in lines:
            return lines[place[:length]]
    return None


class _Scanner:
    """Goes through the tokens once: headers name a table, keys a value, brackets open lists and tables."""

    def __init__(self, text: str) -> None:
        self.lines: dict[Place, int] = {}
        self._counts: Counter[Place] = Counter()
        self._table: Place = ()
        self._open: list[tuple[Place, int | None]] = []  # place of the list or table, index within a list
        self._keys: list[str] = []
        self._place: Place | None = None  # the value that is being read, after its =
        self._header = 0  # brackets of a header seen so far
        line = 1
        for token in _TOKEN.finditer(text):
            kind = token.lastgroup
            if kind == "newline":
                self._end_line()
            elif kind == "sign":
                self._sign(token[0], line)
            elif kind in ("text", "bare") and self._place is None and not self._in_list():
                self._keys.append(_unquoted(token[0]))
            line += token[0].count("\n")

    def _in_list(self) -> bool:
        """Tell whether the innermost thing that is open is a list."""
        return bool(self._open) and self._open[-1][1] is not None

    def _end_line(self) -> None:
        """End a key's value, or a header, at the end of its line; a list may go on."""
        if not self._open:
            self._keys, self._place, self._header = [], None, 0

    def _sign(self, sign: str, line: int) -> None:
        """Take a bracket, a comma or an equals sign."""
        if sign == "[" and self._place is None and not self._in_list():
            self._header += 1
        elif sign == "]" and self._header:
            self._end_header(line)
        elif sign == "=":
            self._begin_value(line)
        elif sign in "[{":
            self._begin_group(sign, line)
        elif sign in "]}":
            self._end_group()
        elif sign == ",":
            self._next_element()

    def _end_header(self, line: int) -> None:
        """Make the table of a header the one that keys belong to; ``[[x]]`` is one more row of x."""
        if not self._keys:
            return
        name = self._resolved(tuple(self._keys[:-1]))
        place: Place = (*name, self._keys[-1])
        if self._header == 2:
            row = self._counts[place]
            self._counts[place] += 1
            place = (*place, row)
        elif place in self._counts:
            place = (*place, self._counts[place] - 1)
        self.lines.setdefault(place, line)
        self._table, self._keys = place, []

    def _resolved(self, keys: tuple[str, ...]) -> Place:
        """Return the place of some keys, each list on the way standing for its last row."""
        place: Place = ()
        for key in keys:
            place = (*place, key)
            if place in self._counts:
                place = (*place, self._counts[place] - 1)
        return place

    def _begin_value(self, line: int) -> None:
        """Note the line of a key."""
        around = self._open[-1][0] if self._open else self._table
        self._place = (*around, *self._keys)
        self.lines.setdefault(self._place, line)
        self._keys = []

    def _begin_group(self, sign: str, line: int) -> None:
        """Open a list or an inline table."""
        place = self._element() if self._place is None else self._place
        self.lines.setdefault(place, line)
        self._open.append((place, 0 if sign == "[" else None))
        self._place = None

    def _element(self) -> Place:
        """Return the place of the element that stands next in the list that is open."""
        place, index = self._open[-1] if self._open else (self._table, None)
        return place if index is None else (*place, index)

    def _end_group(self) -> None:
        """Close a list or an inline table; in a list the next element may follow."""
        if self._open:
            place, _ = self._open.pop()
            self._place = None if self._in_list() else place

    def _next_element(self) -> None:
        """Go on after a comma: to the next element of a list, or the next key of an inline table."""
        self._place, self._keys = None, []
        if self._in_list():
            place, index = self._open.pop()
            self._open.append((place, (index or 0) + 1))


def _unquoted(key: str) -> str:
    """Return a key without its quotes."""
    return key[1:-1] if key[:1] in "\"'" else key
