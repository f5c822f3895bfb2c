"""One module a page; each has a ``router``."""
