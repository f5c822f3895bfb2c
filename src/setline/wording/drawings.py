"""Sentences of drawings."""

SENTENCES: dict[str, str] = {}
