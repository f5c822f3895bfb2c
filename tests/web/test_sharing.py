"""Who gets in: this machine, paired devices, guests with a link, and nobody else; and how each is let out."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from fastapi.testclient import TestClient
from sqlalchemy import select, update

from setline.field_book.tables import devices, links
from setline.web.pairing import LIVES_SECONDS, MOST_TRIES, Pairing
from setline.web.session import COOKIE, DEVICE_DAYS, Role, token_hash
from tests.web.app import EXAMPLES, App, open_app, text_of

HOST_NAME = "kitchen.example"


@pytest.fixture
def shared(tmp_path: Path) -> App:
    """An app that is shared, with the metric sample in it."""
    return open_app(tmp_path, EXAMPLES / "mill-row.toml", share=True, hosts=(HOST_NAME,))


def device(app: App, address: str = "192.0.2.7", **headers: str) -> TestClient:
    """Return another device on the network."""
    served = app.client.app
    return TestClient(served, base_url=f"http://{HOST_NAME}", client=(address, 50000), headers=headers)


def paired(app: App, name: str = "Ines") -> TestClient:
    """Return another device, let in by the code that the host shows."""
    phone = device(app)
    code = app.site.pairing.show()
    assert phone.post("/pair", data={"code": code, "name": name}).status_code == 200
    return phone


# --- nobody known ---------------------------------------------------------------------------------------


def test_a_stranger_sees_nothing_but_the_pairing_page(shared: App) -> None:
    """Another device without a cookie is led to the pairing page from every page, and gets no data."""
    stranger = device(shared, accept="text/html")
    for page in (
        "/jobs",
        "/jobs/new",
        f"/j/{shared.job}",
        f"/j/{shared.job}/print",
        f"/j/{shared.job}/carry/file",
    ):
        answer = stranger.get(page, follow_redirects=False)
        assert (answer.status_code, answer.headers["location"]) == (303, "/pair"), page
    told = stranger.get(f"/j/{shared.job}/entries", headers={"accept": "application/json"})
    assert told.status_code == 401
    assert told.json()["ok"] is False
    page = stranger.get("/pair").text
    assert "Mill Row" not in page
    assert shared.job not in page


def test_without_sharing_another_device_cannot_even_pair(tmp_path: Path) -> None:
    """An app that is not shared takes no code, also not one that would be right."""
    app = open_app(tmp_path, EXAMPLES / "mill-row.toml", hosts=(HOST_NAME,))
    code = app.site.pairing.show()
    assert device(app).post("/pair", data={"code": code}).status_code == 404
    assert "Start it with --share" in text_of(device(app).get("/pair").text)


def test_a_forwarded_request_is_not_this_machines(shared: App) -> None:
    """Who comes through an unnamed proxy on this machine is not taken for the person at it."""
    for header in ("x-forwarded-for", "forwarded", "x-real-ip"):
        answer = shared.client.get("/jobs", headers={header: "192.0.2.7"})
        assert answer.status_code == 401, header


# --- pairing --------------------------------------------------------------------------------------------


def test_a_device_pairs_by_the_code_on_the_hosts_screen(shared: App) -> None:
    """The host presses Show a code and sees it, also as QR; the device types it and is in for 90 days."""
    page = shared.post("/phones/code")
    code = "".join(re.search(r'<p class="big">(\d{4}) (\d{4})</p>', page).groups())  # type: ignore[union-attr]
    assert "<svg" in page
    assert f"http://{HOST_NAME}/pair" in page
    phone = device(shared)
    assert code in phone.get(f"/pair?code={code}").text  # a scanned code stands in the form; a person presses
    assert phone.get("/jobs", headers={"accept": "text/html"}, follow_redirects=False).status_code == 303
    answer = phone.post(
        "/pair", data={"code": f"{code[:4]} {code[4:]}", "name": "Ines"}, follow_redirects=False
    )
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=lax" in cookie
    assert f"max-age={DEVICE_DAYS * 86400}" in cookie
    assert "Mill Row" in phone.get("/jobs").text
    assert "Ines" in text_of(shared.get("/phones"))


def test_over_https_the_cookie_never_goes_out_in_the_open(tmp_path: Path) -> None:
    """Reached over HTTPS the cookie is marked Secure, and answers say to stay on HTTPS."""
    app = open_app(tmp_path, EXAMPLES / "mill-row.toml", share=True, hosts=(HOST_NAME,), is_secure=True)
    answer = device(app).post("/pair", data={"code": app.site.pairing.show()}, follow_redirects=False)
    assert "; secure" in answer.headers["set-cookie"].lower()
    assert "max-age" in answer.headers["strict-transport-security"]


def test_the_store_keeps_no_token(shared: App) -> None:
    """Of a device's token only the hash is kept: a copy of the store lets nobody in."""
    phone = paired(shared)
    token = phone.cookies[COOKIE]
    with shared.site.store.database.reading() as connection:
        rows = connection.execute(select(devices)).mappings().all()
    assert [row["token_hash"] for row in rows] == [token_hash(token)]
    assert token not in str(rows)


def test_five_tries_end_a_code(shared: App) -> None:
    """After five wrong tries, by whomever, the right code is no good either; the host shows a new one."""
    code = shared.site.pairing.show()
    wrong = f"{(int(code) + 1) % 10**8:08}"
    for number in range(MOST_TRIES):
        answer = device(shared, f"192.0.2.{number + 1}").post("/pair", data={"code": wrong, "name": "Ines"})
        assert answer.status_code == 403
        assert wrong in answer.text  # what was typed comes back
        assert "Ines" in answer.text
    assert device(shared).post("/pair", data={"code": code}).status_code == 403
    paired(shared)


def test_a_code_lives_ten_minutes_and_lets_one_in() -> None:
    """A code is good until its time is over or it was used; a new one ends the one before."""
    now = 0.0
    pairing = Pairing(lambda: now)
    first = pairing.show()
    assert re.fullmatch(r"\d{8}", first)
    now = LIVES_SECONDS
    assert pairing.accept(first) is Role.CREW
    assert pairing.accept(first) is None
    second = pairing.show()
    now += LIVES_SECONDS + 1
    assert pairing.shown() is None
    assert pairing.accept(second) is None
    third = pairing.show()
    while pairing.show() == third:
        pass  # one in a hundred million
    assert pairing.accept(third) is None


def test_nobody_pairs_while_no_code_is_shown(shared: App) -> None:
    """Without a code on the host's screen nothing that is typed counts, an empty text least of all."""
    for typed in ("", "00000000", "٠٠٠٠٠٠٠٠"):
        assert device(shared).post("/pair", data={"code": typed}).status_code == 403


# --- what each may do -----------------------------------------------------------------------------------


def test_crew_may_write_and_only_the_host_lets_in_and_out(shared: App) -> None:
    """A paired device changes jobs; codes, links and revoking are the host's."""
    phone = paired(shared)
    phones = f"/j/{shared.job}/phones"
    assert phone.post(f"/j/{shared.job}/room/drop", data={"act": "0" * 20, "wall": "Z"}).status_code != 403
    for form in ("code", "link", "end-links", "revoke"):
        assert phone.post(f"{phones}/{form}", data={"which": "x"}).status_code == 403, form
    assert "<form" not in phone.get(phones).text.partition("<main")[2].partition("</main")[0]


def test_who_is_let_out_is_out_at_once(shared: App) -> None:
    """A revoked device is a stranger at its next request."""
    phone, other = paired(shared), paired(shared, "Tom")
    assert phone.get("/jobs").status_code == 200
    first = next(each for each in shared.site.sessions.known_devices() if each.name == "Ines")
    shared.post("/phones/revoke", which=first.id)
    assert phone.get("/jobs").status_code == 401
    assert other.get("/jobs").status_code == 200


def test_a_device_is_forgotten_after_ninety_days(shared: App) -> None:
    """The store itself ends a cookie's time, whatever the browser keeps."""
    phone = paired(shared)
    past = (datetime.now(UTC) - timedelta(seconds=1)).isoformat(timespec="seconds")
    with shared.site.store.database.writing() as connection:
        ends = connection.execute(select(devices.c.expires_at)).scalar_one()
        assert datetime.fromisoformat(ends) > datetime.now(UTC) + timedelta(days=DEVICE_DAYS - 1)
        connection.execute(update(devices).values(expires_at=past))
    assert phone.get("/jobs").status_code == 401


def test_a_guest_reads_one_job_until_the_link_ends(shared: App, tmp_path: Path) -> None:
    """A link of 128 bits opens one job to read; it writes nothing, opens no other job, and ends."""
    other = shared.client.post("/jobs/example", data={"act": "b" * 20}).url.path
    page = shared.post("/phones/link", days=3)
    link = re.search(rf"http://{re.escape(HOST_NAME)}/guest/([\w-]+)", page)
    assert link is not None
    assert len(link[1]) >= 22  # of 64 signs each: 128 bits and more
    guest = device(shared)
    assert "Mill Row" in guest.get(f"/guest/{link[1]}").text
    assert guest.get(f"/j/{shared.job}/marks/A").status_code == 200
    assert guest.get(other).status_code == 404
    assert "Mill Row" in guest.get("/jobs").text
    assert other not in guest.get("/jobs").text
    assert guest.get("/jobs/new").status_code == 403
    entry = {"id": "x", "job": shared.job, "device": "guest", "n": 1, "place": "/job/name", "value": "Gone"}
    assert guest.post(f"/j/{shared.job}/entries", json=[entry]).status_code == 403
    shared.post("/phones/end-links")
    assert guest.get(f"/j/{shared.job}").status_code == 401
    assert device(shared).get(f"/guest/{link[1]}").status_code == 404


def test_a_guests_link_ends_by_itself(shared: App) -> None:
    """A link holds as long as was said, 90 days at most."""
    token = shared.site.sessions.add_link(shared.job, days=1)
    assert shared.site.sessions.by_token(token) is not None
    with shared.site.store.database.writing() as connection:
        connection.execute(update(links).values(expires_at="2026-01-01T00:00:00+00:00"))
    assert shared.site.sessions.by_token(token) is None
    shared.post("/phones/link", status=422, days=91)
    shared.post("/phones/link", status=422, days=0)


def test_a_guests_link_takes_nothing_from_the_crew(shared: App) -> None:
    """Somebody of the crew who opens a guest's link stays of the crew."""
    phone = paired(shared)
    token = shared.site.sessions.add_link(shared.job, days=1)
    assert phone.get(f"/guest/{token}").status_code == 200
    assert phone.get("/jobs/new").status_code == 200


def test_a_guest_sees_no_names_of_devices(shared: App) -> None:
    """Who works on the job is nobody else's business."""
    paired(shared)
    guest = device(shared)
    guest.get(f"/guest/{shared.site.sessions.add_link(shared.job, days=1)}")
    assert "Ines" not in guest.get(f"/j/{shared.job}/phones").text
