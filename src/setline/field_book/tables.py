"""The store's tables, in SQLAlchemy Core: entries first, and the little that stands beside them.

Entries are only ever added. ``seq`` is the order in which they reached this store; it says what is new since
a page was made and orders nothing in the Job.
"""

from __future__ import annotations

from sqlalchemy import Boolean, Column, ForeignKey, Index, Integer, LargeBinary, MetaData, String, Table, Text

__all__ = ["METADATA", "devices", "entries", "jobs", "links", "photos", "prints"]

METADATA = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "pk": "pk_%(table_name)s",
    }
)

jobs = Table(
    "jobs",
    METADATA,
    Column("id", String(64), primary_key=True),
    Column("made_at", String(40), nullable=False, default=""),
    Column(
        "is_deleted", Boolean, nullable=False, default=False
    ),  # kept, so that a late entry cannot raise it again
)

entries = Table(
    "entries",
    METADATA,
    Column("seq", Integer, primary_key=True, autoincrement=True),
    Column("id", String(64), nullable=False, unique=True),
    Column("job", String(64), ForeignKey("jobs.id"), nullable=False),
    Column("device", String(64), nullable=False),
    Column("n", String(20), nullable=False),  # text: a phone's count may pass 32 bits
    Column("over", Text, nullable=False, default="[]"),
    Column("by", String(80), nullable=False, default=""),
    Column("at", String(40), nullable=False, default=""),
    Column("place", String(300), nullable=False),
    Column("value", Text, nullable=False, default="null"),
    Column("taken_back", Boolean, nullable=False, default=False),
    Index("ix_entries_job_seq", "job", "seq"),
    Index("ix_entries_job_place", "job", "place"),
)

devices = Table(
    "devices",
    METADATA,
    Column("id", String(64), primary_key=True),
    Column("name", String(80), nullable=False),
    Column("token_hash", LargeBinary, nullable=False, unique=True),
    Column("role", String(10), nullable=False),  # host, crew or guest
    Column("job", String(64), nullable=True),  # a guest sees this one
    Column("made_at", String(40), nullable=False),
    Column("expires_at", String(40), nullable=False),
    Column("is_revoked", Boolean, nullable=False, default=False),
)

photos = Table(
    "photos",
    METADATA,
    Column("id", String(64), primary_key=True),
    Column("job", String(64), ForeignKey("jobs.id"), nullable=False, index=True),
    Column("place", String(300), nullable=False),
    Column("device", String(64), nullable=False),
    Column("at", String(40), nullable=False, default=""),
    Column("width", Integer, nullable=False),
    Column("height", Integer, nullable=False),
    Column("bytes", Integer, nullable=False),
)

prints = Table(
    "prints",
    METADATA,
    Column("job", String(64), ForeignKey("jobs.id"), primary_key=True),
    Column("revision", String(4), primary_key=True),
    Column("check_code", String(12), nullable=False),
    Column("numbers", Text, nullable=False),  # every printed number, to tell whether the next differs
    Column("at", String(40), nullable=False),
)

links = Table(
    "links",
    METADATA,
    Column("token_hash", LargeBinary, primary_key=True),
    Column("job", String(64), ForeignKey("jobs.id"), nullable=False),
    Column("made_at", String(40), nullable=False),
    Column("expires_at", String(40), nullable=False),
    Column("is_revoked", Boolean, nullable=False, default=False),
)
