"""Sentences of packet."""

SENTENCES: dict[str, str] = {}
