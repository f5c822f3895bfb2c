"""Sentences about what a phone keeps itself: entries to send, pages to read without signal."""

SENTENCES: dict[str, str] = {
    "kept-sent": "saved, sent",
    "kept-waiting": "saved, {count} to send",
    "kept-lost": "This phone will not keep readings (private window?). Write them on paper or use another phone.",
    "no-server": "No server since {time}. Plan of {made}. Entries are kept here.",
    "back-online": "{count} entries sent. The plan is being worked out.",
    "old-waiting": "{count} entries not sent for {days} days.",
    "entries-refused": "{count} entries were not taken: {why}",
    "send-now": "Send",
    "show-as-text": "Show as text",
    "plain-http": "Plain http: this page works on without the server while it stays open, and its readings wait on this phone. It cannot be opened anew without the server. Save the whole plan to this phone before you go.",
    "not-trusted": "This phone does not trust the certificate here, so pages are not kept for later. This page works on while it stays open. Save the whole plan to this phone before you go.",
    "not-on-phone": "That page is not kept on this phone. Kept are:",
    "not-on-phone-title": "Not on this phone",
}
