"""What can be done again from a revision."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0012"
down_revision = "0011"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Take the schema one step up: what was undone before was let go."""
    op.add_column("revisions", sa.Column("ahead", sa.Integer(), nullable=False, server_default="0"))


def downgrade() -> None:
    """Take it back."""
    op.drop_column("revisions", "ahead")
