"""The first tables: jobs, entries, devices, photos, prints, links."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "jobs",
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("made_at", sa.String(40), nullable=False),
        sa.Column("is_deleted", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_jobs"),
    )
    op.create_table(
        "entries",
        sa.Column("seq", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("job", sa.String(64), nullable=False),
        sa.Column("device", sa.String(64), nullable=False),
        sa.Column("n", sa.String(20), nullable=False),
        sa.Column("over", sa.Text(), nullable=False),
        sa.Column("by", sa.String(80), nullable=False),
        sa.Column("at", sa.String(40), nullable=False),
        sa.Column("place", sa.String(300), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.Column("taken_back", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("seq", name="pk_entries"),
        sa.UniqueConstraint("id", name="uq_entries_id"),
        sa.ForeignKeyConstraint(["job"], ["jobs.id"], name="fk_entries_job"),
    )
    op.create_index("ix_entries_job_seq", "entries", ["job", "seq"])
    op.create_index("ix_entries_job_place", "entries", ["job", "place"])
    op.create_table(
        "devices",
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("name", sa.String(80), nullable=False),
        sa.Column("token_hash", sa.LargeBinary(), nullable=False),
        sa.Column("role", sa.String(10), nullable=False),
        sa.Column("job", sa.String(64), nullable=True),
        sa.Column("made_at", sa.String(40), nullable=False),
        sa.Column("expires_at", sa.String(40), nullable=False),
        sa.Column("is_revoked", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_devices"),
        sa.UniqueConstraint("token_hash", name="uq_devices_token_hash"),
    )
    op.create_table(
        "photos",
        sa.Column("id", sa.String(64), nullable=False),
        sa.Column("job", sa.String(64), nullable=False),
        sa.Column("place", sa.String(300), nullable=False),
        sa.Column("device", sa.String(64), nullable=False),
        sa.Column("at", sa.String(40), nullable=False),
        sa.Column("width", sa.Integer(), nullable=False),
        sa.Column("height", sa.Integer(), nullable=False),
        sa.Column("bytes", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_photos"),
        sa.ForeignKeyConstraint(["job"], ["jobs.id"], name="fk_photos_job"),
    )
    op.create_index("ix_photos_job", "photos", ["job"])
    op.create_table(
        "prints",
        sa.Column("job", sa.String(64), nullable=False),
        sa.Column("revision", sa.String(4), nullable=False),
        sa.Column("check_code", sa.String(12), nullable=False),
        sa.Column("numbers", sa.Text(), nullable=False),
        sa.Column("at", sa.String(40), nullable=False),
        sa.PrimaryKeyConstraint("job", "revision", name="pk_prints"),
        sa.ForeignKeyConstraint(["job"], ["jobs.id"], name="fk_prints_job"),
    )
    op.create_table(
        "links",
        sa.Column("token_hash", sa.LargeBinary(), nullable=False),
        sa.Column("job", sa.String(64), nullable=False),
        sa.Column("made_at", sa.String(40), nullable=False),
        sa.Column("expires_at", sa.String(40), nullable=False),
        sa.Column("is_revoked", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("token_hash", name="pk_links"),
        sa.ForeignKeyConstraint(["job"], ["jobs.id"], name="fk_links_job"),
    )
