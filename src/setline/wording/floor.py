"""Sentences of floor."""

SENTENCES: dict[str, str] = {}
