"""The ledger knows pieces; reorder levels, orders with their lines, price breaks and what a price list changed."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Take the schema one step up."""
    _offers()
    _movements()
    _orders()
    _imports()
    op.create_table(
        "reorder",
        sa.Column("item", sa.Text(), nullable=False),
        sa.Column("level", sa.Float(), nullable=False),
        sa.Column("amount", sa.Float(), nullable=False),
        sa.PrimaryKeyConstraint("item", name=op.f("pk_reorder")),
    )


def downgrade() -> None:
    """Take it back."""
    for table, column in (("price_changes", "import"), ("order_lines", "order"), ("orders", "job")):
        op.drop_index(op.f(f"ix_{table}_{column}"), table_name=table)
        op.drop_table(table)
    op.drop_table("imports")
    op.drop_table("reorder")
    op.execute("DELETE FROM movements WHERE piece <> ''")
    with op.batch_alter_table("movements", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_movements_piece"))
        batch_op.drop_column("piece")
    with op.batch_alter_table("offers", schema=None) as batch_op:
        for column in ("lead_days", "valid_to", "breaks", "least"):
            batch_op.drop_column(column)


def _offers() -> None:
    with op.batch_alter_table("offers", schema=None) as batch_op:
        batch_op.add_column(sa.Column("least", sa.Integer(), nullable=False, server_default="1"))
        batch_op.add_column(sa.Column("breaks", sa.JSON(), nullable=False, server_default="[]"))
        batch_op.add_column(sa.Column("valid_to", sa.Text(), nullable=False, server_default=""))
        batch_op.add_column(sa.Column("lead_days", sa.Integer(), nullable=True))


def _movements() -> None:
    with op.batch_alter_table("movements", schema=None) as batch_op:
        batch_op.add_column(sa.Column("piece", sa.Text(), nullable=False, server_default=""))
        batch_op.create_index(batch_op.f("ix_movements_piece"), ["piece"], unique=False)
    # Every piece on the rack gets the movement that put it there.
    op.execute(
        "INSERT INTO movements (item, amount, what, place, job, made, note, piece) "
        "SELECT item, 1, 'stock-take', place, job, made, 'first stock', key FROM rack"
    )


def _orders() -> None:
    op.create_table(
        "orders",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Text(), nullable=False),
        sa.Column("supplier", sa.Text(), nullable=False),
        sa.Column("job", sa.Text(), nullable=False),
        sa.Column("made", sa.Text(), nullable=False),
        sa.Column("sent", sa.Text(), nullable=False),
        sa.Column("how", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_orders")),
    )
    op.create_index(op.f("ix_orders_job"), "orders", ["job"], unique=False)
    op.create_table(
        "order_lines",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("order", sa.Integer(), nullable=False),
        sa.Column("item", sa.Text(), nullable=False),
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("pack", sa.Float(), nullable=False),
        sa.Column("price", sa.Text(), nullable=False),
        sa.Column("length", sa.Float(), nullable=False),
        sa.Column("width", sa.Float(), nullable=False),
        *(sa.Column(name, sa.Integer(), nullable=False) for name in ("packs", "came", "short", "returned")),
        sa.Column("credit", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["order"], ["orders.id"], name=op.f("fk_order_lines_order_orders"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_order_lines")),
    )
    op.create_index(op.f("ix_order_lines_order"), "order_lines", ["order"], unique=False)


def _imports() -> None:
    op.create_table(
        "imports",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("supplier", sa.Text(), nullable=False),
        sa.Column("file", sa.Text(), nullable=False),
        sa.Column("made", sa.Text(), nullable=False),
        sa.Column("undone", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_imports")),
    )
    op.create_table(
        "price_changes",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("import", sa.Integer(), nullable=False),
        sa.Column("offer", sa.Integer(), nullable=False),
        sa.Column("before", sa.JSON(), nullable=True),
        sa.Column("after", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["import"], ["imports.id"], name=op.f("fk_price_changes_import_imports"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_price_changes")),
    )
    op.create_index(op.f("ix_price_changes_import"), "price_changes", ["import"], unique=False)
