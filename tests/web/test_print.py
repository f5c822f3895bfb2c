"""Printing: packets made in the background, their letter, and paper that has grown old."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pypdfium2
import pytest

from setline.cli.main import main
from setline.field_book.database import Database
from setline.field_book.prints import Prints, next_letter
from setline.job.write import to_json
from setline.packet import KINDS
from setline.web.making import Maker, Making, State
from setline.web.pages.print import PACKETS
from tests.rooms import plain_room
from tests.web.app import App, open_app, text_of


@pytest.fixture
def app(tmp_path: Path) -> App:
    """Return an app with a room in which everything fits."""
    return open_app(tmp_path, plain_room())


def wait_for(done: Callable[[], bool]) -> None:
    """Wait until something is so, twenty seconds at most."""
    for _ in range(400):
        if done():
            return
        time.sleep(0.05)
    raise AssertionError("it never came")


def made(app: App, **form: Any) -> Making:
    """Ask for a PDF and return it once it is there."""
    app.post("/print", paper="letter", **form)
    newest = app.site.maker.of_job(app.job)[0]
    wait_for(lambda: newest.state is not State.WORKING)
    assert newest.state is State.READY
    return newest


def pages_of(pdf: bytes) -> list[str]:
    """Return the text of each page."""
    document = pypdfium2.PdfDocument(pdf)
    return [page.get_textpage().get_text_range() for page in document]


def test_every_ready_packet_can_be_made_and_taken(app: App) -> None:
    """Each is made, offered by its name with its letter, and is a PDF with the letter on every foot."""
    for name in PACKETS:
        making = made(app, ready=name)
        answer = app.client.get(f"/j/{app.job}/print/{making.key}.pdf")
        assert answer.status_code == 200
        assert answer.headers["content-type"] == "application/pdf"
        assert f"plain-room-{name}-rev-A.pdf" in answer.headers["content-disposition"]
        texts = pages_of(answer.content)
        assert texts
        assert all("rev A" in text for text in texts)
        assert making.title in text_of(app.get("/print"))


def test_the_whole_packet_is_the_one_of_the_terminal(app: App, tmp_path: Path) -> None:
    """The same job, paper and letter give the same bytes, wherever they are asked for."""
    job = tmp_path / "job.json"
    assert app.standing.job is not None
    job.write_text(to_json(app.standing.job), encoding="utf-8")
    pdf = tmp_path / "packet.pdf"
    assert main(["packet", str(job), "--out", str(pdf), "--paper", "letter"]) == 0
    assert made(app, ready="whole").pdf == pdf.read_bytes()


def test_what_was_made_of_an_earlier_plan_says_so(app: App) -> None:
    """A PDF stays to be taken, and the page tells that the plan has moved on."""
    made(app, ready="wall")
    assert "of an earlier plan" not in text_of(app.get("/print"))
    app.post("/set/1/as-set", key="right", answer="typed", text="22 9/16", screwed="yes")
    assert "Wall, rev A, Letter of an earlier plan" in text_of(app.get("/print"))


def test_pages_can_be_picked_one_by_one(app: App) -> None:
    """Each kind of page makes a packet by itself."""
    for kind in KINDS:
        assert len(pages_of(made(app, kinds=[kind]).pdf)) >= 1
    marks = pages_of(made(app, kinds=["marks"]).pdf)
    assert not any("What to do first" in text for text in marks)


@pytest.mark.parametrize(
    "form", [{"ready": "nothing"}, {"kinds": ["nothing"]}, {}, {"ready": "wall", "paper": "a3"}]
)
def test_what_cannot_be_printed_is_refused_with_a_sentence(app: App, form: dict[str, Any]) -> None:
    """No packet of that name, no page, no such paper: told, and nothing is made."""
    app.post("/print", 422, **{"paper": "letter", **form})
    assert app.site.maker.of_job(app.job) == ()


def test_the_letter_steps_when_a_printed_number_differs(app: App) -> None:
    """The same numbers keep it, on any paper; a mark that moved takes the next, and the last is told old."""
    assert made(app, ready="wall").title.startswith("Wall, rev A")
    app.post("/print", paper="a4", ready="others")
    assert app.site.maker.of_job(app.job)[0].title == "Others, rev A, A4"
    assert "is old" not in text_of(app.get("/print"))
    app.post("/set/1/as-set", key="right", answer="typed", text="22 9/16", screwed="yes")
    for page in ("/print", "/marks/A"):
        assert "Paper rev A is old: wall A changed." in text_of(app.get(page))
    assert made(app, ready="wall").title.startswith("Wall, rev B")
    assert "is old" not in text_of(app.get("/print"))


def test_paper_put_right_by_hand_is_not_old(app: App) -> None:
    """The press keeps the letter and the new numbers."""
    made(app, ready="wall")
    app.post("/set/1/as-set", key="right", answer="typed", text="22 9/16", screwed="yes")
    app.post("/print/by-hand")
    assert "is old" not in text_of(app.get("/print"))
    latest = Prints(app.site.store.database).latest(app.job)
    assert latest is not None
    assert latest.revision == "A"


def test_the_one_before_is_offered_while_the_next_is_made(app: App) -> None:
    """The page says what is being made and how far it is, and the PDF of before can be taken."""
    old = made(app, ready="wall")
    gate = threading.Event()

    def work(step: Callable[[str], None]) -> bytes:
        step("pages")
        gate.wait(10)
        return b"%PDF-"

    waiting = Making(key="feed", job=app.job, title="Next one", file="next.pdf")
    app.site.maker.ask(waiting, work, lambda: None)
    wait_for(lambda: waiting.step == "pages")
    page = app.get("/print")
    assert "Next one" in text_of(page)
    assert "The one before is below meanwhile." in text_of(page)
    assert '<progress class="progress" value="2" max="3">' in page
    assert f"{old.key}.pdf" in page
    state = app.client.get(f"/j/{app.job}/print/state").json()
    assert {"key": "feed", "state": "working", "step": 2, "of": 3} in state["made"]
    app.get("/print/feed.pdf", 404)
    gate.set()
    wait_for(lambda: waiting.state is State.READY)


def test_a_pdf_that_cannot_be_made_is_told_and_can_be_asked_for_again() -> None:
    """The next one is made all the same; asked for again, it is tried again."""
    maker, told = Maker(), threading.Event()
    broken = Making(key="a", job="j", title="", file="")

    def fail(step: Callable[[str], None]) -> bytes:
        raise ValueError("no ink")

    maker.ask(broken, fail, told.set)
    assert told.wait(5)
    assert broken.state is State.FAILED
    again = maker.ask(Making(key="a", job="j", title="", file=""), lambda _: b"x", lambda: None)
    wait_for(lambda: again.state is State.READY)
    assert maker.ask(Making(key="a", job="j", title="", file=""), fail, lambda: None) is again


def test_only_the_last_few_are_kept() -> None:
    """Memory does not grow with every print; another job's are not found."""
    maker = Maker()
    all_made = [
        maker.ask(Making(key=str(n), job="j", title="", file=""), lambda _: b"x", lambda: None)
        for n in range(30)
    ]
    wait_for(lambda: all(each.state is State.READY for each in all_made))
    maker.ask(Making(key="last", job="j", title="", file=""), lambda _: b"x", lambda: None)
    assert len(maker.of_job("j")) <= 13
    assert maker.find("other", "last") is None


def test_letters_follow_each_other() -> None:
    """A to Z, then AA; each comes once."""
    letters = ["A"]
    for _ in range(60):
        letters.append(next_letter(letters[-1]))
    assert letters[25:28] == ["Z", "AA", "AB"]
    assert len(set(letters)) == len(letters)


def test_prints_are_kept_in_the_store(tmp_path: Path, app: App) -> None:
    """Another program on the same store goes on with the letter."""
    made(app, ready="wall")
    database = Database(app.site.settings.store_url)
    latest = Prints(database).latest(app.job)
    assert latest is not None
    noted = Prints(database).note(app.job, {"mark": "1"}, first="A", check_code="X", at="")
    assert noted.revision == "B"
    database.close()


def test_a_job_without_a_plan_prints_nothing(tmp_path: Path) -> None:
    """The page says so, and a press is refused."""
    app = open_app(tmp_path, {"format": 1, "job": {"name": "Bare", "tape": "inch"}, "room": {}})
    assert "Nothing to print yet" in text_of(app.get("/print"))
    app.post("/print", 409, ready="wall", paper="letter")
