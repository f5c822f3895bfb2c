"""Sentences of shims."""

SENTENCES: dict[str, str] = {
    "no-reading-near": "No reading within {distance} of {point}: it prints as ?.",
}
