"""Sentences of layout."""

SENTENCES: dict[str, str] = {}
