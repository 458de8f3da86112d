"""Bills that come as UBL: what they say is read, what does not hold is named, and what is meant to do harm is refused."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.store.a_bill import bill
from tests.writers.published_rules import broken
from tundish.catalogue.trader import Trader
from tundish.estimate import Client, Job
from tundish.pricing.invoice import Charge, Invoice, bill_of, credit
from tundish.pricing.vat_rounding import ROUNDINGS
from tundish.procurement.purchase import Pick
from tundish.store.bill_beside import bill_beside
from tundish.store.bill_file import CannotReadBillError, is_bill, read_bill_file
from tundish.store.keep import Store
from tundish.store.orders import Orders
from tundish.store.read_xml import MOST_BYTES
from tundish.writers.invoice_xml import Parties, as_xml

OWN = Invoice(number="7-1", issued="2026-12-01", what="Deposit", charges=(Charge(what="all", net=Decimal("10.25"), percent=Decimal(20)),))
PARTIES = Parties(Trader(name="M. Tarrowby", vat_number="GB 1"), Client(name="Mrs Vale", vat_number="GB 2"))


def file(folder: Path, words: str | bytes) -> Path:
    path = folder / "bill.xml"
    path.write_bytes(words if isinstance(words, bytes) else words.encode())
    return path


def problems(folder: Path, words: str) -> tuple[str, ...]:
    return read_bill_file(file(folder, words)).problems


def test_a_merchants_bill_is_read_whole_and_holds(tmp_path: Path) -> None:
    assert broken(bill().encode()) == [], "the published rules find nothing in it either"
    read = read_bill_file(file(tmp_path, bill()))
    assert read.problems == ()
    assert (read.kind, read.number, read.issued, read.due) == ("invoice", "M-7731", "2026-12-03", "2026-12-31")
    assert (read.seller, read.buyer, read.order) == ("Carrowdene", "M. Tarrowby", "101-1")
    assert [(each.code, each.amount, each.each, each.net) for each in read.lines] == [
        ("PAD", Decimal(20), Decimal("1.75"), Decimal(34)),
        ("LEAF", Decimal(1), Decimal(5), Decimal(5)),
    ]
    assert [(each.why, each.amount) for each in read.besides] == [("Carriage", 12), ("Rebate", Decimal("-2.50"))]
    assert (read.net, read.vat, read.total, read.payable) == (Decimal("48.50"), Decimal("8.70"), Decimal("57.20"), Decimal(50))


@pytest.mark.parametrize(
    ("was", "now", "told"),
    [
        ("<b:ID>M-7731</b:ID>", "", "it has no number (BR-2)"),
        ("<b:IssueDate>2026-12-03</b:IssueDate>", "", "it has no date (BR-3)"),
        ("2026-12-31", "31/12/2026", '"31/12/2026" is no day'),
        (">M. Tarrowby<", "><", "it has no buyer (BR-7)"),
        (">GBP<", ">EUR<", "it is in EUR (BR-5), and prices here are in GBP"),
        ('currencyID="GBP">8.70</b:TaxAmount>\n  <a', 'currencyID="USD">8.70</b:TaxAmount>\n  <a', "amounts of it are in USD"),
        (">34.00<", ">34.02<", "line 1 says £34.02, and comes to £34.00"),
        (">39.00<", ">93.00<", "its lines are said to come to £93.00, and comes to £39.00 (BR-CO-10)"),
        (">48.50<", ">84.50<", "before VAT it says £84.50, and comes to £48.50 (BR-CO-13)"),
        (">57.20<", ">75.20<", "with VAT it says £75.20, and comes to £57.20 (BR-CO-15)"),
        (">50.00<", ">57.20<", "to be paid it says £57.20, and comes to £50.00 (BR-CO-16)"),
        (">43.50<", ">44.50<", "at 20 % (S) it says £44.50, and £43.50 falls under it (BR-S-8)"),
        ("<b:ID>Z</b:ID>", "<b:ID>X</b:ID>", "line 2 has no category of VAT that there is (BR-CO-4)"),
        ("<b:Percent>0</b:Percent>", "<b:Percent>5</b:Percent>", "line 2 has a rate of VAT, and a category that has none"),
        (">5.00</b:LineExtension", ">many</b:LineExtension", 'the sum of line 2 is "many", which is no amount'),
        (">17.50<", ">1e999<", 'the price of line 1 is "1e999", which is no amount'),
        ('<b:InvoicedQuantity unitCode="C62">1<', '<b:InvoicedQuantity unitCode="C62"><', "the amount of line 2 is missing"),
        ("InvoiceLine>", "Line>", "it has no lines (BR-16)"),
    ],
)
def test_every_thing_that_does_not_hold_is_named(tmp_path: Path, was: str, now: str, told: str) -> None:
    words = bill()
    assert was in words
    changed = words.replace(was, now)
    assert told in problems(tmp_path, changed)


def test_vat_that_is_worked_out_otherwise_is_told_at_its_rate(tmp_path: Path) -> None:
    said = problems(tmp_path, bill().replace(">8.70<", ">9.70<"))
    assert "VAT at 20 % of £43.50 is £8.70, and it says £9.70 (BR-CO-17)" in said
    assert "with VAT it says £57.20, and comes to £58.20 (BR-CO-15)" in said
    words = bill()
    at = words.index('  <a:TaxSubtotal><b:TaxableAmount currencyID="GBP">5.00')
    without = words[:at] + "</a:TaxTotal>" + words[words.index(" <a:LegalMonetaryTotal>") :]
    assert "its sums of VAT leave out 0 % (Z, BR-CO-18)" in problems(tmp_path, without)
    scheme = "<a:TaxScheme><b:ID>VAT</b:ID></a:TaxScheme>"
    other = words.replace("<b:Percent>20.00</b:Percent>", "<b:Percent>5</b:Percent>")
    for ends in ("</a:ClassifiedTaxCategory>", "</a:TaxCategory></a:AllowanceCharge>"):
        other = other.replace(f"<b:Percent>20</b:Percent>{scheme}{ends}", f"<b:Percent>5</b:Percent>{scheme}{ends}")
    assert "it has VAT at 20 % (S) and nothing that falls under it" in problems(tmp_path, other)


NETS = st.decimals(Decimal(-2000), Decimal(99_999), places=2)
LINES = st.lists(st.tuples(NETS, st.sampled_from((Decimal(20), Decimal(5), Decimal(0)))), min_size=1, max_size=6)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.lists(st.tuples(NETS, st.sampled_from((Decimal(20), Decimal(5), Decimal(0)))), min_size=1, max_size=6),
    st.booleans(),
    st.booleans(),
    st.sampled_from(tuple(ROUNDINGS)),
)
def test_every_bill_of_ones_own_comes_back_as_it_was_written(
    tmp_path: Path, lines: list[tuple[Decimal, Decimal]], reverse: bool, rated: bool, rounding: str
) -> None:
    charges = tuple(Charge(what=f"part {place}", net=net, percent=rate if rated else None) for place, (net, rate) in enumerate(lines))
    made = replace(OWN, charges=charges, reverse_charge=reverse and rated, rounding=rounding)
    for each in (made, credit(made, "7-2", "2026-12-02"), replace(made, paid="2026-12-05")):
        read = read_bill_file(file(tmp_path, as_xml(each, PARTIES)))
        assert read.problems == ()
        sums, sign = bill_of(each), -1 if each.credits else 1
        assert (read.net, read.vat, read.total) == (sign * sums.net, sign * sums.vat, sign * sums.total)
        assert [line.net for line in read.lines] == [charge.net for charge in each.charges]
        assert (read.number, read.credits, read.buyer) == (each.number, each.credits, "Mrs Vale")


LAUGHS = "".join(f'<!ENTITY l{place} "{f"&l{place - 1};" * 10}">' for place in range(1, 10))


@pytest.mark.parametrize(
    ("body", "why"),
    [
        (f'<!DOCTYPE x [<!ENTITY l0 "ha">{LAUGHS}]><x>&l9;</x>'.encode(), "declares a document type"),
        (b'<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/passwd">]><x>&e;</x>', "declares a document type"),
        (b'<!DOCTYPE x SYSTEM "http://somewhere.example/x.dtd"><x/>', "declares a document type"),
        (b"<a>" * 60 + b"</a>" * 60, "nested more than 40 deep"),
        (b"<a>" + b"<b/>" * 200_001 + b"</a>", "more than 200,000 parts"),
        (b" " * (MOST_BYTES + 1), "larger than 5 MB"),
        (b"\x00\x01\x02", "no sound XML"),
        (b'<?xml version="1.0" encoding="klingon"?><a/>', "no sound XML"),
        (b"<Invoice/>", "no UBL invoice"),
        (bill().replace("u:Invoice", "u:Waybill").replace("Invoice-2", "Waybill-2").encode(), "no UBL invoice"),
    ],
)
def test_what_is_no_bill_or_means_harm_is_refused(tmp_path: Path, body: bytes, why: str) -> None:
    with pytest.raises(CannotReadBillError, match=why):
        read_bill_file(file(tmp_path, body))
    assert not is_bill(tmp_path / "bill.xml")


def test_a_file_that_is_not_there_and_one_of_too_many_lines_are_told(tmp_path: Path) -> None:
    with pytest.raises(CannotReadBillError, match="no such file"):
        read_bill_file(tmp_path / "gone.xml")
    words = bill()
    line = words[words.rindex(" <a:InvoiceLine>") : words.index("</u:Invoice>")]
    with pytest.raises(CannotReadBillError, match="more than 5,000 lines"):
        read_bill_file(file(tmp_path, words.replace("</u:Invoice>", line * 5_000 + "</u:Invoice>")))


def ordered(store: Store, came: int) -> str:
    """Twenty sound pads ordered, of which so many came."""
    offer, orders = store.book().offers["sound-pad"][0], Orders(store)
    orders.send(orders.draft("101", offer.supplier, [Pick(offer, 20)]), "by email")
    order = orders.all("101")[-1]
    orders.goods_in(order, {order.lines[0].id: came}, "site")
    return order.number


def test_a_merchants_bill_is_held_against_the_order_it_is_for(store: Store, tmp_path: Path) -> None:
    number, offer = ordered(store, 18), store.book().offers["sound-pad"][0]
    supplier = store.book().suppliers[offer.supplier]
    words = bill(number, supplier.name, offer.code)
    beside = bill_beside(store, read_bill_file(file(tmp_path, words)))
    assert beside.says == f"Invoice M-7731 from {supplier.name}, £50.00 to pay: for order {number}"
    assert "Sound pad: 20 billed, 18 came" in beside.problems
    assert "Safety leaflet (LEAF) was not ordered with " + number in beside.problems
    assert any(each.startswith("Sound pad: £1.75 each, ordered at £") for each in beside.problems)
    same = bill_beside(store, read_bill_file(file(tmp_path, bill("", supplier.name, offer.code).replace("LEAF", offer.code))))
    assert same.says.endswith(f"for order {number}"), "the only order that has all its codes"


def test_what_is_billed_by_another_for_no_order_or_left_out_is_told(store: Store, tmp_path: Path) -> None:
    number, offer = ordered(store, 18), store.book().offers["sound-pad"][0]
    told = bill_beside(store, read_bill_file(file(tmp_path, bill(number, "Somebody", "X")))).problems
    supplier = store.book().suppliers[offer.supplier].name
    assert f"order {number} went to {supplier}, not to Somebody" in told
    assert f"{offer.code}: 18 came, and none is billed" in told
    nowhere = bill_beside(store, read_bill_file(file(tmp_path, bill("PO-9"))))
    assert nowhere.problems == ("it is for order PO-9, which none of yours is",)
    unnamed = bill_beside(store, read_bill_file(file(tmp_path, bill(""))))
    assert unnamed.problems == ("it names no order, and is not plainly for one of yours",)


def test_a_bill_of_ones_own_is_held_against_the_one_that_is_kept(store: Store, tmp_path: Path) -> None:
    store.keep_trader(Trader(name="M. Tarrowby"))
    note = credit(OWN, "7-2", "2026-12-02")
    store.add(Job(number="7", client=Client(name="Mrs Vale"), invoices=(OWN, note)))
    for each, says in ((OWN, "Invoice 7-1 from M. Tarrowby, £12.30"), (note, "Credit note 7-2 from M. Tarrowby, £12.30")):
        beside = bill_beside(store, read_bill_file(file(tmp_path, as_xml(each, PARTIES))))
        assert (beside.says, beside.problems) == (f"{says} to pay: your own, to Mrs Vale", ())
    changed = replace(OWN, issued="2026-12-09", charges=(Charge(what="all", net=Decimal(99), percent=Decimal(20)),))
    beside = bill_beside(store, read_bill_file(file(tmp_path, as_xml(changed, PARTIES))))
    assert beside.problems[0] == "before VAT it says £99.00, and yours is £10.25: somebody changed it"
    assert beside.problems[-1] == "it is dated 2026-12-09, and yours 2026-12-01"
