"""Issued papers: the bytes as they were printed, what they said, why they were issued anew, and what was offered by them."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tundish.documents.said import Said
from tundish.plain import from_plain, to_plain
from tundish.pricing.variation import Agreed, Offer

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row


@dataclass(frozen=True, slots=True)
class Paper:
    """An issued paper: the bytes as they were printed, and the revision they were made from.

    `said` are its lines, `why` the trader's words for issuing it anew, `offers` what a quote offered.
    """

    key: str
    name: str
    format: str
    revision: int
    made: str
    text: str
    body: bytes
    said: tuple[Said, ...] = ()
    why: str = ""
    offers: tuple[Offer, ...] = ()


def keep(connection: Connection, job_id: int, paper: Paper, day: str) -> None:
    """Keep a paper as it was issued, with the day of the book it was made from."""
    from sqlalchemy import insert

    from tundish.store.tables import papers

    row = {"job": job_id, "revision": paper.revision, "key": paper.key, "name": paper.name, "format": paper.format}
    row |= {"book_date": day, "made": paper.made, "text": paper.text, "body": paper.body, "why": paper.why}
    row |= {"said": json.dumps([[each.what, each.cells] for each in paper.said], ensure_ascii=False)}
    row |= {"offers": json.dumps([[each.option, to_plain(each.agreed)] for each in paper.offers], ensure_ascii=False)}
    connection.execute(insert(papers), [row])


def of(connection: Connection, job_id: int, key: str = "") -> tuple[Paper, ...]:
    """The papers issued for a job, oldest first; of one key where it is given."""
    from sqlalchemy import select

    from tundish.store.tables import papers

    wanted = (papers.c.job == job_id) & (papers.c.key == key) if key else papers.c.job == job_id
    rows = connection.execute(select(papers).where(wanted).order_by(papers.c.id))
    return tuple(_paper(row) for row in rows)


def _paper(row: Row[tuple[object, ...]]) -> Paper:
    said = tuple(Said(what, tuple((head, words) for head, words in cells)) for what, cells in json.loads(row.said))
    read = ((option, from_plain(Agreed, plain)[0]) for option, plain in json.loads(row.offers))
    offers = tuple(Offer(option, agreed) for option, agreed in read if agreed is not None)
    return Paper(row.key, row.name, row.format, row.revision, row.made, row.text, row.body, said, row.why, offers)
