"""Sentences about who may reach the app, and how; and about what reaches it in no shape to be read."""

SENTENCES: dict[str, str] = {
    "form-not-read": "What was sent cannot be read as a form. Nothing was taken.",
}
