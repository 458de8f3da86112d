"""What an import changed as columns, so that a list of any length is undone by the database itself; a lighter index of words."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from tundish.store.offer_search import MAKE, TAKE_AWAY

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Take the schema one step up."""
    old = _moved_aside(sa.Column("before", sa.JSON(), nullable=True), sa.Column("after", sa.JSON(), nullable=False))
    new = _made(
        sa.Column("code", sa.Text(), nullable=False),
        sa.Column("price", sa.Text(), nullable=False),
        sa.Column("was_pack", sa.Float(), nullable=True),
        sa.Column("was_price", sa.Text(), nullable=True),
        sa.Column("was_valid_from", sa.Text(), nullable=True),
        sa.Column("was_least", sa.Integer(), nullable=True),
    )
    was, now = old.c.before, old.c.after
    kept = (now["code"].as_string(), now["price"].as_string())
    before = (was["pack"].as_float(), was["price"].as_string(), was["valid_from"].as_string(), was["least"].as_integer())
    _moved(old, new, (old.c.id, old.c["import"], old.c.offer, *kept, *before))
    if op.get_bind().dialect.name == "sqlite":
        for statement in (*TAKE_AWAY, *MAKE):
            op.execute(sa.text(statement.replace(":", r"\:")))


def downgrade() -> None:
    """Take it back; what an import changed is forgotten, the prices stay."""
    op.drop_index(op.f("ix_price_changes_import"), "price_changes")
    op.drop_table("price_changes")
    _made(sa.Column("before", sa.JSON(), nullable=True), sa.Column("after", sa.JSON(), nullable=False))


def _moved_aside(*columns: sa.Column[object]) -> sa.Table:
    op.drop_index(op.f("ix_price_changes_import"), "price_changes")
    op.rename_table("price_changes", "price_changes_before")
    whose = [sa.Column(name, sa.Integer()) for name in ("id", "import", "offer")]
    return sa.Table("price_changes_before", sa.MetaData(), *whose, *columns)


def _made(*columns: sa.Column[object]) -> sa.Table:
    made = op.create_table(
        "price_changes",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("import", sa.Integer(), nullable=False),
        sa.Column("offer", sa.Integer(), nullable=False),
        *columns,
        sa.ForeignKeyConstraint(["import"], ["imports.id"], name=op.f("fk_price_changes_import_imports"), ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_price_changes")),
    )
    op.create_index(op.f("ix_price_changes_import"), "price_changes", ["import"])
    return made


def _moved(old: sa.Table, new: sa.Table, columns: tuple[sa.ColumnElement[object], ...]) -> None:
    op.execute(sa.insert(new).from_select(list(new.c.keys()), sa.select(*columns)))
    op.drop_table(old.name)
