"""The tables of the database. Jobs are JSON by revision with a few columns to find them by; the rest are rows."""

from __future__ import annotations

from typing import Final

import sqlalchemy as sa

META: Final = sa.MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
        "ix": "ix_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_name)s",
    }
)

jobs = sa.Table(
    "jobs",
    META,
    sa.Column("id", sa.Integer, primary_key=True),
    sa.Column("number", sa.Text, nullable=False, index=True),
    sa.Column("client", sa.Text, nullable=False),
    sa.Column("title", sa.Text, nullable=False),
    sa.Column("revision", sa.Integer, nullable=False),
    sa.Column("touched", sa.Text, nullable=False),
    sa.Column("put_away", sa.Boolean, nullable=False, default=False),
    sa.Column("place", sa.Text, nullable=False, default=""),
)
revisions = sa.Table(
    "revisions",
    META,
    sa.Column("job", sa.ForeignKey("jobs.id", ondelete="CASCADE"), primary_key=True),
    sa.Column("revision", sa.Integer, primary_key=True),
    sa.Column("from_revision", sa.Integer, nullable=False),
    sa.Column("label", sa.Text, nullable=False),
    sa.Column("made", sa.Text, nullable=False),
    sa.Column("body", sa.LargeBinary, nullable=False),
    sa.Column("ahead", sa.Integer, nullable=False, server_default="0"),
)
items = sa.Table(
    "items",
    META,
    sa.Column("code", sa.Text, primary_key=True),
    sa.Column("kind", sa.Text, nullable=False, index=True),
    sa.Column("body", sa.JSON, nullable=False),
)
roles = sa.Table("roles", META, sa.Column("role", sa.Text, primary_key=True), sa.Column("item", sa.Text, nullable=False))
kits = sa.Table(
    "kits",
    META,
    sa.Column("kit", sa.Text, primary_key=True),
    sa.Column("item", sa.Text, primary_key=True),
    sa.Column("amount", sa.Float, nullable=False),
)
suppliers = sa.Table("suppliers", META, sa.Column("key", sa.Text, primary_key=True), sa.Column("body", sa.JSON, nullable=False))
offers = sa.Table(
    "offers",
    META,
    sa.Column("id", sa.Integer, primary_key=True),
    sa.Column("item", sa.Text, nullable=False, index=True),
    sa.Column("supplier", sa.Text, nullable=False),
    sa.Column("code", sa.Text, nullable=False),
    sa.Column("pack", sa.Float, nullable=False),
    sa.Column("price", sa.Text, nullable=False),
    sa.Column("valid_from", sa.Text, nullable=False),
    sa.Column("length", sa.Float, nullable=False),
    sa.Column("width", sa.Float, nullable=False),
    sa.Column("least", sa.Integer, nullable=False, server_default="1"),
    sa.Column("breaks", sa.JSON, nullable=False, server_default="[]"),
    sa.Column("valid_to", sa.Text, nullable=False, server_default=""),
    sa.Column("lead_days", sa.Integer),
)
movements = sa.Table(
    "movements",
    META,
    sa.Column("id", sa.Integer, primary_key=True),
    sa.Column("item", sa.Text, nullable=False, index=True),
    sa.Column("amount", sa.Float, nullable=False),
    sa.Column("what", sa.Text, nullable=False),
    sa.Column("place", sa.Text, nullable=False),
    sa.Column("job", sa.Text, nullable=False, default=""),
    sa.Column("made", sa.Text, nullable=False),
    sa.Column("note", sa.Text, nullable=False, default=""),
    sa.Column("piece", sa.Text, nullable=False, server_default="", index=True),
)
reorder = sa.Table(
    "reorder",
    META,
    sa.Column("item", sa.Text, primary_key=True),
    sa.Column("level", sa.Float, nullable=False),
    sa.Column("amount", sa.Float, nullable=False),
)
orders = sa.Table(
    "orders",
    META,
    sa.Column("id", sa.Integer, primary_key=True),
    sa.Column("number", sa.Text, nullable=False),
    sa.Column("supplier", sa.Text, nullable=False),
    sa.Column("job", sa.Text, nullable=False, index=True),
    sa.Column("made", sa.Text, nullable=False),
    sa.Column("sent", sa.Text, nullable=False),
    sa.Column("how", sa.Text, nullable=False),
)
order_lines = sa.Table(
    "order_lines",
    META,
    sa.Column("id", sa.Integer, primary_key=True),
    sa.Column("order", sa.ForeignKey("orders.id", ondelete="CASCADE"), nullable=False, index=True),
    sa.Column("item", sa.Text, nullable=False),
    sa.Column("code", sa.Text, nullable=False),
    sa.Column("pack", sa.Float, nullable=False),
    sa.Column("price", sa.Text, nullable=False),
    sa.Column("length", sa.Float, nullable=False),
    sa.Column("width", sa.Float, nullable=False),
    sa.Column("packs", sa.Integer, nullable=False),
    sa.Column("came", sa.Integer, nullable=False),
    sa.Column("short", sa.Integer, nullable=False),
    sa.Column("returned", sa.Integer, nullable=False),
    sa.Column("credit", sa.Text, nullable=False),
)
goods_files = sa.Table(
    "goods_files",
    META,
    sa.Column("says", sa.Text, primary_key=True),
    sa.Column("order", sa.ForeignKey("orders.id", ondelete="CASCADE"), nullable=False, index=True),
    sa.Column("made", sa.Text, nullable=False),
)
imports = sa.Table(
    "imports",
    META,
    sa.Column("id", sa.Integer, primary_key=True),
    sa.Column("supplier", sa.Text, nullable=False),
    sa.Column("file", sa.Text, nullable=False),
    sa.Column("made", sa.Text, nullable=False),
    sa.Column("undone", sa.Text, nullable=False),
)
price_changes = sa.Table(
    "price_changes",
    META,
    sa.Column("id", sa.Integer, primary_key=True),
    # Neither key nor index: rows by the ten thousand are put in with every list, and read only when one is undone.
    sa.Column("import", sa.Integer, nullable=False),
    sa.Column("offer", sa.Integer, nullable=False),
    sa.Column("code", sa.Text, nullable=False),
    sa.Column("price", sa.Text, nullable=False),
    # What was before; none of it where the offer is new.
    sa.Column("was_pack", sa.Float),
    sa.Column("was_price", sa.Text),
    sa.Column("was_valid_from", sa.Text),
    sa.Column("was_least", sa.Integer),
)
rack = sa.Table(
    "rack",
    META,
    sa.Column("key", sa.Text, primary_key=True),
    sa.Column("item", sa.Text, nullable=False),
    sa.Column("length", sa.Float, nullable=False),
    sa.Column("width", sa.Float, nullable=False),
    sa.Column("place", sa.Text, nullable=False),
    sa.Column("job", sa.Text, nullable=False, default=""),
    sa.Column("made", sa.Text, nullable=False),
)
overruled = sa.Table(
    "overruled",
    META,
    sa.Column("key", sa.Text, primary_key=True),
    sa.Column("value", sa.Float, nullable=False),
    sa.Column("changed", sa.Text, nullable=False),
)
papers = sa.Table(
    "papers",
    META,
    sa.Column("id", sa.Integer, primary_key=True),
    sa.Column("job", sa.ForeignKey("jobs.id", ondelete="CASCADE"), nullable=False, index=True),
    sa.Column("revision", sa.Integer, nullable=False),
    sa.Column("key", sa.Text, nullable=False),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("format", sa.Text, nullable=False),
    sa.Column("book_date", sa.Text, nullable=False),
    sa.Column("made", sa.Text, nullable=False),
    sa.Column("text", sa.Text, nullable=False),
    sa.Column("body", sa.LargeBinary, nullable=False),
    sa.Column("said", sa.Text, nullable=False, server_default="[]"),
    sa.Column("why", sa.Text, nullable=False, server_default=""),
    sa.Column("offers", sa.Text, nullable=False, server_default="[]"),
)
numbers = sa.Table(
    "numbers",
    META,
    sa.Column("id", sa.Integer, primary_key=True),
    # No foreign key: a number stays given when its job is gone.
    sa.Column("job", sa.Integer, nullable=False, index=True),
    sa.Column("number", sa.Text, nullable=False, index=True),
    sa.Column("kind", sa.Text, nullable=False),
    sa.Column("job_number", sa.Text, nullable=False),
    sa.Column("what", sa.Text, nullable=False),
    sa.Column("made", sa.Text, nullable=False),
    sa.Column("gone", sa.Text, nullable=False, server_default=""),
    sa.Column("why", sa.Text, nullable=False, server_default=""),
)
photographs = sa.Table(
    "photographs",
    META,
    sa.Column("job", sa.ForeignKey("jobs.id", ondelete="CASCADE"), primary_key=True),
    sa.Column("key", sa.Text, primary_key=True),
    sa.Column("media", sa.Text, nullable=False),
    sa.Column("body", sa.LargeBinary, nullable=False),
)
item_files = sa.Table(
    "item_files",
    META,
    sa.Column("item", sa.Text, primary_key=True),
    sa.Column("key", sa.Text, primary_key=True),
    sa.Column("name", sa.Text, nullable=False),
    sa.Column("media", sa.Text, nullable=False),
    sa.Column("body", sa.LargeBinary, nullable=False),
)
supplied = sa.Table("supplied", META, sa.Column("what", sa.Text, primary_key=True), sa.Column("key", sa.Text, primary_key=True))
settings = sa.Table("settings", META, sa.Column("key", sa.Text, primary_key=True), sa.Column("body", sa.JSON, nullable=False))
