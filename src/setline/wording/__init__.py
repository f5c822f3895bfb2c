"""Every sentence that Setline says, in one place, so that it can be translated.

A sentence is a template with named facts in braces. Stages and faces never write prose: they call
``say("run-too-short", have="61 3/8", need="61 7/8")``. One file a stage or face; keys are unique over all.
"""

from __future__ import annotations

from importlib import import_module
from types import MappingProxyType

__all__ = ["SENTENCES", "say"]

_FILES = (
    "lengths",
    "layout",
    "as_set",
    "floor",
    "tape",
    "shims",
    "doubts",
    "job",
    "drawings",
    "packet",
    "cli",
    "field_book",
    "web",
    "sharing",
    "plan_pages",
    "run_editor",
    "phone",
    "walk",
    "set",
    "room",
    "order",
    "help",
    "photos",
)


def _collect() -> dict[str, str]:
    """Lay the files' sentences together; a key that stands twice is a fault of ours."""
    sentences: dict[str, str] = {}
    for name in _FILES:
        for key, text in import_module(f"setline.wording.{name}").SENTENCES.items():
            assert key not in sentences, f"the sentence {key} stands twice"
            sentences[key] = text
    return sentences


SENTENCES = MappingProxyType(_collect())


def say(key: str, /, **facts: object) -> str:
    """Return the sentence of that key with its facts filled in.

    Args:
        key: The sentence's name, such as ``run-too-short``.
        facts: What stands in its braces; lengths already in tape notation.

    Example:
        >>> say("unread-far", points="3 back-left", distance="12")
        'No reading within 12 of 3 back-left: ? stands there.'
    """
    return SENTENCES[key].format(**facts)
