"""Sentences of the command line."""

SENTENCES: dict[str, str] = {}
