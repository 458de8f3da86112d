"""Photographs of a job."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Take the schema one step up."""
    op.create_table(
        "photographs",
        sa.Column("job", sa.Integer(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("media", sa.Text(), nullable=False),
        sa.Column("body", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["job"], ["jobs.id"], name=op.f("fk_photographs_job_jobs"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("job", "key", name=op.f("pk_photographs")),
    )


def downgrade() -> None:
    """Take the schema one step down."""
    op.drop_table("photographs")
