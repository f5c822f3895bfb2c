"""The store, on SQLite and on PostgreSQL alike."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from sqlalchemy import func, insert, select
from tests.field_book.writing import SPOT, entry

from setline.field_book.database import Database
from setline.field_book.entry import GREATEST_N
from setline.field_book.faults import EntryRefused, NotInStore
from setline.field_book.fold import fold
from setline.field_book.store import Store
from setline.field_book.tables import METADATA, links, prints
from setline.field_book.transfer import export_toml, import_job
from setline.job.read import load_job
from setline.job.write import to_dict, to_toml

LARKSPUR = load_job("examples/larkspur-street.toml")


def test_what_was_added_is_there_as_it_was_sent(store: Store) -> None:
    """Every field of an entry comes back, signs of all scripts and the greatest count among them."""
    sent = [
        replace(entry(1, SPOT, "48 1/4"), by="Søren 🔨", at="2026-05-06T09:14:00+02:00", over=("a", "b")),
        entry(GREATEST_N, "/runs/A base/items", [1, 2, {"a": [True, None, 0.5, "\x01"]}]),
        entry(3, SPOT, None),
    ]
    assert store.add(sent) == 3
    assert store.entries("j") == tuple(sent)
    assert store.revision("j") == 3


def test_adding_again_changes_nothing(store: Store) -> None:
    """An entry that the store holds is acknowledged again; only what is new counts."""
    first = entry(1, SPOT, "48")
    store.add([first, first])
    assert store.add([first, entry(2, SPOT, "47")]) == 1
    assert store.revision("j") == 2


def test_another_content_under_a_known_id_is_refused_whole(store: Store) -> None:
    """An id belongs to one content for good; nothing of that call is kept."""
    first = entry(1, SPOT, "48")
    store.add([first])
    with pytest.raises(EntryRefused, match=r"truck\.1"):
        store.add([entry(2, SPOT, "1"), replace(first, value="47")])
    assert store.entries("j") == (first,)


def test_two_contents_of_one_id_in_one_call_are_refused(store: Store) -> None:
    """A call that quarrels with itself is kept in no part."""
    with pytest.raises(EntryRefused):
        store.add([entry(1, SPOT, "48"), entry(1, SPOT, "47")])
    assert store.job_ids() == ()


def test_entries_since_a_revision(store: Store) -> None:
    """A page can ask for what came after it was made, in the order of arrival."""
    store.add([entry(n, SPOT, str(n)) for n in range(5)])
    newest = store.entries("j", since=3)
    assert [each.n for each in newest] == [3, 4]


def test_history_tells_all_that_was_said_of_a_place(store: Store) -> None:
    """Who read what, and what was taken back, in the order it arrived; other places stay out."""
    told = [entry(1, SPOT, "48"), entry(2, SPOT, None, over=("truck.1",)), entry(3, SPOT, "48 1/8")]
    store.add([*told, entry(4, "/job/name", "x")])
    store.add([entry(1, SPOT, "9", job="other", device="phone")])
    assert store.history("j", SPOT) == tuple(told)


def test_jobs_are_told_by_when_they_were_made(store: Store) -> None:
    """The list of jobs has the oldest first."""
    store.add([entry(1, SPOT, "48", job="b")], made_at="2026-05-06")
    store.add([entry(2, SPOT, "48", job="a")], made_at="2026-05-07")
    assert store.job_ids() == ("b", "a")


@pytest.mark.parametrize("call", ["entries", "revision", "delete_job", "history"])
def test_a_job_that_is_not_there(store: Store, call: str) -> None:
    """A name that the store does not know is told as such."""
    with pytest.raises(NotInStore, match="no job x"):
        getattr(store, call)(*(["x", SPOT] if call == "history" else ["x"]))


def test_a_deleted_job_takes_everything_along_and_stays_deleted(store: Store) -> None:
    """Entries, prints and links go; a late entry from a phone cannot raise the job again; others stay."""
    store.add([entry(1, SPOT, "48"), entry(1, SPOT, "48", job="other", device="phone")])
    with store.database.writing() as connection:
        connection.execute(
            insert(prints), [{"job": "j", "revision": "A", "check_code": "x", "numbers": "", "at": ""}]
        )
        connection.execute(
            insert(links),
            [{"token_hash": b"x", "job": "j", "made_at": "", "expires_at": "", "is_revoked": False}],
        )
    store.delete_job("j")
    with store.database.reading() as connection:
        for table in METADATA.sorted_tables:
            if "job" in table.c:
                query = select(func.count()).select_from(table).where(table.c.job == "j")
                assert connection.execute(query).scalar_one() == 0
    assert store.job_ids() == ("other",)
    for call in (
        lambda: store.add([entry(2, SPOT, "48")]),
        lambda: store.entries("j"),
        lambda: store.delete_job("j"),
    ):
        with pytest.raises(NotInStore, match="deleted"):
            call()


def test_a_whole_kitchen_goes_in_and_out(store: Store) -> None:
    """A job file put into the store, read and folded, is the same job file."""
    store.add(import_job(to_dict(LARKSPUR), "truck", job="j", act="a"))
    assert export_toml(store.entries("j")) == to_toml(LARKSPUR)
    assert json.loads(json.dumps(fold(store.entries("j")).unsettled)) == []


def test_a_reader_sees_one_state(store: Store, url: str) -> None:
    """What is read in one go is of one moment, whatever is written meanwhile."""
    store.add([entry(1, SPOT, "48")])
    query = select(func.count()).select_from(METADATA.tables["entries"])
    with store.database.reading() as connection:
        before = connection.execute(query).scalar_one()
        other = Store(Database(url))
        other.add([entry(2, SPOT, "47")])
        other.close()
        assert connection.execute(query).scalar_one() == before == 1
    assert store.revision("j") == 2


def test_another_process_opens_the_same_store(store: Store, url: str) -> None:
    """What one wrote the other reads; opening a store that is up to date changes nothing."""
    store.add([entry(1, SPOT, "48")])
    again = Store(Database(url))
    assert again.entries("j") == store.entries("j")
    again.close()
