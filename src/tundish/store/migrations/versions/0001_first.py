"""first."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Take the schema one step up."""
    _jobs()
    _revisions()
    _papers()
    _items()
    _kits()
    _movements()
    _offers()
    _overruled()
    _rack()
    _roles()
    _settings()
    _suppliers()


def downgrade() -> None:
    """Take it back."""
    op.drop_table("revisions")
    with op.batch_alter_table("papers", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_papers_job"))

    op.drop_table("papers")
    op.drop_table("suppliers")
    op.drop_table("settings")
    op.drop_table("roles")
    op.drop_table("rack")
    op.drop_table("overruled")
    with op.batch_alter_table("offers", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_offers_item"))

    op.drop_table("offers")
    with op.batch_alter_table("movements", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_movements_item"))

    op.drop_table("movements")
    op.drop_table("kits")
    with op.batch_alter_table("jobs", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_jobs_number"))

    op.drop_table("jobs")
    with op.batch_alter_table("items", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_items_kind"))

    op.drop_table("items")


def _jobs() -> None:
    op.create_table(
        "jobs",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("client", sa.Text(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("touched", sa.Text(), nullable=False),
        sa.Column("put_away", sa.Boolean(), nullable=False),
        sa.Column("place", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_jobs")),
    )
    with op.batch_alter_table("jobs", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_jobs_number"), ["number"], unique=False)


def _revisions() -> None:
    op.create_table(
        "revisions",
        sa.Column("job", sa.Integer(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("from_revision", sa.Integer(), nullable=False),
        sa.Column("label", sa.Text(), nullable=False),
        sa.Column("made", sa.Text(), nullable=False),
        sa.Column("body", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["job"], ["jobs.id"], name=op.f("fk_revisions_job_jobs"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("job", "revision", name=op.f("pk_revisions")),
    )


def _papers() -> None:
    op.create_table(
        "papers",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job", sa.Integer(), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("format", sa.Text(), nullable=False),
        sa.Column("book_date", sa.Text(), nullable=False),
        sa.Column("made", sa.Text(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("body", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["job"], ["jobs.id"], name=op.f("fk_papers_job_jobs"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_papers")),
    )
    with op.batch_alter_table("papers", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_papers_job"), ["job"], unique=False)


def _items() -> None:
    op.create_table(
        "items",
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("body", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("code", name=op.f("pk_items")),
    )
    with op.batch_alter_table("items", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_items_kind"), ["kind"], unique=False)


def _kits() -> None:
    op.create_table(
        "kits",
        sa.Column("kit", sa.Text(), nullable=False),
        sa.Column("item", sa.Text(), nullable=False),
        sa.Column("amount", sa.Float(), nullable=False),
        sa.PrimaryKeyConstraint("kit", "item", name=op.f("pk_kits")),
    )


def _movements() -> None:
    op.create_table(
        "movements",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("item", sa.Text(), nullable=False),
        sa.Column("amount", sa.Float(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("place", sa.Text(), nullable=False),
        sa.Column("job", sa.Text(), nullable=False),
        sa.Column("made", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_movements")),
    )
    with op.batch_alter_table("movements", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_movements_item"), ["item"], unique=False)


def _offers() -> None:
    op.create_table(
        "offers",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("item", sa.Text(), nullable=False),
        sa.Column("supplier", sa.Text(), nullable=False),
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("pack", sa.Float(), nullable=False),
        sa.Column("price", sa.Text(), nullable=False),
        sa.Column("valid_from", sa.Text(), nullable=False),
        sa.Column("length", sa.Float(), nullable=False),
        sa.Column("width", sa.Float(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_offers")),
    )
    with op.batch_alter_table("offers", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_offers_item"), ["item"], unique=False)


def _overruled() -> None:
    op.create_table(
        "overruled",
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("value", sa.Float(), nullable=False),
        sa.Column("changed", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_overruled")),
    )


def _rack() -> None:
    op.create_table(
        "rack",
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("item", sa.Text(), nullable=False),
        sa.Column("length", sa.Float(), nullable=False),
        sa.Column("width", sa.Float(), nullable=False),
        sa.Column("place", sa.Text(), nullable=False),
        sa.Column("job", sa.Text(), nullable=False),
        sa.Column("made", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_rack")),
    )


def _roles() -> None:
    op.create_table(
        "roles",
        sa.Column("role", sa.Text(), nullable=False),
        sa.Column("item", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("role", name=op.f("pk_roles")),
    )


def _settings() -> None:
    op.create_table(
        "settings",
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("body", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_settings")),
    )


def _suppliers() -> None:
    op.create_table(
        "suppliers",
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("body", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_suppliers")),
    )
