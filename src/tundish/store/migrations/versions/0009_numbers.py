"""Every number that was given, from the revisions and quotes that are kept."""

from __future__ import annotations

import json
from collections.abc import Iterator

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None

WORDS = ("number", "kind", "job_number", "what", "made", "gone", "why")
LISTS = (("invoices", "bill", "Invoice"), ("variations", "variation", "Variation"))
Row = dict[str, object]


def upgrade() -> None:
    """Take the schema one step up."""
    made = op.create_table(
        "numbers",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job", sa.Integer(), nullable=False),
        *(sa.Column(name, sa.Text(), nullable=False, server_default="" if name in {"gone", "why"} else None) for name in WORDS),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_numbers")),
    )
    op.create_index(op.f("ix_numbers_job"), "numbers", ["job"])
    op.create_index(op.f("ix_numbers_number"), "numbers", ["number"])
    if rows := [*_in_jobs(), *_quotes()]:
        op.bulk_insert(made, rows)


def downgrade() -> None:
    """Take it back."""
    op.drop_index(op.f("ix_numbers_number"), "numbers")
    op.drop_index(op.f("ix_numbers_job"), "numbers")
    op.drop_table("numbers")


def _in_jobs() -> Iterator[Row]:
    """Bills and variations of every revision that is kept: those that the last one has not are gone."""
    query = "SELECT r.job, r.made, r.body, j.number, j.touched FROM revisions r JOIN jobs j ON j.id = r.job ORDER BY r.job, r.revision"
    seen: dict[tuple[object, str, str], Row] = {}
    last: dict[object, set[tuple[object, str, str]]] = {}
    touched: dict[object, str] = {}
    for job, made, body, of_job, when in op.get_bind().execute(sa.text(query)):
        touched[job] = when
        last[job] = set()
        for kind, number, words in _numbered(bytes(body)):
            key = (job, kind, number)
            last[job].add(key)
            seen.setdefault(key, _row(kind, number, (job, of_job), words, made))
    for key, row in seen.items():
        if key not in last[key[0]]:
            row |= {"gone": touched[key[0]], "why": "undone before numbers were kept"}
        yield row


def _quotes() -> Iterator[Row]:
    """The quotes that went out, by the number in their names; each once."""
    query = "SELECT p.job, p.name, p.made, j.number FROM papers p JOIN jobs j ON j.id = p.job WHERE p.key = 'quote' ORDER BY p.id"
    seen = set()
    for job, name, made, of_job in op.get_bind().execute(sa.text(query)):
        number = (name.removeprefix("Quote ").split() or [""])[0]
        if of_job and number.startswith(of_job) and (job, number) not in seen:
            seen.add((job, number))
            yield _row("quote", number, (job, of_job), "Quote", made)


def _row(kind: str, number: str, job: tuple[object, str], words: str, made: str) -> Row:
    return {"number": number, "kind": kind, "job": job[0], "job_number": job[1], "what": words, "made": made, "gone": "", "why": ""}


def _numbered(body: bytes) -> Iterator[tuple[str, str, str]]:
    if not any(f'"{listed}"'.encode() in body for listed, _, _ in LISTS):
        return
    plain = json.loads(body)
    for listed, kind, words in LISTS:
        for each in plain.get(listed, []):
            yield kind, str(each.get("number", "")), words
