"""Sentences about who may reach the app, and how; and about what reaches it in no shape to be read."""

SENTENCES: dict[str, str] = {
    "form-not-read": "What was sent cannot be read as a form. Nothing was taken.",
    "not-by-proxy": "This Setline is reached through its proxy alone.",
    "serve-proxy-help": "requests come through the proxy at this address, which speaks HTTPS (default: 127.0.0.1)",
    "serve-proxy-allowed": "a proxy is named by its address, as this machine sees it",
    "serve-certificate-trouble": "{file} is no certificate, or its key does not belong to it ({why})",
    "serve-port-taken": "port {port} is in use on this machine; --port names another",
    "serve-plain": (
        "This is plain http: whoever shares the network can read along, and phones keep no pages for places\n"
        "without signal. docs/sharing.md says how to use HTTPS."
    ),
    "serve-shared": "docs/sharing.md says who gets in, and how.",
    "serve-host-code": (
        "To be the host in a browser, open /pair at the proxy's address and type {code}. It lives 10 minutes."
    ),
}
