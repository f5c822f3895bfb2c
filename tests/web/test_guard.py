"""What every request passes: the host it names, the site it comes from, its size; what answers carry."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from setline.web.security import MOST_BODY, Guard
from setline.web.session import COOKIE
from tests.web.app import App, open_app

NEW = {"format": 1, "job": {"name": "Tern Lane", "tape": "inch"}, "room": {}}
FORM = {"act": "0" * 20}


@pytest.fixture
def app(tmp_path: Path) -> App:
    """An app with a job that nothing was read of."""
    return open_app(tmp_path, NEW, hosts=("Kitchen.example",))


@pytest.mark.parametrize(
    ("host", "status"),
    [
        ("localhost", 200),
        ("LOCALHOST:8321", 200),
        ("127.0.0.1:8321", 200),
        ("[::1]:8321", 200),
        ("kitchen.example", 200),
        ("elsewhere.example", 421),
        ("localhost.elsewhere.example", 421),
        ("elsewhere.example:8321", 421),
        ("localhost@elsewhere.example", 421),
        ("[::1", 421),
        ("", 421),
    ],
)
def test_only_its_own_names_are_answered(app: App, host: str, status: int) -> None:
    """A page that points its own name at this machine reads nothing: the host it asks for is not ours."""
    assert app.client.get("/jobs", headers={"host": host}).status_code == status


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"sec-fetch-site": "same-origin", "origin": "http://localhost"}, 303),
        ({"sec-fetch-site": "none"}, 303),
        ({"origin": "http://localhost"}, 303),
        ({}, 303),
        ({"sec-fetch-site": "cross-site"}, 403),
        ({"sec-fetch-site": "same-site"}, 403),
        ({"sec-fetch-site": "cross-site", "origin": "http://localhost"}, 403),
        ({"origin": "http://elsewhere.example"}, 403),
        ({"origin": "http://localhost:9999"}, 403),
        ({"origin": "null"}, 403),
        ({"origin": "http://[x"}, 403),
    ],
)
def test_only_its_own_pages_change_anything(app: App, headers: dict[str, str], status: int) -> None:
    """A form that another site's page sends is refused, also where the browser says so by Origin alone."""
    answer = app.client.post("/jobs/example", data=FORM, headers=headers, follow_redirects=False)
    assert answer.status_code == status
    assert len(app.site.store.job_ids()) == (2 if status == 303 else 1)


def test_every_answer_carries_the_strict_policy(app: App) -> None:
    """Pages, styles, refusals and what is not there: no script but our own files, no frame round them."""
    for address in ("/jobs", f"/j/{app.job}/walk", "/worker.js", "/nowhere", f"/j/{app.job}/entries"):
        headers = app.client.get(address).headers
        policy = headers["content-security-policy"]
        assert "default-src 'self'" in policy
        assert "unsafe" not in policy
        assert "frame-ancestors 'none'" in policy
        assert "form-action 'self'" in policy
        assert headers["x-content-type-options"] == "nosniff"
        assert headers["referrer-policy"] == "same-origin"
        assert headers["cross-origin-opener-policy"] == "same-origin"
    refused = app.client.get("/jobs", headers={"host": "elsewhere.example"})
    assert "content-security-policy" in refused.headers
    assert "strict-transport-security" not in refused.headers


def test_pages_are_kept_by_no_cache(app: App) -> None:
    """A page of a job lies in no cache on the way; its files, named by their content, may."""
    assert app.client.get(f"/j/{app.job}").headers["cache-control"] == "no-store"


def test_a_body_that_is_too_large_is_refused_by_what_it_says(app: App) -> None:
    """A body that says that it is too large is not read at all."""
    answer = app.client.post("/jobs/new", content=b"x" * (MOST_BODY + 1))
    assert answer.status_code == 413
    assert "Nothing was taken" in answer.text


def test_a_body_that_says_nothing_is_cut_off(app: App) -> None:
    """A body that comes in pieces and does not say how long it is: refused where it grows too large."""

    def pieces() -> Iterator[bytes]:
        for _ in range(40):
            yield b"x" * 65_536

    kind = {"content-type": "application/x-www-form-urlencoded"}
    answer = app.client.post("/jobs/new", content=pieces(), headers=kind)
    assert answer.status_code == 413


@pytest.mark.parametrize("length", ["-1", "1e3", "٣", "9" * 5000])
def test_a_length_that_is_none_is_refused(app: App, length: str) -> None:
    """What says its length in no number, or in one beyond all measure, is not read."""
    answer = app.client.get("/jobs", headers={b"content-length": length.encode()})
    assert answer.status_code == 413


def test_a_cookie_that_is_nobodys_lets_nobody_in(app: App) -> None:
    """Made-up, empty or broken cookies are a stranger's."""
    for cookie in ("", "x", "x" * 4000, "é"):
        stranger = TestClient(app.client.app, base_url="http://localhost", client=("192.0.2.7", 5))
        answer = stranger.get("/jobs", headers={b"cookie": f"{COOKIE}={cookie}".encode()})
        assert answer.status_code == 401


def test_what_is_no_request_passes_through() -> None:
    """The server's own messages reach the app."""
    seen: list[str] = []

    async def inner(scope: dict[str, str], receive: object, send: object) -> None:
        seen.append(scope["type"])

    passed = Guard(inner, hosts=(), is_secure=False)({"type": "lifespan"}, None, None)  # type: ignore[arg-type]
    with pytest.raises(StopIteration):  # nothing in it waits, so one step ends it, in any loop or none
        passed.send(None)
    assert seen == ["lifespan"]


# --- behind a proxy -------------------------------------------------------------------------------------


def by_proxy(app: App, address: str = "127.0.0.1", **headers: str) -> TestClient:
    """Return what asks from an address, with what a proxy adds."""
    names = {name.replace("_", "-"): value for name, value in headers.items()}
    return TestClient(app.client.app, base_url="http://127.0.0.1:8321", client=(address, 9), headers=names)


@pytest.fixture
def proxied(tmp_path: Path) -> App:
    """An app behind a proxy on this machine."""
    hosts = ("kitchen.example",)
    return open_app(tmp_path, NEW, share=True, hosts=hosts, is_secure=True, proxies=("127.0.0.1",))


FORWARDED = {
    "x_forwarded_for": "192.0.2.7",
    "x_forwarded_host": "kitchen.example",
    "x_forwarded_proto": "https",
}


def test_behind_a_proxy_nobody_is_the_host_by_coming_from_this_machine(proxied: App) -> None:
    """All come from the proxy's address, so that address says nothing; nor does what a client adds itself."""
    assert by_proxy(proxied).get("/jobs").status_code == 401
    assert by_proxy(proxied, x_forwarded_for="127.0.0.1").get("/jobs").status_code == 401
    assert by_proxy(proxied, **FORWARDED).get("/jobs").status_code == 401


def test_only_the_named_proxy_is_answered(proxied: App) -> None:
    """Who goes round the proxy gets nothing, whatever they say of themselves."""
    assert by_proxy(proxied, "192.0.2.9", **FORWARDED).get("/pair").status_code == 403
    assert by_proxy(proxied, **FORWARDED).get("/pair").status_code == 200


def test_the_proxys_word_on_the_host_counts(proxied: App) -> None:
    """The host that was asked at the proxy is checked, and posts from its own pages pass."""
    wrong = {**FORWARDED, "x_forwarded_host": "elsewhere.example"}
    assert by_proxy(proxied, **wrong).get("/pair").status_code == 421
    appended = {**FORWARDED, "x_forwarded_host": "kitchen.example, elsewhere.example"}
    assert by_proxy(proxied, **appended).get("/pair").status_code == 421
    own = by_proxy(proxied, **FORWARDED, origin="https://kitchen.example")
    assert own.post("/pair", data={"code": "1"}, follow_redirects=False).status_code == 403
    assert "not the code" in own.post("/pair", data={"code": "1"}).text
    foreign = by_proxy(proxied, **FORWARDED, origin="https://elsewhere.example")
    assert "another site" in foreign.post("/pair", data={"code": "1"}).text


def test_the_first_code_makes_the_host(proxied: App) -> None:
    """The code that the terminal prints lets its device be the host; addresses it shows are the proxy's."""
    from setline.web.session import Role

    browser = by_proxy(proxied, **FORWARDED)
    code = proxied.site.pairing.show(Role.HOST)
    answer = browser.post("/pair", data={"code": code, "name": "office"}, follow_redirects=False)
    token = answer.cookies[COOKIE]
    page = by_proxy(proxied, **FORWARDED)
    page.cookies.set(COOKIE, token)
    shown = page.post(f"/j/{proxied.job}/phones/code").text
    assert "https://kitchen.example/pair" in shown
    linked = page.post(f"/j/{proxied.job}/phones/link", data={"days": "3"}).text
    assert "https://kitchen.example/guest/" in linked
