"""A bill that was opened beside what is kept here: a supplier's beside the order it is for, one of the trader's own beside the job's."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from tundish import measure
from tundish.pricing.invoice import Invoice, bill_of
from tundish.procurement.split import carriage_of
from tundish.store.bill_file import BilledLine, BillFile
from tundish.store.numbers import BILL
from tundish.store.orders import OrderLine, Orders, SentOrder

if TYPE_CHECKING:
    from tundish.store.keep import Store


@dataclass(frozen=True, slots=True)
class Beside:
    """What a bill is, in a sentence, and everything about it that a person should look at before it is paid."""

    says: str
    problems: tuple[str, ...]


def bill_beside(store: Store, bill: BillFile) -> Beside:
    """What a bill is held against here, and what does not agree, after what does not hold in itself."""
    named = f"{bill.kind.capitalize()} {bill.number or 'without a number'} from {bill.seller or 'nobody'}"
    what = f"{named}, {measure.show_money(bill.payable)} to pay"
    own = _own(store, bill)
    if own is not None:
        client, invoice = own
        return Beside(f"{what}: your own, to {client or 'a client without a name'}", (*bill.problems, *_beside_own(bill, invoice)))
    order, found = _order(store, bill)
    if order is None:
        return Beside(what, (*bill.problems, found))
    supplier = store.book().suppliers.get(order.supplier)
    problems = list(_beside_order(bill, order))
    if supplier is not None:
        if bill.seller and bill.seller.casefold() != supplier.name.casefold():
            problems.insert(0, f"order {order.number} went to {supplier.name}, not to {bill.seller[:60]}")
        problems += _carriage(bill, carriage_of(supplier, order.goods))
    return Beside(f"{what}: for order {order.number}", (*bill.problems, *problems))


def _own(store: Store, bill: BillFile) -> tuple[str, Invoice] | None:
    """The bill of the trader's own with this number, and whose it is."""
    trader = store.book().trader.name
    if trader and bill.seller and trader.casefold() != bill.seller.casefold():
        return None
    for job_id in {each.job for each in store.numbers(BILL) if each.number == bill.number and not each.gone}:
        job = store.open(job_id)[0].job
        found = next((each for each in job.invoices if each.number == bill.number), None) if job is not None else None
        if job is not None and found is not None and (trader or job.demo):
            return job.client.name, found
    return None


def _beside_own(bill: BillFile, invoice: Invoice) -> Iterator[str]:
    sign = -1 if invoice.credits else 1
    kept = bill_of(invoice)
    asked = (("before VAT", bill.net, sign * kept.net), ("VAT", bill.vat, sign * kept.vat), ("with VAT", bill.total, sign * kept.total))
    for what, says, has in asked:
        if says != has:
            yield f"{what} it says {measure.show_money(says)}, and yours is {measure.show_money(has)}: somebody changed it"
    if bill.issued != invoice.issued:
        yield f"it is dated {bill.issued or 'no day'}, and yours {invoice.issued or 'no day'}"


def _order(store: Store, bill: BillFile) -> tuple[SentOrder | None, str]:
    """The order that a bill names; of one that names none, the only sent one with all its codes."""
    sent = [each for each in Orders(store).all() if each.sent]
    if bill.order:
        found = next((each for each in sent if each.number == bill.order), None)
        return found, f"it is for order {bill.order[:40]}, which none of yours is"
    codes = {each.code for each in bill.lines if each.code}
    fits = [each for each in sent if codes and codes <= {line.code for line in each.lines}]
    return (fits[0], "") if len(fits) == 1 else (None, "it names no order, and is not plainly for one of yours")


def _beside_order(bill: BillFile, order: SentOrder) -> Iterator[str]:
    """Line by line: what was not ordered or has not come, a price that is another, and what came and is not billed."""
    back = bill.kind != "invoice"
    lines: dict[str, list[OrderLine]] = defaultdict(list)
    for line in order.lines:
        lines[line.code].append(line)
    billed: dict[str, list[BilledLine]] = defaultdict(list)
    for each in bill.lines:
        billed[each.code].append(each)
    for code, few in billed.items():
        name = few[0].name or code
        if code not in lines:
            yield f"{name[:60]}{f' ({code[:40]})' if code else ''} was not ordered with {order.number}"
            continue
        packs = sum((each.amount for each in few), Decimal(0))
        had = sum(line.returned if back else line.came for line in lines[code])
        if packs > had:
            yield f"{name[:60]}: {packs.normalize():f} {'given back' if back else 'billed'}, {had} {'went back' if back else 'came'}"
        yield from _dearer(name, few, lines[code])
    missing = ((code, sum(line.came for line in few)) for code, few in lines.items() if code not in billed)
    yield from (f"{code}: {came} came, and none is billed" for code, came in missing if came and not back)


def _dearer(name: str, billed: Iterable[BilledLine], ordered: Iterable[OrderLine]) -> Iterator[str]:
    prices = {line.price for line in ordered}
    asked = " or ".join(measure.show_money(each) for each in sorted(prices))
    yield from (f"{name[:60]}: {measure.show_money(one.each)} each, ordered at {asked}" for one in billed if one.each not in prices)


def _carriage(bill: BillFile, agreed: Decimal) -> Iterator[str]:
    if bill.kind != "invoice":
        return
    asked = sum((each.amount for each in bill.besides), Decimal(0))
    if asked > agreed:
        yield f"{measure.show_money(asked)} is charged besides the goods; carriage of such an order is {measure.show_money(agreed)}"
