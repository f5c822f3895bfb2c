"""``setline serve``: where it listens, over what, and what it says about it."""

from __future__ import annotations

import http.client
import re
import socket
import ssl
import threading
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
import uvicorn
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID

from setline.cli.main import main

ELSEWHERE = "127.0.0.2"
"""This machine by another of its own addresses: who listens at 127.0.0.1 alone is not found there."""


def free_port() -> int:
    """Return a port that nobody listens at."""
    with socket.create_server(("127.0.0.1", 0)) as probe:
        return int(probe.getsockname()[1])


@pytest.fixture
def serve(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Callable[..., list[str]]:
    """A way to run the command with the server in a thread, stopped once something was done with its port."""
    started = uvicorn.Server.run

    def call(then: Callable[[int], None], *options: str) -> list[str]:
        port = free_port()

        def run(server: uvicorn.Server, sockets: list[socket.socket]) -> None:
            thread = threading.Thread(target=started, args=(server, sockets), daemon=True)
            thread.start()
            while not server.started:
                time.sleep(0.01)
            try:
                then(port)
            finally:
                server.should_exit = True
                thread.join(20)

        monkeypatch.setattr(uvicorn.Server, "run", run)
        assert main(["serve", "--folder", str(tmp_path / "site"), "--port", str(port), *options]) == 0
        return capsys.readouterr().out.replace(str(port), "PORT").splitlines()

    return call


def asked(port: int, page: str, address: str = "127.0.0.1", **headers: str) -> tuple[int, str]:
    """Ask for a page over plain http; return the status and the page."""
    wire = http.client.HTTPConnection(address, port, timeout=20)
    wire.request("GET", page, headers={"Host": "localhost", **headers})
    answer = wire.getresponse()
    body = answer.read().decode()
    wire.close()
    return answer.status, body


@pytest.fixture
def certificate(tmp_path: Path) -> tuple[Path, Path]:
    """A certificate for localhost that rests on nothing but itself, and its key."""
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "localhost")])
    now = datetime.now(UTC)
    made = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - timedelta(hours=1))
        .not_valid_after(now + timedelta(hours=1))
        .add_extension(x509.SubjectAlternativeName([x509.DNSName("localhost")]), critical=False)
        .sign(key, hashes.SHA256())
    )
    files = tmp_path / "kitchen.pem", tmp_path / "kitchen.key"
    files[0].write_bytes(made.public_bytes(serialization.Encoding.PEM))
    kind = serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    files[1].write_bytes(key.private_bytes(serialization.Encoding.PEM, *kind))
    return files


def test_nothing_listens_beyond_this_machine(serve: Callable[..., list[str]]) -> None:
    """Without ``--share`` only the loopback address is listened at, and the person at it needs no sign-in."""

    def then(port: int) -> None:
        assert asked(port, "/jobs")[0] == 200
        with pytest.raises(ConnectionRefusedError):
            socket.create_connection((ELSEWHERE, port), timeout=5)

    assert serve(then) == ["Open http://localhost:PORT/ on this machine. Ctrl+C stops it."]


def test_shared_it_listens_and_says_what_that_means(serve: Callable[..., list[str]]) -> None:
    """With ``--share`` the other addresses answer as well; it says where, and what plain http means."""

    def then(port: int) -> None:
        socket.create_connection((ELSEWHERE, port), timeout=5).close()
        assert asked(port, "/pair", Host="kitchen.example")[0] == 200
        assert asked(port, "/pair", Host="elsewhere.example")[0] == 421

    said = serve(then, "--share", "--name", "kitchen.example")
    assert "Other devices: http://kitchen.example:PORT/" in said
    assert "can read along" in "".join(said)
    assert "docs/sharing.md" in said[-1]


def test_https_by_certificate_files(serve: Callable[..., list[str]], certificate: tuple[Path, Path]) -> None:
    """With a certificate and its key pages come over HTTPS, and over nothing else."""

    def then(port: int) -> None:
        trusted = ssl.create_default_context(cafile=str(certificate[0]))
        wire = http.client.HTTPSConnection("localhost", port, context=trusted, timeout=20)
        wire.request("GET", "/jobs")
        answer = wire.getresponse()
        assert answer.status == 200
        assert "max-age" in (answer.getheader("strict-transport-security") or "")
        wire.close()
        with pytest.raises((http.client.HTTPException, OSError)):
            asked(port, "/jobs")

    said = serve(then, "--certificate", str(certificate[0]), "--key", str(certificate[1]))
    assert "https://localhost:PORT/" in said[0]


def test_behind_a_proxy_on_this_machine(serve: Callable[..., list[str]]) -> None:
    """It listens on this machine alone, knows nobody by address, and prints the code that makes the host."""

    def then(port: int) -> None:
        with pytest.raises(ConnectionRefusedError):
            socket.create_connection((ELSEWHERE, port), timeout=5)
        told = {"X-Forwarded-For": "192.0.2.7", "X-Forwarded-Host": "kitchen.example"}
        assert asked(port, "/jobs", **told)[0] == 401
        assert asked(port, "/jobs")[0] == 401
        assert asked(port, "/pair", **told)[0] == 200

    said = serve(then, "--behind-proxy", "--name", "kitchen.example")
    assert said[0] == "Other devices: https://kitchen.example/"
    assert re.search(r"\b\d{8}\b", said[-1])


def refused(capsys: pytest.CaptureFixture[str], *options: str) -> str:
    """Return what the command says when it does not start."""
    assert main(["serve", *options]) == 2
    return capsys.readouterr().err


def test_what_cannot_be_served_is_told(
    tmp_path: Path, certificate: tuple[Path, Path], capsys: pytest.CaptureFixture[str]
) -> None:
    """Half a certificate, one with another key, a port in use, a proxy by name: a sentence each."""
    good, key = map(str, certificate)
    assert "both" in refused(capsys, "--certificate", good)
    assert "none.pem" in refused(capsys, "--certificate", str(tmp_path / "none.pem"), "--key", key)
    other = tmp_path / "other.key"
    own = ec.generate_private_key(ec.SECP256R1())
    kind = serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    other.write_bytes(own.private_bytes(serialization.Encoding.PEM, *kind))
    assert "does not belong" in refused(capsys, "--certificate", good, "--key", str(other))
    other.write_text("no key")
    assert "does not belong" in refused(capsys, "--certificate", good, "--key", str(other))
    assert "1 to 65535" in refused(capsys, "--port", "0")
    assert "address" in refused(capsys, "--behind-proxy", "kitchen.example")
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = str(taken.getsockname()[1])
        assert f"port {port} is in use" in refused(capsys, "--port", port, "--folder", str(tmp_path))
