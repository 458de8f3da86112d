"""What the client pays is one sum on every paper that says it, read from what is printed; no order of lines changes it."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from io import BytesIO
from typing import Final

from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from tundish.catalogue.crew import DOES, Person
from tundish.catalogue.item import Item, Offer
from tundish.catalogue.load import supplied_book
from tundish.documents import invoice, quote, variation
from tundish.documents.block import Block, Document, FillIn, Points, SideBySide, Sums, Table
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Entry, put, removed
from tundish.figure import number
from tundish.options import Option, differences
from tundish.pricing import cis
from tundish.pricing.contract import Contract, contract_of
from tundish.pricing.invoice import Invoice, bill_of, next_invoice
from tundish.pricing.price import Price
from tundish.pricing.terms import NOT_REGISTERED, REVERSE_CHARGE, STEPS, Extra, Terms
from tundish.pricing.variation import Variation, rows_of, varied_rows
from tundish.pricing.vat import REASONS
from tundish.pricing.vat_rounding import ROUNDINGS
from tundish.pricing.work_out import price
from tundish.procurement.purchase import Buying, Order, Pick, Purchase
from tundish.rules.rule import LABOUR, STAGES, Need
from tundish.store.keep import demo_jobs
from tundish.takeoff.line import Line
from tundish.varying import agree
from tundish.writers.xlsx import xlsx_bytes

DAY: Final = "2026-12-01"
FAMILY: Final = next(job for job in demo_jobs() if job.number == "102")
WORKED: Final = estimate(FAMILY, supplied_book())
Bought = list[tuple[str, str, Decimal, int]]
"""Things by two stages that need them, their price and how many."""
Work = list[tuple[str, float, bool]]
"""Hours by stage, of tiling or not."""
MONEY: Final = re.compile(r"(-?)£?([\d,]+\.\d\d)")

nets = st.decimals("0.01", 4_000, places=2)
extras = st.builds(
    Extra,
    what=st.text(max_size=8),
    kind=st.sampled_from(("cost", "provisional sum")),
    amount=nets,
    vat=st.sampled_from(("as the job", *REASONS)),
    cis=st.sampled_from(cis.PARTS),
)
people = st.builds(
    Person,
    name=st.just("Mate"),
    rate=st.decimals(0, 80, places=2),
    paid=st.just(Decimal(15)),
    frames=st.sampled_from(DOES),
    boarding=st.sampled_from(DOES),
    tiling=st.sampled_from(DOES),
)
all_terms = st.builds(
    Terms,
    labour_rate=st.decimals(0, 90, places=2),
    people=st.lists(people, max_size=2).map(tuple),
    mark_up_as=st.sampled_from(("mark-up on cost", "margin of price")),
    mark_up=st.floats(0, 60).map(Entry),
    contingency=st.floats(0, 20).map(Entry),
    overhead=st.floats(0, 30).map(Entry),
    overhead_hour=st.decimals(0, 9, places=2),
    travel=st.decimals(0, 60, places=2),
    discount=st.floats(0, 100).map(Entry),
    round_to=st.sampled_from(tuple(STEPS)),
    vat=st.sampled_from(("registered, 20 %", NOT_REGISTERED, REVERSE_CHARGE)),
    vat_reason=st.sampled_from(tuple(REASONS)),
    vat_rounding=st.sampled_from(tuple(ROUNDINGS)),
    cis=st.sampled_from(tuple(cis.RATES)),
    extras=st.lists(extras, max_size=3).map(tuple),
    deposit=st.floats(0, 100).map(Entry),
    boarded=st.floats(0, 100).map(Entry),
    quoted=st.sampled_from(("", "2026-11-20", "2027-05-01")),
)
costs = st.lists(st.tuples(st.sampled_from(STAGES), st.sampled_from(STAGES), nets, st.integers(1, 9)), max_size=5)
times = st.lists(st.tuples(st.sampled_from(STAGES), st.floats(0.1, 30), st.booleans()), max_size=6)


def buying(rows: Bought) -> Buying:
    """Things that one or two stages need, bought at these prices, with carriage."""
    purchases = tuple(_purchase(place, *row) for place, row in enumerate(rows))
    orders = (Order(supplied_book().suppliers["oddmoor"], (), Decimal(0), Decimal("12.50")),) if rows else ()
    return Buying(purchases, orders, ())


def _purchase(place: int, one: str, other: str, cost: Decimal, many: int) -> Purchase:
    nothing = number(0, "each")
    item = Item(f"thing-{place}", f"Thing {place}", "sundry", "Sundries", "each", {})
    needs = (Need(number(many, "each"), one, "work", item=item.code), Need(number(1, "each"), other, "work", item=item.code))  # type: ignore[arg-type]
    line = Line(item, number(many + 1, "each"), needs)
    return Purchase(line, nothing, nothing, nothing, (Pick(Offer(item.code, "oddmoor", "1", 10, cost, "2026-11-01"), 1),))


def needs_of(rows: Work) -> tuple[Need, ...]:
    return tuple(
        Need(number(time, "h"), stage, "work", role=LABOUR, work="tiling" if tiles and stage == "boarding" else "")  # type: ignore[arg-type]
        for stage, time, tiles in rows
    )


def worked(terms: Terms, made: Price) -> Estimate:
    """The family bathroom with another price."""
    job = replace(FAMILY, terms=terms, options=())
    return replace(WORKED, job=job, price=made)


def blocks_of(document: Document) -> Iterator[Block]:
    for block in document.blocks:
        yield from ((*block.left, *block.right) if isinstance(block, SideBySide) else (block,))


def sums(document: Document) -> dict[str, Decimal]:
    return dict(next(each for each in blocks_of(document) if isinstance(each, Sums)).rows)


def last_sum(document: Document) -> Decimal:
    return next(each for each in blocks_of(document) if isinstance(each, Sums)).rows[-1][1]


def amount_in(words: str) -> Decimal:
    sign, found = MONEY.findall(words)[-1]
    return Decimal(sign + found.replace(",", ""))


def bills(contract: Contract, issued: tuple[Invoice, ...] = ()) -> tuple[Invoice, ...]:
    while (bill := next_invoice(contract, issued, f"102-{len(issued) + 1}", DAY)) is not None:
        issued = (*issued, bill)
    return issued


def workbook_total(document: Document) -> Decimal:
    """The last amount of a paper's workbook, with its formulas worked out from the cells above them."""
    found = Decimal(0)
    for sheet in load_workbook(BytesIO(xlsx_bytes(document, ""))).worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type == "f" or (isinstance(cell.value, int | float) and "0.00" in str(cell.number_format)):
                    found = cell_of(sheet, str(cell.coordinate))
    return found.quantize(Decimal("0.01"))


def cell_of(sheet: Worksheet, at: str) -> Decimal:
    value = sheet[at].value
    if isinstance(value, str) and value.startswith("="):
        return sum((part_of(sheet, each) for each in value[1:].split("+")), Decimal(0))
    return Decimal(str(value)) if isinstance(value, int | float) else Decimal(0)


def part_of(sheet: Worksheet, words: str) -> Decimal:
    ranged = re.fullmatch(r"(?:SUM\(|SUBTOTAL\(9,)([A-Z]+\d+):([A-Z]+\d+)\)", words)
    if not ranged:
        return cell_of(sheet, words)
    return sum((cell_of(sheet, cell.coordinate) for row in sheet[ranged[1] : ranged[2]] for cell in row), Decimal(0))


@settings(deadline=None, max_examples=40)
@given(all_terms, costs, times)
def test_every_paper_says_what_the_client_pays(terms: Terms, bought: Bought, work: Work) -> None:
    made = worked(terms, price(needs_of(work), buying(bought), terms))
    paper = quote.build(made)
    total = last_sum(paper)
    assert total == made.price.total
    (table,) = [each for each in blocks_of(paper) if isinstance(each, Table)]
    rows = sum((Decimal(str(row.cells[2])) for row in table.rows), Decimal(0))
    charged = sum((amount for words, amount in sums(paper).items() if words.startswith("VAT")), Decimal(0))
    assert rows + charged == total
    asked = [item for each in blocks_of(paper) if isinstance(each, Points) and each.title == "When you pay" for item in each.items]
    assert sum((amount_in(each) for each in asked), Decimal(0)) == total
    signed = [each for each in blocks_of(paper) if isinstance(each, FillIn)]
    assert all(amount_in(each.title) == total for each in signed)
    issued = bills(contract_of(made.price, terms, made.job.agreed))
    papers = [invoice.build(made, each) for each in issued]
    kept = sum((bill_of(each).total - bill_of(each).due for each in issued), Decimal(0))
    assert sum((last_sum(each) for each in papers), Decimal(0)) == total - kept
    assert kept == (made.price.kept_back if issued else Decimal(0))
    receipts = [invoice.build(made, replace(each, paid=DAY)) for each in issued]
    assert [last_sum(each) for each in receipts] == [last_sum(each) for each in papers]


@settings(deadline=None, max_examples=10)
@given(all_terms, costs, times)
def test_a_workbook_comes_to_the_same(terms: Terms, bought: Bought, work: Work) -> None:
    made = worked(terms, price(needs_of(work), buying(bought), terms))
    for each in bills(contract_of(made.price, terms, made.job.agreed)):
        paper = invoice.build(made, each)
        assert workbook_total(paper) == last_sum(paper)


@settings(deadline=None, max_examples=25)
@given(all_terms, costs, times, st.lists(extras, min_size=1, max_size=3), st.booleans())
def test_what_is_billed_after_a_variation_is_what_it_says_is_paid_in_all(
    terms: Terms, bought: Bought, work: Work, more: list[Extra], late: bool
) -> None:
    terms = replace(terms, discount=Entry(0))
    made = worked(terms, price(needs_of(work), buying(bought), terms))
    wider = replace(terms, extras=(*terms.extras, *more))
    agreed, now = agree(made, DAY), price(needs_of(work), buying(bought), wider)
    rows = varied_rows(agreed.rows, rows_of(made.price, terms), rows_of(now, wider), terms.vat_rounding)
    one = Variation(number="102-V1", made=DAY, accepted=DAY, rows=rows)
    job = replace(made.job, agreed=agreed, variations=(one,))
    first = contract_of(made.price, job.terms, agreed)
    issued = (bills(first)[:1]) if late else ()
    after = replace(made, job=replace(job, invoices=bills(contract_of(made.price, job.terms, agreed, (one,)), issued)))
    (paper,) = variation.build_all(after)
    kept = sum((bill_of(each).total - bill_of(each).due for each in after.job.invoices), Decimal(0))
    paid = sum((last_sum(invoice.build(after, each)) for each in after.job.invoices), Decimal(0))
    assert paid + kept == last_sum(paper)


@settings(deadline=None, max_examples=60)
@given(all_terms, costs, times, st.integers(0, 1_000))
def test_no_order_of_lines_changes_what_is_paid(terms: Terms, bought: Bought, work: Work, chance: int) -> None:
    before = price(needs_of(work), buying(bought), terms)
    shuffle = random.Random(chance).shuffle  # noqa: S311 - an order, no secret
    other, jobs, by_hand = [*buying(bought).purchases], [*needs_of(work)], [*terms.extras]
    for each in (other, jobs, by_hand):
        shuffle(each)
    turned = tuple(replace(each, line=replace(each.line, needs=each.line.needs[::-1])) for each in other)
    after = price(tuple(jobs), replace(buying(bought), purchases=turned), replace(terms, extras=tuple(by_hand)))
    assert (after.total, after.before_vat, after.kept_back, after.kept) == (before.total, before.before_vat, before.kept_back, before.kept)
    assert [each.amount for each in after.payments] == [each.amount for each in before.payments]


def varied(*edits: int) -> Job:
    """The bathroom otherwise: dearer work, no bidet, a higher wall, another mark-up, another discount."""
    job = FAMILY
    for each in edits:
        job = (
            put(job, "terms.labour_rate", Decimal(55)),
            removed(job, "rooms.0.design.appliances", 1) if len(job.rooms[0].design.appliances) > 2 else job,
            put(job, "rooms.0.design.prewall.top", Entry(1300.0)),
            put(job, "terms.mark_up", Entry(40.0)),
            put(job, "terms.people", (Person(name="Mate", rate=Decimal(20), frames="helps"),)),
        )[each]
    return job


@settings(deadline=None, max_examples=6)
@given(st.lists(st.lists(st.integers(0, 4), min_size=1, max_size=3, unique=True), min_size=2, max_size=5))
def test_options_leak_neither_into_the_job_nor_into_one_another(edits: list[list[int]]) -> None:
    book = supplied_book()
    plain = estimate(FAMILY, book)  # now, for a best split of suppliers that is found meanwhile is known from then on
    others = [varied(*each) for each in edits]
    options = tuple(Option(name=f"Option {place}", changes=differences(FAMILY, each)) for place, each in enumerate(others, 1))
    beside = estimate(replace(FAMILY, options=options), book)
    assert beside.price == plain.price
    assert beside.lines == plain.lines
    assert [each.price for each in beside.options] == [estimate(each, book).price for each in others]
    backwards = estimate(replace(FAMILY, options=options[::-1]), book)
    assert [each.price for each in backwards.options] == [each.price for each in beside.options][::-1]
    (offered,) = [each for each in blocks_of(quote.build(beside)) if isinstance(each, Table) and each.title == "Or choose"]
    assert [row.cells[3] for row in offered.rows] == [each.price.total for each in beside.options]
