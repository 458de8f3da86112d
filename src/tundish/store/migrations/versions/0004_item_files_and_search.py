"""Pictures and makers' sheets kept with items; an index of words over offers, where the database is SQLite."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from tundish.store.offer_search import MAKE, TAKE_AWAY

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Take the schema one step up."""
    op.create_table(
        "item_files",
        sa.Column("item", sa.Text(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("media", sa.Text(), nullable=False),
        sa.Column("body", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("item", "key", name=op.f("pk_item_files")),
    )
    _run(MAKE)


def downgrade() -> None:
    """Take it back."""
    _run(TAKE_AWAY)
    op.drop_table("item_files")


def _run(statements: tuple[str, ...]) -> None:
    if op.get_bind().dialect.name == "sqlite":
        for statement in statements:
            op.execute(sa.text(statement.replace(":", r"\:")))
