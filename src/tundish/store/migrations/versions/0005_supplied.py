"""What of the supplied catalogue has been seen here, so that what the user takes out stays out."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Take the schema one step up."""
    op.create_table(
        "supplied",
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("what", "key", name=op.f("pk_supplied")),
    )


def downgrade() -> None:
    """Take it back."""
    op.drop_table("supplied")
