"""What the client has promised to pay, and when: the price as it is worked out, or, once one was accepted, as agreed and varied."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from tundish import measure
from tundish.estimate import Estimate
from tundish.pricing.contract import contract_of
from tundish.pricing.invoice import bill_of, bills_to_come, standing
from tundish.pricing.terms import Terms
from tundish.pricing.variation import rows_agreed, sums_of
from tundish.pricing.vat import VatLine


@dataclass(frozen=True, slots=True)
class Promise:
    """`accepted` is empty before anything is agreed; `payments` are sentences, and their sums add up to `total`."""

    terms: Terms
    vat_lines: tuple[VatLine, ...]
    total: Decimal
    kept_back: Decimal
    accepted: str
    payments: tuple[str, ...]


def as_priced(estimate: Estimate) -> Promise:
    """What is to be paid for the job as it is worked out now, whatever was accepted."""
    price, terms = estimate.price, estimate.job.terms
    payments = tuple(f"{each.when}, {measure.show_percent(each.percent)}: {measure.show_money(each.amount)}" for each in price.payments)
    return Promise(terms, price.vat_lines, price.total, price.kept_back, "", payments)


def promised(estimate: Estimate) -> Promise:
    """What is to be paid as things stand: once the price was accepted, as it was agreed and varied since."""
    job = estimate.job
    if not job.agreed.on:
        return as_priced(estimate)
    contract = contract_of(estimate.price, job.terms, job.agreed, job.variations)
    terms = job.agreed.basis.terms
    sums = sums_of(rows_agreed(job.agreed, job.variations), terms)
    return Promise(terms, sums.vat_lines, contract.total, contract.kept_back, _accepted(estimate, contract.total), tuple(_bills(estimate)))


def _accepted(estimate: Estimate, total: Decimal) -> str:
    agreed = estimate.job.agreed
    first = sums_of(agreed.rows, agreed.basis.terms).total
    varied = [each.number for each in estimate.job.variations if each.accepted]
    option = f' with "{agreed.option}"' if agreed.option else ""
    what = f" as in quote {agreed.quote}{option}" if agreed.quote else ""
    said = f"Accepted on {measure.show_date(agreed.on)}{what} at {measure.show_money(first)}"
    return f"{said}, with {', '.join(varied)} since {measure.show_money(total)}." if varied else f"{said}."


def _bills(estimate: Estimate) -> Iterator[str]:
    """The bills that were made and stand, then those to come."""
    job = estimate.job
    contract = contract_of(estimate.price, job.terms, job.agreed, job.variations)
    for one in standing(job.invoices):
        yield f"{one.what}: {measure.show_money(bill_of(one).total)}, by invoice {one.number}"
    for one in bills_to_come(contract, job.invoices):
        yield f"{one.what}: {measure.show_money(bill_of(one).total)}"
