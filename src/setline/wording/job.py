"""Sentences of job."""

SENTENCES: dict[str, str] = {}
