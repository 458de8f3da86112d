"""A variation of demonstration jobs, word for word. With GOLDEN=1 they are written anew: read each change before it is kept."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Final

import pytest

from tundish.catalogue.load import supplied_book
from tundish.cutting.plan import Effort
from tundish.documents.index import build
from tundish.estimate import Job, estimate
from tundish.field import put, removed
from tundish.pricing.terms import Extra
from tundish.store.keep import demo_jobs
from tundish.varying import agree, both_ways, variation_of
from tundish.writers.text import as_text

GOLDEN: Final = Path(__file__).parent / "golden"
JOBS: Final = {job.number: job for job in demo_jobs()}


def permit(job: Job) -> Job:
    return put(job, "terms.extras", (*job.terms.extras, Extra(what="Skip permit for two weeks", amount=Decimal("85.00"))))


def no_bidet(job: Job) -> Job:
    return removed(job, "rooms.0.design.appliances", 1)


def full_height(job: Job) -> Job:
    return put(job, "rooms.0.design.prewall.height", "full")


CHANGES: Final[dict[str, tuple[Callable[[Job], Job], str]]] = {
    "101": (permit, "The council asks for a permit: the skip has to stand on the road."),
    "102": (no_bidet, "You would rather have the room than the bidet."),
    "104": (full_height, "You want the wall to go up to the ceiling, without the shelf.\nWe spoke of it on the Monday."),
}


@pytest.mark.parametrize("number", sorted(CHANGES))
def test_a_variation_reads_as_it_did(number: str) -> None:
    book, (change, why) = supplied_book(), CHANGES[number]
    job = replace(JOBS[number], agreed=agree(estimate(JOBS[number], book, Effort.BEST), "2026-12-01"))
    job = replace(change(job), why_varied=why)
    made = variation_of(job, both_ways(job, book), "2026-12-08")
    assert made is not None
    (document,) = build("variations", estimate(replace(job, variations=(made,)), book))
    file, text = GOLDEN / number / f"{document.key}.txt", as_text(document)
    if os.environ.get("GOLDEN"):
        file.write_text(text, encoding="utf-8")
    assert text == file.read_text(encoding="utf-8")
