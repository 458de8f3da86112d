"""The index of words over offers keeps no second copy of them."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from tundish.store.offer_search import MAKE, TAKE_AWAY

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Take the schema one step up."""
    if op.get_bind().dialect.name == "sqlite":
        for statement in (*TAKE_AWAY, *MAKE):
            op.execute(sa.text(statement.replace(":", r"\:")))


def downgrade() -> None:
    """An earlier program finds by this index as well, and keeps it true by the triggers that are there."""
