"""The paper of a variation: what changes, why, its price, what is paid in all, and how every number before it stands."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from tundish.catalogue.book import Book
from tundish.documents import variation
from tundish.documents.block import Document, FillIn, Paragraph, Points, Sums, Table
from tundish.documents.index import build
from tundish.estimate import Estimate, Job, estimate
from tundish.field import put, removed
from tundish.pricing.terms import Extra
from tundish.pricing.variation import Agreed, Variation
from tundish.varying import agree, both_ways, variation_of
from tundish.writers.html import as_html
from tundish.writers.index import write
from tundish.writers.text import as_text


@pytest.fixture(scope="module")
def varied(jobs: dict[str, Job], book: Book) -> Job:
    """The family bathroom, accepted, and then without its bidet."""
    job = replace(jobs["102"], agreed=agree(estimate(jobs["102"], book), "2026-12-01"))
    return removed(put(job, "why_varied", "You would rather have the room."), "rooms.0.design.appliances", 1)


def offered(job: Job, book: Book) -> Job:
    made = variation_of(job, both_ways(job, book), "2026-12-08")
    assert made is not None
    return replace(job, variations=(*job.variations, made), why_varied="")


@pytest.fixture(scope="module")
def worked(varied: Job, book: Book) -> Estimate:
    return estimate(offered(varied, book), book)


@pytest.fixture(scope="module")
def made(worked: Estimate) -> Document:
    (document,) = build("variations", worked)
    return document


def tables(document: Document) -> list[Table]:
    return [block for block in document.blocks if isinstance(block, Table)]


def sums(document: Document) -> dict[str, Decimal]:
    return dict(next(block.rows for block in document.blocks if isinstance(block, Sums)))


def answered(worked: Estimate, **how: str) -> Estimate:
    (one,) = worked.job.variations
    return replace(worked, job=replace(worked.job, variations=(replace(one, **how),)))  # type: ignore[arg-type]  # days alone


def test_it_has_its_own_number_the_reason_as_typed_and_room_for_both_to_sign(made: Document) -> None:
    assert (made.title, made.number, made.name) == ("Variation", "102-V1", "Variation 102-V1 " + made.name.split()[-1])
    points = {block.title: block.items for block in made.blocks if isinstance(block, Points)}
    assert points["Why"] == ("You would rather have the room.",)
    (sign,) = [block for block in made.blocks if isinstance(block, FillIn)]
    assert sign.lines == ("Client", "Date", "Fitter", "Date")


def test_every_row_is_told_against_what_was_agreed_and_they_add_up(made: Document, worked: Estimate) -> None:
    prices = tables(made)[0]
    apart = [row.cells[3] for row in prices.rows]
    assert apart == [now - was for _, was, now, _ in (row.cells for row in prices.rows)]  # type: ignore[operator]
    told = sums(made)
    assert sum(each for each in apart if isinstance(each, Decimal)) == told["This variation before VAT"]
    assert told["This variation before VAT"] + told["VAT at 20 %"] == told["This variation with VAT"]
    assert told["Agreed before"] + told["This variation with VAT"] == told["You pay in all"]
    agreed = {row.what: row.net for row in worked.job.agreed.rows}
    assert all(agreed.get(str(row.cells[0]), Decimal(0)) == row.cells[1] for row in prices.rows)


def test_goods_are_added_taken_away_and_changed_without_price_or_hours(made: Document) -> None:
    goods = tables(made)[1]
    assert "Taken away" in [row.group for row in goods.rows]
    assert all(column.kind == "text" for column in goods.columns)
    assert all(row.group or row.cells[1] != row.cells[2] for row in goods.rows), "each row tells a difference"
    words = as_text(made).lower()
    assert not [each for each in ("hour", "mark-up", "labour", "margin") if each in words]


def test_a_withdrawn_one_says_so_and_the_next_accounts_for_its_number(worked: Estimate, book: Book) -> None:
    refused = answered(worked, withdrawn="2026-12-09")
    (paper,) = build("variations", refused)
    cautions = [block.text for block in paper.blocks if isinstance(block, Paragraph) and block.tone == "caution"]
    assert cautions == ["Withdrawn on Wed 9 Dec 2026: nothing of it was agreed."]
    again = estimate(offered(refused.job, book), book)
    last = build("variations", again)[-1]
    assert last.number == "102-V2"
    assert "Variation 102-V1: withdrawn" in as_text(last)
    assert sums(last)["Agreed before"] == sums(paper)["Agreed before"]


def test_what_was_accepted_before_is_in_the_sum_that_was_agreed(worked: Estimate, book: Book) -> None:
    (first,) = build("variations", worked)
    yes = answered(worked, accepted="2026-12-09").job
    skip = put(yes, "terms.extras", (*yes.terms.extras, Extra(what="Skip permit", amount=Decimal(85))))
    last = build("variations", estimate(offered(skip, book), book))[-1]
    assert sums(last)["Agreed before"] == sums(first)["You pay in all"]
    assert sums(last)["You pay in all"] == sums(first)["You pay in all"] + Decimal(102)
    assert [row.cells[0] for row in tables(last)[0].rows] == ["Skip permit"]


def test_a_paper_stays_as_it_was_made_whatever_the_job_becomes(made: Document, worked: Estimate, varied: Job, book: Book) -> None:
    later = replace(worked.job, rooms=varied.agreed.basis.rooms, terms=replace(worked.job.terms, labour_rate=Decimal(99)))
    (still,) = build("variations", estimate(later, book))
    assert still.blocks == made.blocks


def test_who_is_not_registered_varies_without_vat(jobs: dict[str, Job], book: Book) -> None:
    job = put(jobs["102"], "terms.vat", "not registered")
    job = removed(replace(job, agreed=agree(estimate(job, book), "2026-12-01")), "rooms.0.design.appliances", 1)
    (paper,) = build("variations", estimate(offered(job, book), book))
    assert "VAT" not in as_text(paper)
    told = sums(paper)
    assert list(told) == ["This variation", "Agreed before", "You pay in all"]


HOSTILE = "<script>alert(1)</script> & \u202eback {0} %s =1+1\n=cmd|' /C calc'!A0\n" + "long" * 400


def test_hostile_and_endless_words_are_printed_as_they_are(worked: Estimate, tmp_path: Path) -> None:
    (one,) = worked.job.variations
    odd = replace(one, why=HOSTILE, changes=HOSTILE, rows=tuple(replace(each, what=HOSTILE) for each in one.rows))
    (paper,) = build("variations", replace(worked, job=replace(worked.job, variations=(odd,))))
    assert "<script>" not in as_html(paper)
    assert "&lt;script&gt;" in as_html(paper)
    assert "=1+1" in as_text(paper)
    written = write(paper, tmp_path, ("pdf", "xlsx"), "now", lambda _: None)
    assert [each.suffix for each in written] == [".pdf", ".xlsx"]
    assert all(each.stat().st_size > 1_000 for each in written)


def test_one_without_rows_or_reason_says_so(worked: Estimate) -> None:
    bare = Variation(number="102-V1", made="2026-12-08")
    words = as_text(variation.build_one(replace(worked, job=replace(worked.job, variations=(bare,))), bare))
    assert "The price stays as it is." in words
    assert "No reason was given" in words


def test_variations_of_a_file_without_dates_or_agreement_are_printed_all_the_same(worked: Estimate) -> None:
    (one,) = worked.job.variations
    job = replace(worked.job, agreed=Agreed(), variations=(Variation(), replace(one, made="", number="7")))
    papers = build("variations", replace(worked, job=job))
    assert len(papers) == 2
    assert "not answered, not in the sum" in as_text(papers[1])
