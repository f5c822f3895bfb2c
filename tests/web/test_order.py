"""The page of the order: every thing as a row and a form, a list in at once, nothing typed is lost."""

from __future__ import annotations

import io
import re
import secrets
from datetime import date
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from setline.field_book.entry import Entry
from setline.field_book.order_list.fields import LISTS
from setline.job.read import load_job
from setline.job.write import to_dict
from setline.web.ordering.forms import form_view, written
from setline.web.ordering.on_order import things
from setline.web.typed_length import tape_in
from tests.web.app import EXAMPLES, App, open_app, text_of

NEW: dict[str, Any] = {"format": 1, "job": {"name": "Tern Lane", "tape": "inch"}, "room": {}}
HEAD = "what,name,width,height,depth\n"


@pytest.fixture
def new(tmp_path: Path) -> App:
    """Return a job with nothing on order."""
    return open_app(tmp_path, NEW)


@pytest.fixture
def larkspur(tmp_path: Path) -> App:
    """Return the inch sample in an app."""
    return open_app(tmp_path, EXAMPLES / "larkspur-street.toml")


@pytest.fixture
def mill(tmp_path: Path) -> App:
    """Return the metric sample in an app."""
    return open_app(tmp_path, EXAMPLES / "mill-row.toml")


def thing(app: App, listed: str, number: int) -> dict[str, Any]:
    """Return one thing on order."""
    return next(each for each in app.document["order"][listed] if each["number"] == number)


def form_of(app: App, address: str) -> dict[str, str]:
    """Return the fields of the open form as a browser would send them."""
    page = app.get(address)
    form = re.search(r'<form method="post" action="[^"]*/order/thing".*?</form>', page, re.DOTALL)
    assert form is not None
    fields = dict(re.findall(r'<input[^>]*? name="([^"]+)" value="([^"]*)"', form[0]))
    for name, options in re.findall(r'<select[^>]* name="([^"]+)"[^>]*>(.*?)</select>', form[0], re.DOTALL):
        chosen = re.search(r'<option value="([^"]*)" selected>', options)
        first = re.search(r'<option value="([^"]*)"', options)
        fields[name] = (chosen or first)[1]  # type: ignore[index]  # a list of options has one
    return fields


# --- rows and forms -------------------------------------------------------------------------------------


def test_every_thing_is_a_row_with_size_state_and_place(larkspur: App) -> None:
    """What it is, how large, whether it is here, and the run it stands in."""
    page = text_of(larkspur.get("/order"))
    assert "6 base, sink 36 wide, 34 1/2 high, 24 deep, measured 36 in B base here" in page
    assert "10 base, door and drawer 15 wide, 34 1/2 high, 24 deep in C base NOT HERE" in page
    assert "1 tall, pantry 24 wide, 84 high, 24 deep in A base, A wall here" in page
    assert "44 filler, range side of the corner 3/4 to 2 in C base" in page
    assert "Boxes 22, 1 not here or damaged" in page


@pytest.mark.parametrize("name", ["larkspur-street", "mill-row"])
def test_what_a_form_shows_reads_back_as_what_stands(name: str) -> None:
    """Of everything on order: sent back as it was, a form writes nothing."""
    document = to_dict(load_job(EXAMPLES / f"{name}.toml"))
    tape = tape_in(document)
    for listed in (*LISTS, "tops"):
        each_of = [(0, document["order"]["tops"])] if listed == "tops" else list(things(document, listed))
        for number, each in each_of:
            form = form_view(listed, number, each)
            fields = (*form.first, *(field for _, part in form.parts for field in part))
            sent = {field.key: field.value for field in fields}
            assert written(listed, number, each, sent, tape) == {}


@pytest.mark.parametrize(
    "address", ["/order?open=4", "/order?open=tops", "/sheets?open=31", "/order?open=41"]
)
def test_a_form_sent_back_as_it_was_keeps_nothing(mill: App, address: str) -> None:
    """No entry that says nothing."""
    count = mill.standing.revision
    mill.post("/order/thing", **form_of(mill, address))
    assert mill.standing.revision == count


def test_only_what_changed_is_written(larkspur: App) -> None:
    """One field, one entry, as it was typed; a field left empty is taken back."""
    count = larkspur.standing.revision
    fields = form_of(larkspur, "/order?open=6")
    page = larkspur.post("/order/thing", **{**fields, "width": " 33", "measured": ""})
    assert "6 base, sink 33 wide, 34 1/2 high, 24 deep in B base" in text_of(page)
    assert larkspur.standing.revision == count + 2
    assert thing(larkspur, "boxes", 6)["width"] == "33"
    assert "measured" not in thing(larkspur, "boxes", 6)


def test_parts_of_a_box_come_and_go_as_one(mill: App) -> None:
    """Legs are one value: changed as one, and away with the last of their fields."""
    fields = form_of(mill, "/order?open=4")
    assert fields["legs.least"] == "135"
    mill.post("/order/thing", **{**fields, "legs.most": "165", "legs.inset": ""})
    assert thing(mill, "boxes", 4)["legs"] == {"least": "135", "most": "165"}
    fields = form_of(mill, "/order?open=4")
    away = {"legs.least": "", "legs.most": "", "support": "sides"}
    mill.post("/order/thing", **{**fields, **away})
    assert "legs" not in thing(mill, "boxes", 4)


def test_what_is_not_taken_comes_back_as_it_was_typed(larkspur: App) -> None:
    """At the field, in words, every fault at once, a length that could be two with its buttons."""
    count = larkspur.standing.revision
    fields = form_of(larkspur, "/order?open=6")
    sent = {**fields, "width": "4 8 1/4", "height": "", "depth": "=B2", "name": "sink, deep"}
    page = larkspur.post("/order/thing", 422, **sent)
    assert "4 8 1/4 can be read in more than one way" in text_of(page).replace(" ", " ")
    assert '<button name="pick" value="width=48 1/4">' in page
    assert "Nothing is written here, and it is needed." in page
    assert "Formulas are not worked out here" in page
    assert 'value="4 8 1/4"' in page
    assert 'value="sink, deep"' in page
    assert larkspur.standing.revision == count
    larkspur.post("/order/thing", **{**fields, "width": "4 8 1/4", "pick": "width=48 1/4"})
    assert thing(larkspur, "boxes", 6)["width"] == "48 1/4"


def test_a_box_is_added_under_a_number_of_its_own(larkspur: App) -> None:
    """The next that was never used is offered; one that stands for something is refused."""
    fields = form_of(larkspur, "/order?add=boxes&like=8")
    assert fields["number"] == "63"
    assert (fields["width"], fields["overhang_left"], fields["name"]) == ("18", "1/4", "")
    page = larkspur.post("/order/thing", 422, **{**fields, "number": "41"})
    assert "This number is a filler on this job." in page
    larkspur.post("/order/thing", **fields)
    assert thing(larkspur, "boxes", 63)["height"] == "34 1/2"
    assert "63 base 18 wide, 34 1/2 high, 24 deep in no run yet" in text_of(larkspur.get("/order"))


@pytest.mark.parametrize(
    ("listed", "fields", "made"),
    [
        ("fillers", {"width.least": "3/4", "width.most": "no limit", "scribed": "yes", "gives": "yes"},
         {"width": {"least": "3/4", "most": "no limit"}, "scribed": True}),
        ("panels", {"thickness": "3/4", "finished": "no"}, {"thickness": "3/4", "finished": False}),
        ("existing", {"name": "chimney", "wall": "a", "row": "base", "left": "2", "right": "14"},
         {"name": "chimney", "wall": "A", "left": "2", "right": "14"}),
    ],
)  # fmt: skip
def test_everything_else_is_added_the_same_way(
    larkspur: App, listed: str, fields: dict[str, str], made: dict[str, Any]
) -> None:
    """Fillers, panels and what stands there already."""
    larkspur.post("/order/thing", listed=listed, new="yes", number="70", **fields)
    assert thing(larkspur, listed, 70) == {"number": 70, **made}
    assert larkspur.standing.job is not None


def test_a_form_sent_twice_adds_once(larkspur: App) -> None:
    """A double press is one press."""
    fields = {**form_of(larkspur, "/order?add=boxes&like=8"), "act": secrets.token_hex(10)}
    larkspur.post("/order/thing", **fields)
    count = larkspur.standing.revision
    larkspur.post("/order/thing", **fields)
    assert larkspur.standing.revision == count


def test_a_box_comes_off_the_order_and_out_of_its_runs(larkspur: App) -> None:
    """With what was pinned to it, so that the job stays whole; one undo brings all of it back."""
    before = larkspur.document
    assert "Take 2 off the order and out of A base" in text_of(larkspur.get("/order?open=2"))
    larkspur.post("/order/take-out", listed="boxes", of=2)
    assert larkspur.standing.job is not None
    assert all(box["number"] != 2 for box in larkspur.document["order"]["boxes"])
    runs = {(run["wall"], run["row"]): run for run in larkspur.document["runs"]}
    assert 2 not in runs["A", "base"]["items"]
    assert [pin["item"] for pin in runs["A", "wall"]["pins"]] == [62]
    undo = re.search(
        r'name="act" value="([0-9a-f]{20})">\s*<input type="hidden" name="back"', larkspur.get("/order")
    )
    assert undo is not None
    larkspur.post("/undo", act=undo[1], back=f"/j/{larkspur.job}/order")
    assert larkspur.document == before


def test_a_change_that_would_break_the_job_is_told(larkspur: App) -> None:
    """A base box in a base row cannot turn into a wall box; nothing is kept, all comes back."""
    fields = form_of(larkspur, "/order?open=2")
    page = larkspur.post("/order/thing", 422, **{**fields, "kind": "wall", "name": "tray drawers"})
    assert "With that the job could not be read any more." in page
    assert 'value="tray drawers"' in page


def test_a_box_is_ticked_off_with_one_press(larkspur: App) -> None:
    """As it is carried in."""
    page = larkspur.post("/order/here", listed="boxes", of=10, state="here")
    assert thing(larkspur, "boxes", 10)["delivery"] == "here"
    assert "NOT HERE" not in page


def test_what_somebody_else_changed_meanwhile_is_asked_about(larkspur: App) -> None:
    """Of the same field; another field of theirs stays as they wrote it."""
    fields = form_of(larkspur, "/order?open=6")
    theirs = [
        Entry(id="phone-1", job=larkspur.job, device="phone", n=1, by="Ines", at="2026-05-06T09:14:00",
              place="/order/boxes/6/name", value="farm sink", over=_over(larkspur, "/order/boxes/6/name")),
        Entry(id="phone-2", job=larkspur.job, device="phone", n=2, by="Ines", at="2026-05-06T09:14:00",
              place="/order/boxes/6/width", value="33", over=_over(larkspur, "/order/boxes/6/width")),
    ]  # fmt: skip
    larkspur.site.store.add(theirs)
    page = larkspur.post("/order/thing", 409, **{**fields, "width": "30"})
    assert "Ines changed box 6, width at 09:14, after this page was made." in text_of(page)
    assert 'name="anyhow" value="yes"' in page
    assert thing(larkspur, "boxes", 6)["width"] == "33"
    larkspur.post("/order/thing", **{**fields, "width": "30", "anyhow": "yes"})
    assert (thing(larkspur, "boxes", 6)["width"], thing(larkspur, "boxes", 6)["name"]) == ("30", "farm sink")


def _over(app: App, place: str) -> tuple[str, ...]:
    return tuple(entry.id for entry in app.standing.entries if entry.place == place)


def test_a_guest_reads_and_sees_no_forms(larkspur: App) -> None:
    """Rows, sizes and sheets; nothing to send, and nothing of theirs is taken."""
    guest = larkspur.site.sessions.add_link(larkspur.job, days=1)
    headers = {"cookie": f"setline-device={guest}", "x-forwarded-for": "198.51.100.7"}
    for address in ("order", "order?open=6", "order?add=boxes", "order/list", "sheets", "sheets?open=33"):
        answer = larkspur.client.get(f"/j/{larkspur.job}/{address}", headers=headers)
        assert answer.status_code == 200
        main = answer.text[answer.text.index("<main") : answer.text.index("</main>")]
        assert "<form" not in main, address
        assert "<input" not in main, address
    sent = {"act": secrets.token_hex(10), "listed": "boxes", "of": "10", "state": "here"}
    answer = larkspur.client.post(f"/j/{larkspur.job}/order/here", data=sent, headers=headers)
    assert answer.status_code == 403


# --- a list in at once ----------------------------------------------------------------------------------


def kept_form(page: str) -> dict[str, str]:
    """Return what the button that keeps a list sends."""
    form = re.search(r'<form method="post" action="[^"]*/order/list/keep".*?</form>', page, re.DOTALL)
    assert form is not None
    fields = dict(re.findall(r'name="(act|stands)" value="([^"]*)"', form[0]))
    text = re.search(r"<textarea[^>]*>\n(.*?)</textarea>", form[0], re.DOTALL)
    assert text is not None
    return {**fields, "text": text[1].replace("&#34;", '"')}


def test_a_list_is_seen_before_it_is_kept(new: App) -> None:
    """Number, what, size of every row; nothing is kept until then."""
    page = new.post("/order/list", text=HEAD + 'base,sink,36,34 1/2,24\nwall,,30,30",12\n')
    assert "2 to keep" in page
    assert "2 1 base, sink 36 wide, 34 1/2 high, 24 deep new" in text_of(page)
    assert new.document.get("order", {}) == {}
    after = new.post("/order/list/keep", **kept_form(page))
    assert "The list is kept." in after
    assert [(box["number"], box["width"]) for box in new.document["order"]["boxes"]] == [(1, "36"), (2, "30")]


def test_one_undo_takes_a_whole_list_back(larkspur: App) -> None:
    """What was brought in at once goes at once, and what it changed is as it was."""
    before = larkspur.document
    text = "no,what,width,height,depth\n6,base,33,34 1/2,24\n,wall,30,30,12\n"
    page = larkspur.post("/order/list/keep", **kept_form(larkspur.post("/order/list", text=text)))
    assert larkspur.document != before
    undo = re.search(r'name="act" value="([0-9a-f]{20})">\s*<input type="hidden" name="back"', page)
    assert undo is not None
    larkspur.post("/undo", act=undo[1], back=f"/j/{larkspur.job}/order")
    assert larkspur.document == before


def test_faults_are_told_by_row_and_the_text_comes_back(new: App) -> None:
    """Row, column, what was read, what is allowed; the typed text stands where it can be mended."""
    text = HEAD + "base,sink,4-Mar,34 1/2,24\nwall,,3036,30,12\nbase,,18,34,24\n"
    page = new.post("/order/list", 422, text=text)
    told = text_of(page)
    assert "2 things to mend" in told
    assert "Row 2, width read 4-Mar A spreadsheet made a date or a time of what was typed" in told
    assert "Row 3, width read 3036 3036 is over 60" in told
    assert f"{text.rstrip()}\n</textarea>" in page
    assert "KEEP THIS ONE" in page


def test_rows_without_faults_are_kept_and_the_others_stay_to_be_mended(new: App) -> None:
    """Those are not brought in twice."""
    text = HEAD + "base,sink,4-Mar,34 1/2,24\nbase,,18,34,24\n"
    page = new.post("/order/list/keep", **kept_form(new.post("/order/list", 422, text=text)))
    assert "1 kept. These rows are left to mend:" in page
    assert "what\tname\twidth\theight\tdepth\nbase\tsink\t4-Mar\t34 1/2\t24</textarea>" in page
    assert [box["width"] for box in new.document["order"]["boxes"]] == ["18"]
    mended = HEAD + "base,sink,3/4,34 1/2,24\n".replace("3/4", "30 3/4")
    new.post("/order/list/keep", **kept_form(new.post("/order/list", text=mended)))
    assert [box["number"] for box in new.document["order"]["boxes"]] == [1, 2]


def test_a_list_changes_what_has_its_number(larkspur: App) -> None:
    """What was and what will be; things that the list does not have stay, and are counted up."""
    page = text_of(larkspur.post("/order/list", text="no,what,width\n6,base,33\n2,base,18\n"))
    assert "2 6 base, sink 33 wide, 34 1/2 high, 24 deep width, was 36" in page
    assert "3 2 base, drawers 18 wide, 34 1/2 high, 24 deep as it is" in page
    assert "1 to keep" in page
    assert "left as they are: 1, 3 to 5, 7 to 22, 31 to 34, 41 to 49, 61, 62." in page


def test_a_list_that_would_break_the_job_is_refused_whole(larkspur: App) -> None:
    """Box 2 stands in a base row."""
    page = larkspur.post("/order/list", 422, text="no,what,width,height,depth\n2,wall,18,30,12\n")
    assert "With that the job could not be read any more." in page
    assert "/order/list/keep" not in page


def test_an_order_that_changed_meanwhile_is_looked_at_again(new: App) -> None:
    """What was shown is what is kept, or nothing is."""
    sent = kept_form(new.post("/order/list", text=HEAD + "base,sink,36,34 1/2,24\n"))
    new.post(
        "/order/thing", listed="boxes", new="yes", number="1", kind="base", width="9", height="34", depth="24"
    )
    page = new.post("/order/list/keep", 409, **sent)
    assert "2 2 base, sink 36 wide" in text_of(page)
    assert [box["number"] for box in new.document["order"]["boxes"]] == [1]


def test_a_spreadsheet_file_comes_in_as_text_to_mend(new: App) -> None:
    """Its dates are told by row; what lay in its cells stands in the page."""
    book = openpyxl.Workbook()
    for row in (
        ["what", "width", "height", "depth"],
        ["base", 18, 34.5, 24],
        ["wall", date(2026, 3, 4), 30, 12],
    ):
        book.active.append(row)
    written = io.BytesIO()
    book.save(written)
    file = ("order.xlsx", written.getvalue(), "application/octet-stream")
    answer = new.client.post(f"/j/{new.job}/order/list", data={"text": ""}, files={"file": file})
    assert answer.status_code == 422
    assert "Row 3, width read 2026-03-04 00:00:00 A spreadsheet made a date" in text_of(answer.text)
    assert "base\t18\t34.5\t24" in answer.text
    assert "Sheet: Sheet." in answer.text


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"PK\x03\x04 broken", "cannot be read as a spreadsheet"),
        (b"\xd0\xcf\x11\xe0\x00\x00", "neither a spreadsheet (XLSX) nor text"),
        (b"", "Paste a list, or choose a file."),
    ],
)
def test_a_file_that_is_no_list_is_told(new: App, content: bytes, says: str) -> None:
    """In a sentence, on the page, whatever it is."""
    answer = new.client.post(f"/j/{new.job}/order/list", files={"file": ("a", content, "text/csv")})
    assert answer.status_code == 422
    assert says in text_of(answer.text)


@pytest.mark.parametrize("code", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_csv_file_is_read_in_the_code_it_has(new: App, code: str) -> None:
    """A half may be one sign, and is one byte in the oldest of them."""
    content = (HEAD + "base,évier,36,34½,24\n").encode(code)
    answer = new.client.post(f"/j/{new.job}/order/list", files={"file": ("a.csv", content, "text/csv")})
    assert "base, évier 36 wide, 34 1/2 high" in text_of(answer.text)


@pytest.mark.parametrize("tape", ["inch", "metric"])
def test_the_list_to_start_from_comes_back_whole(tmp_path: Path, tape: str) -> None:
    """Downloaded, uploaded again, and kept without a fault."""
    app = open_app(tmp_path, {**NEW, "job": {"name": "Tern Lane", "tape": tape}})
    content = app.client.get(f"/j/{app.job}/order/list.csv").content
    answer = app.client.post(f"/j/{app.job}/order/list", files={"file": ("order.csv", content, "text/csv")})
    assert answer.status_code == 200
    app.post("/order/list/keep", **kept_form(answer.text))
    assert len(app.document["order"]["boxes"]) == 4


def test_an_empty_order_leads_to_the_list(new: App) -> None:
    """No empty tables: one sentence and one button."""
    page = new.get("/order")
    assert "Nothing is on order yet." in page
    assert f'href="/j/{new.job}/order/list"' in page
