"""What issued papers said line by line, why they were issued anew, and what a quote offered."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None

COLUMNS = (("said", "[]"), ("why", ""), ("offers", "[]"))


def upgrade() -> None:
    """Take the schema one step up."""
    for name, usual in COLUMNS:
        op.add_column("papers", sa.Column(name, sa.Text(), nullable=False, server_default=usual))


def downgrade() -> None:
    """Take it back."""
    for name, _ in COLUMNS:
        op.drop_column("papers", name)
