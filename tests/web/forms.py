"""The forms that the app has, found in the app itself: what its routes take, and what its pages send."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from html.parser import HTMLParser
from typing import Any
from urllib.parse import parse_qsl

from fastapi import FastAPI
from fastapi.testclient import TestClient

__all__ = ["FormRoute", "PageForm", "crawl", "form_routes", "match"]


@dataclass(frozen=True)
class FormRoute:
    """A route that takes a form.

    Attributes:
        path: Its path, with names in braces.
        fields: What it says it takes.
        needed: Those that it cannot do without.
        is_multipart: Whether files come with it.
    """

    path: str
    fields: tuple[str, ...]
    needed: frozenset[str]
    is_multipart: bool


@dataclass
class PageForm:
    """A form as a page shows it.

    Attributes:
        action: Where it is sent.
        values: What each field holds, or may be set to, as the page has it.
        typed: The fields that people type into.
    """

    action: str
    values: dict[str, list[str]] = field(default_factory=dict)
    typed: set[str] = field(default_factory=set)


def form_routes(app: FastAPI) -> tuple[FormRoute, ...]:
    """Return every route that a page may post to, with the fields it declares."""
    described = app.openapi()
    found = []
    for path, operations in described["paths"].items():
        if "post" in operations:
            kinds = operations["post"].get("requestBody", {}).get("content", {})
            if "application/json" not in kinds:
                found.append(_form_route(path, kinds, described))
    return tuple(found)


def _form_route(path: str, kinds: Mapping[str, Any], described: Mapping[str, Any]) -> FormRoute:
    """Return a route from its description."""
    fields: list[str] = []
    needed: list[str] = []
    for kind in kinds.values():
        schema = kind["schema"]
        for reference in [schema, *schema.get("allOf", [])]:
            if "$ref" in reference:
                schema = described["components"]["schemas"][reference["$ref"].rpartition("/")[2]]
        fields += schema.get("properties", {})
        needed += schema.get("required", [])
    return FormRoute(path, tuple(fields), frozenset(needed), "multipart/form-data" in kinds)


class _Reader(HTMLParser):
    """What a page leads to and what it sends."""

    def __init__(self) -> None:
        super().__init__()
        self.links: list[str] = []
        self.forms: dict[str, PageForm] = {}
        self._now: PageForm | None = None
        self._by_id: dict[str, PageForm] = {}
        self._choice = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note a link, a form or a field."""
        given = {name: value or "" for name, value in attrs}
        if tag == "a":
            self.links.append(given.get("href", ""))
        elif tag == "form" and given.get("method", "").lower() == "post":
            self._now = self.forms.setdefault(given["action"], PageForm(given["action"]))
            self._by_id[given.get("id", "")] = self._now
        elif tag == "select":
            self._choice = given.get("name", "")
            self._note(self._choice, None, given)
        elif tag == "option":
            self._note(self._choice, given.get("value", ""), given)
        elif tag in {"input", "button", "textarea"} and given.get("name"):
            form = self._note(given["name"], given.get("value", ""), given)
            is_typed = tag == "textarea" or (tag == "input" and given.get("type", "text") == "text")
            if form is not None and is_typed and "readonly" not in given:
                form.typed.add(given["name"])

    def handle_endtag(self, tag: str) -> None:
        """Leave a form."""
        if tag == "form":
            self._now = None

    def _note(self, name: str, value: str | None, given: Mapping[str, str]) -> PageForm | None:
        """Note what a field holds; return the form it is of."""
        form = self._by_id.get(given["form"]) if "form" in given else self._now
        if form is not None and name:
            values = form.values.setdefault(name, [])
            if value is not None and value not in values:
                values.append(value)
        return form


def crawl(client: TestClient, start: str, *, alike: int = 2) -> tuple[dict[str, str], dict[str, PageForm]]:
    """Return every page that links lead to from one, address -> HTML, and every form on them, by its address.

    Args:
        client: What asks.
        start: Where to begin.
        alike: How many pages of one route, asked with the same fields, are enough.
    """
    paths = client.app.openapi()["paths"]  # type: ignore[attr-defined]  # the client's app is a FastAPI
    pages: dict[str, str] = {}
    forms: dict[str, PageForm] = {}
    kinds: Counter[tuple[str, ...]] = Counter()
    waiting = [start]
    while waiting:
        address = waiting.pop(0).partition("#")[0]
        kind = _kind(paths, address)
        if not address.startswith("/") or address in pages or kinds[kind] == alike:
            continue
        kinds[kind] += 1
        answer = client.get(address)
        if answer.status_code != 200 or "text/html" not in answer.headers["content-type"]:
            continue
        pages[address] = answer.text
        read = _Reader()
        read.feed(answer.text)
        waiting += read.links
        for action, form in read.forms.items():
            kept = forms.setdefault(action, PageForm(action))
            kept.typed |= form.typed
            for name, values in form.values.items():
                kept.values.setdefault(name, []).extend(values)
    return pages, forms


def _kind(paths: Iterable[str], address: str) -> tuple[str, ...]:
    """Return the route of an address with the names it is asked with."""
    path, _, query = address.partition("?")
    route = next((each for each in paths if match(each, path)), path)
    return route, *sorted(dict(parse_qsl(query, keep_blank_values=True)))


def match(path: str, address: str) -> bool:
    """Return whether an address is one of a path with names in braces."""
    pattern = re.sub(r"\\{[^}]*\\}", "[^/]+", re.escape(path))
    return re.fullmatch(pattern, address) is not None
