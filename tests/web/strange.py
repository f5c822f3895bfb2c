"""What hostile or broken devices send: fields, bodies, headers and addresses as hypothesis draws them."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from urllib.parse import quote_from_bytes

from hypothesis import strategies as st

__all__ = ["Sent", "bodies", "strange_steps", "strange_texts"]

HUGE = 70_000

ODD_TEXTS = (
    b"",
    b" ",
    b"\x00",
    b"27\x007/16",
    b"\xed\xa0\x80",  # half of a sign, as some programs cut them
    b"\xff\xfe",
    b"\r\nset-cookie: setline-device=x",
    b"<script>alert(1)</script>",
    b'"><b>',
    b"{{ 7 * 7 }}",
    b"../../etc/passwd",
    b"/job/name",
    b"/room/walls/A/lengths/x/1",
    b"/~2/~",
    b"/" * 200,
    b"/rules/base-height",
    b"__proto__",
    "½".encode(),
    "٢٧".encode(),
    "²".encode(),
    "‮6/1 7".encode(),
    "🔨".encode(),
    b"NaN",
    b"-0",
    b"-1",
    b"1e999",
    b"1/0",
    b"0/0",
    b"27 7/16",
    b"9' 4 3/16",
    b"27 7/16+",
    b"874",
    b"34.37",
    b"9" * 30,
    b"9" * 5000,  # more digits than Python reads as one number
    b"1/" + b"9" * 5000,
    b"x" * HUGE,
    "ß".encode() * 300,
)

USUAL_TEXTS = (
    *("left", "right", "centre", "base", "wall", "corner", "open", "yes", "no", "must", "wish", "1", "2"),
    *("A", "B", "A base", "A wall", "B base", "41", "999", "on", "off", "other", "keep", "middle", "toe"),
    *("48", "27 7/16", "1/8", "line", "floor", "true", "out", "laser", "subfloor", "letter", "a4", "whole"),
)

NESTED = 100_000
"""How deep some bodies of JSON are."""


def strange_texts() -> st.SearchStrategy[bytes]:
    """Texts that nobody means."""
    return st.one_of(
        st.sampled_from(ODD_TEXTS),
        st.text(max_size=30).map(lambda text: text.encode("utf-8", "surrogatepass")),
        st.binary(max_size=12),
    )


def strange_steps() -> st.SearchStrategy[str]:
    """Steps of an address that lead nowhere, or should not."""
    odd = ("j0", "0", "-1", "..", ".", " ", "%00", "A" * 300, "9" * 5000, "ß", "%ed%a0%80", "1e9", "../..")
    return st.sampled_from(odd).map(
        lambda step: step if "%" in step else quote_from_bytes(step.encode(), safe="")
    )


@dataclass(frozen=True)
class Sent:
    """A body and its kind.

    Attributes:
        content: The body.
        kind: Its content type.
        texts: Field -> what was typed, of a form as a browser sends it; empty of any other.
    """

    content: bytes
    kind: str
    texts: Mapping[str, str]


@st.composite
def bodies(
    draw: st.DrawFn, fields: Sequence[str], usual: Mapping[str, Sequence[str]], *, is_multipart: bool
) -> Sent:
    """Bodies for a form: mostly its fields, usual or odd, some left out, some twice; else anything.

    Args:
        draw: Hypothesis's.
        fields: The names of the form's fields.
        usual: Field -> values that pages send in it.
        is_multipart: Whether the form is sent in parts.
    """
    if draw(st.integers(0, 11)) == 0:
        return draw(_no_form())
    pairs: list[tuple[str, bytes]] = []
    for field in fields:
        times = (
            draw(st.sampled_from((1, 1, 1, 1, 1, 1, 0, 2)))
            if field != "act"
            else draw(st.sampled_from((1,) * 9 + (0,)))
        )
        for _ in range(times):
            pairs.append((field, draw(_values(field, usual.get(field, ())))))
    if draw(st.integers(0, 9)) == 0:
        pairs.append(
            (draw(st.sampled_from(("extra", "", "__class__", "text floor A 2 wall"))), draw(strange_texts()))
        )
    in_parts = is_multipart if draw(st.integers(0, 9)) else not is_multipart
    encode = _in_parts if in_parts else _in_line
    return encode(pairs)


def _values(field: str, usual: Sequence[str]) -> st.SearchStrategy[bytes]:
    """Values of a field: what pages send, what people type, what nobody means."""
    if field == "act":
        acts = st.integers(0, 2**80 - 1).map(lambda number: f"{number:020x}".encode())
        return st.one_of(acts, acts, acts, acts, acts, acts, acts, strange_texts())
    known = [st.sampled_from([value.encode() for value in usual])] * 3 if usual else []
    return st.one_of(*known, st.sampled_from([text.encode() for text in USUAL_TEXTS]), strange_texts())


def _in_line(pairs: Sequence[tuple[str, bytes]]) -> Sent:
    """Return fields as browsers send a plain form."""
    content = "&".join(
        f"{quote_from_bytes(name.encode())}={quote_from_bytes(value)}" for name, value in pairs
    )
    return Sent(content.encode(), "application/x-www-form-urlencoded", _texts(pairs))


def _in_parts(pairs: Sequence[tuple[str, bytes]]) -> Sent:
    """Return fields as browsers send a form with files; a field called ``file`` is one."""
    edge = b"----between"
    content = b""
    for name, value in pairs:
        of_file = b'; filename="kitchen.toml"\r\nContent-Type: text/plain' if name == "file" else b""
        head = b'Content-Disposition: form-data; name="' + name.encode() + b'"' + of_file
        content += b"--" + edge + b"\r\n" + head + b"\r\n\r\n" + value + b"\r\n"
    return Sent(content + b"--" + edge + b"--\r\n", "multipart/form-data; boundary=" + edge.decode(), {})


def _texts(pairs: Sequence[tuple[str, bytes]]) -> dict[str, str]:
    """Return what was typed, where it was text and there once."""
    names = [name for name, _ in pairs]
    found: dict[str, str] = {}
    for name, value in pairs:
        try:
            text = value.decode()
        except UnicodeDecodeError:
            continue
        if names.count(name) == 1 and text.strip() and len(text) <= 200 and text.isprintable():
            found[name] = text
    return found


@st.composite
def _no_form(draw: st.DrawFn) -> Sent:
    """Bodies that are no form: JSON deep or flat, half a form in parts, kinds nobody knows."""
    content = draw(
        st.sampled_from(
            (
                b"",
                b"null",
                b'{"act":',
                b'[{"id": "\\ud800"}]',
                b"[" * NESTED,
                b"[" * 500 + b"]" * 500,
                json.dumps({"act": "0" * 20, "text": "27 7/16"}).encode(),
                b"--between\r\nContent-Disposition: form-data; name=",
                b"a=1&" * 3000,
                b"%",
                b"\xff" * 64,
            )
        )
    )
    kind = draw(
        st.sampled_from(
            (
                *(
                    "application/json",
                    "text/plain",
                    "multipart/form-data",
                    "multipart/form-data; boundary=between",
                ),
                *("application/x-www-form-urlencoded", "application/x-www-form-urlencoded; charset=utf-7"),
                *("", "x", "application/json; charset=\\", "multipart/form-data; boundary=" + "x" * 300),
            )
        )
    )
    return Sent(content, kind, {})
