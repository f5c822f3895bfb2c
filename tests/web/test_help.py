"""The trade's words: as the glossary has them, reached from the pages that use them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from setline.web.help_words import all_words, beside, words_of
from tests.web.app import EXAMPLES, App, open_app, text_of

ROOT = Path(__file__).parents[2]
ROW = re.compile(r"^\| (\*\*.+?) \| (.+) \|$", re.MULTILINE)


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> App:
    """Return the metric sample in an app."""
    return open_app(tmp_path_factory.mktemp("help"), EXAMPLES / "mill-row.toml")


def _plain(text: str) -> str:
    """Return a text of the glossary without what makes it bold or slanted."""
    return text.replace("*", "")


def test_the_words_are_the_glossary() -> None:
    """Screen and document explain the same words in the same words and order."""
    glossary = (ROOT / "docs" / "glossary.md").read_text(encoding="utf-8")
    rows = [(_plain(word), _plain(text)) for word, text in ROW.findall(glossary)]
    assert len(rows) > 40
    assert [(word.word, word.text) for word in all_words()] == rows


def test_a_word_is_told_in_eighty_words() -> None:
    """Nobody reads more than that with a box in hand."""
    assert max(len(word.text.split()) for word in all_words()) <= 80


def test_every_word_has_a_page(app: App) -> None:
    """With what it means, and the words it leans on."""
    for word in all_words():
        answer = app.client.get(f"/help/{word.slug}")
        assert answer.status_code == 200
        assert word.text in text_of(answer.text)
        assert all(f'href="/help/{other.slug}"' in answer.text for other in beside(word.slug))


def test_a_word_that_is_none_is_told_with_the_list_at_hand(app: App) -> None:
    """A made-up word is no page."""
    answer = app.client.get("/help/gizmo")
    assert answer.status_code == 404
    assert "No word goes by that name" in answer.text


def test_a_page_leads_to_its_words_and_they_lead_back(app: App) -> None:
    """The address of the page goes with the word."""
    page = f"/j/{app.job}/shims"
    assert f'href="/help/shim-leg?back={page}"' in app.get("/shims")
    word = app.client.get(f"/help/shim-leg?back={page}").text
    assert f'<a class="button main" href="{page}">' in word


@pytest.mark.parametrize(
    "back", ["//elsewhere.test/j/", "https://elsewhere.test/", "javascript:x", "/j/\\x", '/j/"']
)
def test_a_word_leads_back_to_nowhere_else(app: App, back: str) -> None:
    """An address that is no page of a job is no way back."""
    assert "Go back" not in app.client.get("/help/box", params={"back": back}).text


def test_every_template_that_names_words_names_known_ones() -> None:
    """The pages of the work all have some."""
    assert all(words_of(f"{page}.html") for page in ("home", "marks", "shims", "troubles", "set_box"))
