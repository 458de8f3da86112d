"""The files that goods were taken in from, so that none is taken in twice."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Take the schema one step up."""
    op.create_table(
        "goods_files",
        sa.Column("says", sa.Text(), nullable=False),
        sa.Column("order", sa.Integer(), nullable=False),
        sa.Column("made", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["order"], ["orders.id"], name=op.f("fk_goods_files_order_orders"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("says", name=op.f("pk_goods_files")),
    )
    op.create_index(op.f("ix_goods_files_order"), "goods_files", ["order"])


def downgrade() -> None:
    """Take it back."""
    op.drop_index(op.f("ix_goods_files_order"), "goods_files")
    op.drop_table("goods_files")
