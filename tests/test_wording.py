"""The sentences: all used, all filled, and all in the crew's tone."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from string import Formatter

import pytest

from setline.wording import SENTENCES, say
from tests.source_words import PACKAGE, calls, trees

BANNED = re.compile(
    r"\b(error|errors|invalid|please|oops|failed|failure|illegal|fatal|sorry|unfortunately|successfully)\b|!",
    re.IGNORECASE,
)


def _braces(sentence: str) -> set[str]:
    """Return the names that stand in a sentence's braces."""
    return {name for _, name, _, _ in Formatter().parse(sentence) if name is not None}


def _asked() -> Iterator[tuple[str, ast.Call]]:
    """Yield every call of `say` that names its sentence in so many words."""
    for call in calls("say"):
        if call.args and isinstance(call.args[0], ast.Constant):
            yield str(call.args[0].value), call


def _words_and_patterns() -> tuple[set[str], list[re.Pattern[str]]]:
    """Return the texts in quotes outside the wording, and patterns of those that are put together."""
    whole: set[str] = set()
    patterns: set[str] = set()
    for _, tree in trees(without="wording"):
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                whole.add(node.value)
                patterns |= {re.escape(node.value) + ".+"} if node.value.endswith("-") else set()
            if isinstance(node, ast.JoinedStr):
                patterns.add("".join(_pattern(part) for part in node.values))
    for template in sorted((PACKAGE / "web" / "templates").glob("*.html")):
        quoted = re.findall(r"""["']([\w-]+)["']""", template.read_text(encoding="utf-8"))
        whole |= set(quoted)
        patterns |= {re.escape(word) + ".+" for word in quoted if word.endswith("-")}
    return whole, [re.compile(pattern) for pattern in patterns if re.search(r"\w{2}", pattern)]


def _pattern(part: ast.expr) -> str:
    """Return the pattern of one part of a text that is put together."""
    return re.escape(str(part.value)) if isinstance(part, ast.Constant) else ".+"


def test_every_sentence_is_said_somewhere() -> None:
    """A sentence that nothing says is not translated either."""
    whole, patterns = _words_and_patterns()
    rest = set(SENTENCES) - whole
    assert {key for key in rest if not any(pattern.fullmatch(key) for pattern in patterns)} == set()


def test_every_sentence_asked_for_is_there() -> None:
    """`say` is called with keys that stand in the wording."""
    keys = {
        call.args[0].value for call in calls("say") if call.args and isinstance(call.args[0], ast.Constant)
    }
    assert {key for key in keys if key not in SENTENCES} == set()


def test_callers_fill_every_brace() -> None:
    """A call that names its facts names every one that stands in the sentence's braces."""
    short = [
        (key, missing)
        for key, call in _asked()
        if all(keyword.arg is not None for keyword in call.keywords)
        if (missing := _braces(SENTENCES.get(key, "")) - {keyword.arg for keyword in call.keywords})
    ]
    assert short == []


@pytest.mark.parametrize("key", sorted(SENTENCES))
def test_the_tone_is_plain(key: str) -> None:
    """No sentence blames, begs or shouts, none names a fault of the program, and no space stands double."""
    sentence = SENTENCES[key]
    assert not BANNED.search(sentence), sentence
    assert "  " not in sentence.strip() or "\n" in sentence


@pytest.mark.parametrize("key", sorted(SENTENCES))
def test_a_sentence_can_be_filled(key: str) -> None:
    """Facts go into the braces and come out as they were given; no brace is left."""
    names = _braces(SENTENCES[key])
    said = say(key, **{name: f"<{name}>" for name in names})
    assert all(f"<{name}>" in said for name in names)
    assert "{" not in said
