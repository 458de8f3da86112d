"""What imports changed is only ever read whole, by an undo: it keeps no index, and no import goes that its rows would follow."""

from __future__ import annotations

from alembic import op

revision = "0011"
down_revision = "0010"
branch_labels = None
depends_on = None

_FOLLOWS = "fk_price_changes_import_imports"


def upgrade() -> None:
    """Take the schema one step up."""
    op.drop_index(op.f("ix_price_changes_import"), "price_changes")
    with op.batch_alter_table("price_changes") as table:
        table.drop_constraint(op.f(_FOLLOWS), type_="foreignkey")


def downgrade() -> None:
    """Take it back."""
    with op.batch_alter_table("price_changes") as table:
        table.create_foreign_key(op.f(_FOLLOWS), "imports", ["import"], ["id"], ondelete="CASCADE")
    op.create_index(op.f("ix_price_changes_import"), "price_changes", ["import"])
