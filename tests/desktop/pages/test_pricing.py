"""Pricing by what a fitter does: margin, prices by hand, a lower rate of VAT, options."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from decimal import Decimal
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel, QPushButton, QWidget

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.writers.published_rules import broken
from tundish import measure
from tundish.desktop import theme
from tundish.desktop.boxes import Box
from tundish.desktop.chips import Chip, ChipRow
from tundish.desktop.look import Look
from tundish.desktop.pages.pricing import PARTS, PricingPage
from tundish.desktop.reasons import reason_of
from tundish.desktop.tally import Amount
from tundish.documents import quote
from tundish.documents.block import Table
from tundish.documents.index import build_all
from tundish.estimate import Begun
from tundish.pricing.invoice import bill_of
from tundish.pricing.variation import difference_of, sums_of


def opened(fitter: Fitter) -> PricingPage:
    fitter.open("102")
    fitter.settled()
    page = fitter.page("Alt+7")
    assert isinstance(page, PricingPage)
    return page


def said(page: PricingPage) -> str:
    return "\n".join(each.text() for each in page.findChildren(QLabel) if each.isVisible())


def test_the_keyboard_goes_on_to_what_was_made_since(fitter: Fitter) -> None:
    page = opened(fitter)
    total = measure.show_money(fitter.settled().price.total)
    fitter.press(f"The client has accepted {total}", page)
    fitter.settled()
    why = page.form.row("why_varied").box
    why.setFocus()
    QTest.keyClicks(why, "Lower basin")
    QTest.keyClick(why, Qt.Key.Key_Tab)
    fitter.settled()
    reached = []
    for _ in range(4):
        reached.append(keyboard_in())
        QTest.keyClick(page.window(), Qt.Key.Key_Tab)
    assert reached == ["Work out what has changed", "Not accepted after all", "Statement as of", "Make the next bill"]


def test_the_order_of_the_keyboard_is_set_anew_only_where_something_was_made(fitter: Fitter, monkeypatch: pytest.MonkeyPatch) -> None:
    page = opened(fitter)
    fitter.press("Make the next bill", page)
    fitter.settled()
    ordered: list[tuple[QWidget, QWidget]] = []
    monkeypatch.setattr(QWidget, "setTabOrder", lambda before, after: ordered.append((before, after)))
    fitter.type_into(page.form.row("terms.valid_days"), "12")
    fitter.qtbot.waitUntil(lambda: "12 days" in said(page), timeout=WAIT_MS)
    assert ordered == []
    fitter.press("Paid", page)
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: bool(ordered), timeout=WAIT_MS)


def test_what_a_press_puts_in_its_place_has_the_keyboard(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press(f"The client has accepted {measure.show_money(fitter.settled().price.total)}", page)
    fitter.workspace.remove("rooms.0.design.appliances", 1, "take out Bidet 1")
    fitter.settled()
    weigh = next(each for each in page.findChildren(QPushButton) if each.text() == "Work out what has changed" and each.isVisible())
    weigh.setFocus()
    QTest.keyClick(weigh, Qt.Key.Key_Return)
    fitter.qtbot.waitUntil(lambda: keyboard_in() == "Make it a variation", timeout=WAIT_MS)


def keyboard_in() -> str:
    """The words of the button that has the keyboard, or the name of the box."""
    focused = QApplication.focusWidget()
    assert focused is not None
    return focused.text() if isinstance(focused, QPushButton) else focused.accessibleName()


def test_a_margin_is_told_as_a_mark_up_too(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.type_into(page.form.row("terms.mark_up_as"), "margin of price")
    fitter.type_into(page.form.row("terms.mark_up"), "20")
    fitter.settled()
    assert "20 % margin of price is 25 % mark-up on cost." in said(page)
    row = page.form.row("terms.mark_up")
    assert (row.label, row.box.accessibleName()) == ("Margin on materials", "Margin on materials, per cent")
    fitter.undo()
    fitter.undo()
    fitter.settled()
    assert row.label == "Mark-up on materials"


def test_each_part_of_the_terms_is_one_press_away(fitter: Fitter) -> None:
    page = opened(fitter)
    parts, bar, titles = page.findChildren(ChipRow)[0], page.form.verticalScrollBar(), [title for title, _ in PARTS]
    for title, words in PARTS:
        next(each for each in parts.findChildren(Chip) if each.text() == words).click()
        assert parts.taken() == title
        assert page.form.group_in_view(titles) == title or bar.value() == bar.maximum()
    assert bar.value() == bar.maximum()
    next(each for each in parts.findChildren(Chip) if each.text() == "VAT").click()
    assert QApplication.focusWidget() is page.form.row("terms.vat").box
    bar.setValue(0)
    assert parts.taken() == "Terms"


def test_a_price_by_hand_and_its_own_rate_of_vat(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("Price something by hand", page)
    assert QApplication.focusWidget() is page.form.row("terms.extras.0.what").box
    fitter.settled()
    assert QApplication.focusWidget() is page.form.row("terms.extras.0.what").box
    fitter.type_into(page.form.row("terms.extras.0.what"), "Grab rails fitted")
    fitter.type_into(page.form.row("terms.extras.0.amount"), "100")
    fitter.type_into(page.form.row("terms.extras.0.vat"), "mobility aids over 60")
    price = fitter.settled().price
    assert [(each.percent, each.net) for each in price.vat_lines] == [(Decimal(20), price.before_vat - 100), (Decimal(5), Decimal(100))]
    fitter.press("Take it out", page)
    assert fitter.settled().job.terms.extras == ()


def test_an_option_is_made_by_doing_it_and_chosen_by_the_client(fitter: Fitter) -> None:
    page = opened(fitter)
    before = fitter.workspace.job
    fitter.press("Begin an option", page)
    fitter.workspace.remove("rooms.0.design.appliances", 1, "take out Bidet 1")
    without = fitter.workspace.job
    fitter.settled()
    assert any("Option of job 102" in each.text() for each in fitter.window.job_line.findChildren(QLabel))
    assert any(each.text() == "Option: price inc. VAT" for each in fitter.window.tally.findChildren(Amount))
    fitter.press("Keep it as an option", page)
    assert QApplication.focusWidget() is page.form.row("options.0.name").box
    worked = fitter.settled()
    assert replace(fitter.workspace.job, options=()) == before
    (priced,) = worked.options
    assert priced.price.total < worked.price.total
    assert "less." in said(page)
    fitter.type_into(page.form.row("options.0.name"), "without the bidet")
    tables = [block for block in quote.build(fitter.settled()).blocks if isinstance(block, Table)]
    assert tables[1].title == "Or choose"
    assert tables[1].rows[0].cells[0] == "without the bidet"
    fitter.press("Make it the job", page)
    assert fitter.workspace.job == replace(without, begun=Begun())
    fitter.undo()
    assert replace(fitter.workspace.job, options=()) == before


def test_an_option_that_is_dropped_leaves_the_job_as_it_was(fitter: Fitter) -> None:
    page = opened(fitter)
    job = fitter.workspace.job
    fitter.press("Begin an option", page)
    fitter.workspace.remove("rooms.0.design.appliances", 1, "take out Bidet 1")
    fitter.settled()
    fitter.press("Drop it", page)
    assert fitter.workspace.job == job


def test_bills_follow_one_another_and_a_wrong_one_is_taken_back(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = opened(fitter)
    fitter.press("Make the next bill", page)
    fitter.settled()
    first = f"Invoice 102-1, {measure.show_date(datetime.now().date().isoformat(), with_year=False)}: with your acceptance"
    fitter.qtbot.waitUntil(lambda: first in said(page), timeout=WAIT_MS)
    assert measure.show_money(bill_of(fitter.workspace.job.invoices[0]).due) in said(page)
    fitter.press("Take it back", page)
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "Credit note 102-2" in said(page), timeout=WAIT_MS)
    fitter.press("Make the next bill", page)
    fitter.settled()
    fitter.press("Paid", page)
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "Invoice 102-3" in said(page) and "not paid yet" not in said(page), timeout=WAIT_MS)
    papers = [each.title for each in build_all(fitter.settled()) if each.key.startswith("invoice-")]
    assert papers == ["Invoice", "Credit note", "Receipt"]
    target = tmp_path / "bill.xml"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_named: (str(target), ""))
    fitter.press("XML", page)
    assert broken(target.read_bytes()) == []
    assert b"M. Tarrowby" in target.read_bytes(), "the same trader as on the paper"


def test_an_accepted_price_is_varied_signed_for_and_billed(fitter: Fitter) -> None:
    page = opened(fitter)
    asked = fitter.settled().price.total
    fitter.press(f"The client has accepted {measure.show_money(asked)}", page)
    fitter.settled()
    fitter.workspace.remove("rooms.0.design.appliances", 1, "take out Bidet 1")
    fitter.settled()
    fitter.type_into(page.form.row("why_varied"), "No bidet after all")
    fitter.settled()
    fitter.press("Work out what has changed", page)
    fitter.press("Make it a variation", page)
    fitter.settled()
    (made,) = fitter.workspace.job.variations
    assert (made.number, made.why, fitter.workspace.job.why_varied) == ("102-V1", "No bidet after all", "")
    less = -sums_of(difference_of(made), fitter.workspace.job.terms).total
    assert less > 0
    fitter.qtbot.waitUntil(lambda: f"{measure.show_money(less)} less, not answered yet" in said(page), timeout=WAIT_MS)
    fitter.press("Accepted today", page)
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: f"since: {measure.show_money(asked - less)}." in said(page), timeout=WAIT_MS)
    for _ in range(3):
        fitter.press("Make the next bill", page)
        fitter.settled()
    assert sum(bill_of(each).total for each in fitter.workspace.job.invoices) == asked - less
    papers = [each.number for each in build_all(fitter.settled()) if each.title == "Variation"]
    assert papers == ["102-V1"]


def test_what_is_weighed_says_hours_and_goes_when_the_job_changes_again(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press(f"The client has accepted {measure.show_money(fitter.settled().price.total)}", page)
    fitter.settled()
    fitter.press("Work out what has changed", page)
    fitter.qtbot.waitUntil(lambda: "Nothing that was agreed has changed." in said(page), timeout=WAIT_MS)
    fitter.workspace.remove("rooms.0.design.appliances", 1, "take out Bidet 1")
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "Nothing that was agreed has changed." not in said(page), timeout=WAIT_MS)
    fitter.press("Work out what has changed", page)
    fitter.qtbot.waitUntil(lambda: "For the client:" in said(page) and "Hours:" in said(page), timeout=WAIT_MS)
    assert "more, which the paper lists" in said(page)
    fitter.undo()
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "For the client:" not in said(page), timeout=WAIT_MS)
    assert fitter.workspace.job.variations == ()


def test_a_withdrawn_variation_keeps_its_number_and_an_acceptance_can_be_taken_back(fitter: Fitter) -> None:
    page = opened(fitter)
    before = fitter.workspace.job
    fitter.press(f"The client has accepted {measure.show_money(fitter.settled().price.total)}", page)
    fitter.settled()
    fitter.press("Not accepted after all", page)
    fitter.settled()
    assert fitter.workspace.job == before
    fitter.press(f"The client has accepted {measure.show_money(fitter.settled().price.total)}", page)
    fitter.settled()
    fitter.workspace.remove("rooms.0.design.appliances", 1, "take out Bidet 1")
    fitter.settled()
    for number in ("102-V1", "102-V2"):
        fitter.press("Work out what has changed", page)
        fitter.press("Make it a variation", page)
        fitter.settled()
        assert fitter.workspace.job.variations[-1].number == number
        fitter.press("Withdraw it", page)
        fitter.settled()
    assert "Not accepted after all" not in [each.text() for each in page.findChildren(QPushButton) if each.isVisible()]


def test_at_large_text_the_terms_have_as_much_room_as_the_price(fitter: Fitter, qapp: QApplication) -> None:
    fitter.window.resize(1366, 698)
    page = opened(fitter)
    form, table = page.form, page.table
    assert form.height() < 0.75 * table.height()
    theme.apply(qapp, Look(percent=150))
    fitter.qtbot.waitUntil(lambda: form.height() > 0.75 * table.height(), timeout=WAIT_MS)


def issue(fitter: Fitter, page: PricingPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Save the quote on Paper, as it is sent out, and come back to Pricing."""
    target = tmp_path / f"quote-{len(fitter.workspace.quotes)}.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_named: (str(target), ""))
    papers, so_far = fitter.page("Alt+8"), len(fitter.workspace.quotes)
    fitter.qtbot.waitUntil(lambda: not fitter.workspace.aside.busy, timeout=WAIT_MS)
    fitter.press("Save PDF", papers)
    fitter.qtbot.waitUntil(lambda: len(fitter.workspace.quotes) == so_far + 1, timeout=WAIT_MS)
    assert fitter.page("Alt+7") is page
    return target


def test_an_issued_quote_is_set_beside_the_price_had_again_and_accepted_as_it_was_offered(
    fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = opened(fitter)
    assert "None yet: a quote is issued when it is printed" in said(page)
    target = issue(fitter, page, tmp_path, monkeypatch)
    offered = fitter.settled().price.total
    assert f"Quote 102 Ostlethwaite, {measure.show_date(datetime.now().date().isoformat(), with_year=False)}" in said(page)
    fitter.press("Save again", page)
    assert target.read_bytes() == fitter.workspace.quotes[0].body
    assert fitter.workspace.set("terms.labour_rate", Decimal(60)) == ()
    worked = fitter.settled()
    fitter.press("Compare", page)
    stage = worked.price.stages[0]
    fitter.qtbot.waitUntil(lambda: f"{stage.name}: {measure.show_money(stage.price)}, was £" in said(page), timeout=WAIT_MS)
    assert f"Client pays: {measure.show_money(worked.price.total)}, was {measure.show_money(offered)}" in said(page)
    assert f"The price is {measure.show_money(worked.price.total)} now: print the quote again" in said(page)
    day = measure.show_date(datetime.now().date().isoformat(), with_year=False)
    fitter.press(f"The client has accepted quote 102 of {day}, {measure.show_money(offered)}", page)
    fitter.settled()
    assert sums_of(fitter.workspace.job.agreed.rows, fitter.workspace.job.terms).total == offered
    assert fitter.workspace.job.agreed.basis.terms.labour_rate == Decimal(40), "the rates that were offered"
    fitter.qtbot.waitUntil(lambda: f"at {measure.show_money(offered)}." in said(page), timeout=WAIT_MS)


def test_a_client_accepts_the_quote_with_an_option_and_the_job_becomes_that(
    fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = opened(fitter)
    fitter.press("Begin an option", page)
    fitter.workspace.remove("rooms.0.design.appliances", 1, "take out Bidet 1")
    fitter.settled()
    without = fitter.workspace.job.rooms
    fitter.press("Keep it as an option", page)
    fitter.settled()
    fitter.type_into(page.form.row("options.0.name"), "without the bidet")
    (option,) = fitter.settled().options
    issue(fitter, page, tmp_path, monkeypatch)
    fitter.settled()
    day = measure.show_date(datetime.now().date().isoformat(), with_year=False)
    offered = sums_of(fitter.workspace.quotes[0].offers[1].agreed.rows, fitter.workspace.job.terms).total
    assert abs(offered - option.price.total) < 30, "the same but for better cut plans meanwhile"
    fitter.press(f'The client has accepted quote 102 of {day} with "without the bidet", {measure.show_money(offered)}', page)
    fitter.settled()
    job = fitter.workspace.job
    assert (job.rooms, job.options, job.agreed.basis.rooms) == (without, (), without)
    assert sums_of(job.agreed.rows, job.terms).total == offered


def test_a_mate_on_this_job_changes_price_days_and_what_is_kept(fitter: Fitter) -> None:
    page = opened(fitter)
    alone = fitter.settled().price
    fitter.press("Somebody else works on this job", page)
    fitter.settled()
    for name, words in (("name", "Mate"), ("rate", "22"), ("paid", "15"), ("frames", "helps"), ("boarding", "shares it")):
        fitter.type_into(page.form.row(f"terms.people.0.{name}"), words)
        fitter.settled()
    price = fitter.settled().price
    frames = next(each for each in price.stages if each.stage == "frames")
    assert [each.name for each in frames.people] == ["You", "Mate"]
    assert price.before_vat > alone.before_vat
    assert "Mate" in said(page)
    assert "£22.00" in said(page)
    fitter.press("Take them off this job", page)
    assert fitter.settled().price.total == alone.total


def test_days_longer_than_the_prices_hold_are_warned_of_and_shortened_with_a_press(fitter: Fitter) -> None:
    page = opened(fitter)
    assert "longer than prices hold" not in said(page)
    fitter.type_into(page.form.row("terms.valid_days"), "60")
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "60 days are longer than prices hold" in said(page), timeout=WAIT_MS)
    fitter.press("Good for 25 days, as its prices hold", page)
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "longer than prices hold" not in said(page), timeout=WAIT_MS)
    assert "The quote says 25 days, until Sun 13 Dec 2026." in said(page)


def test_a_late_bill_of_a_business_says_what_may_be_asked_on_the_day_asked_for(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("Make the next bill", page)
    fitter.settled()
    due = fitter.workspace.job.invoices[0].issued
    day = (date.fromisoformat(due) + timedelta(days=40)).isoformat()
    assert fitter.workspace.set("terms.stated", day) == ()
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "26 days late on" in said(page), timeout=WAIT_MS)
    assert "may be asked" not in said(page), "a private person owes no more"
    fitter.type_into(page.form.row("terms.client_is"), "a business")
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "10 days late on" in said(page), timeout=WAIT_MS)
    assert "and £70.00 may be asked" in said(page)
    assert [each.title for each in build_all(fitter.settled())][-1] == "Statement"
    bill = fitter.workspace.job.invoices[0]
    fitter.workspace.edit("paid", replace(fitter.workspace.job, invoices=(replace(bill, paid=day),)), "invoices")
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "10 days late:" in said(page), timeout=WAIT_MS)
    settled = date.today() - timedelta(days=1)
    dated(fitter, page, "Interest settled on, invoice 102-1", measure.show_date(settled.isoformat()))
    fitter.press("Interest settled", page)
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "may be asked" not in said(page), timeout=WAIT_MS)
    assert fitter.workspace.job.invoices[0].settled == settled.isoformat()


def dated(fitter: Fitter, page: PricingPage, name: str, words: str) -> None:
    """Type a day into the box of this name; it says today until then."""
    fitter.qtbot.waitUntil(lambda: any(box.accessibleName() == name for box in page.findChildren(Box)), timeout=WAIT_MS)
    box = next(box for box in page.findChildren(Box) if box.accessibleName() == name)
    assert box.property("state") == "bad" or box.text() == measure.show_date(date.today().isoformat())
    box.setFocus()
    box.selectAll()
    QTest.keyClicks(box, words)


def test_a_bill_is_paid_on_the_day_that_is_typed_and_on_none_to_come(fitter: Fitter) -> None:
    page = opened(fitter)
    told: list[str] = []
    fitter.workspace.said.connect(told.append)
    fitter.press("Make the next bill", page)
    fitter.settled()
    for words, trouble in (("soon", "is not a day such as"), ("1 Jan 2099", "Thu 1 Jan 2099 is still to come"), ("", "a day is needed")):
        dated(fitter, page, "Paid on, invoice 102-1", words or " ")
        fitter.press("Paid", page)
        assert trouble in told[-1]
        assert not fitter.workspace.job.invoices[0].paid
    yesterday = date.today() - timedelta(days=1)
    dated(fitter, page, "Paid on, invoice 102-1", measure.show_date(yesterday.isoformat()))
    fitter.press("Paid", page)
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: f"paid {measure.show_date(yesterday.isoformat(), with_year=False)}" in said(page), timeout=WAIT_MS)
    assert fitter.workspace.job.invoices[0].paid == yesterday.isoformat()


def test_under_cis_what_is_priced_by_hand_may_be_hired_plant(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("Price something by hand", page)
    fitter.settled()
    assert "terms.extras.0.cis" not in [each.path for each in page.form.rows()]
    fitter.type_into(page.form.row("terms.cis"), "CIS, registered, 20 %")
    fitter.type_into(page.form.row("terms.extras.0.amount"), "60")
    before = fitter.settled().price.cis
    fitter.type_into(page.form.row("terms.extras.0.cis"), "hired plant or tools, or fuel for plant")
    after = fitter.settled().price.cis
    assert (after.hired, after.base) == (before.hired + 60, before.base - 60)
    fitter.qtbot.waitUntil(lambda: f"reckons on {measure.show_money(after.base)}" in said(page), timeout=WAIT_MS)


def test_at_large_text_the_price_stands_beside_its_stage_and_what_is_added_is_one_column(fitter: Fitter, qapp: QApplication) -> None:
    fitter.window.resize(1366, 698)
    page = opened(fitter)
    titles = [each.title for each in page.table.table_model.columns]
    hidden = {title for place, title in enumerate(titles) if page.table.isColumnHidden(place)}
    assert hidden == {"Added"}
    theme.apply(qapp, Look(percent=150))
    fitter.qtbot.waitUntil(lambda: page.table.isColumnHidden(titles.index("Overhead")), timeout=WAIT_MS)
    assert not page.table.isColumnHidden(titles.index("Added"))
    fitter.qtbot.waitUntil(lambda: page.table.horizontalScrollBar().maximum() == 0, timeout=WAIT_MS)


def test_a_discount_below_nothing_and_a_margin_of_all_are_refused_or_said(fitter: Fitter) -> None:
    page = opened(fitter)
    before = fitter.settled().price.total
    fitter.type_into(page.form.row("terms.discount"), "-5")
    assert page.form.row("terms.discount").bad
    assert fitter.settled().price.total == before
    fitter.type_into(page.form.row("terms.mark_up_as"), "margin of price")
    fitter.type_into(page.form.row("terms.mark_up"), "100")
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: "95 % is used" in said(page), timeout=WAIT_MS)


def test_a_visit_is_charged_otherwise_with_a_reason_and_says_what_it_came_to(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.type_into(page.form.row("terms.start"), "")
    before = fitter.settled().price
    assert [each.begins for each in before.visits] == ["strip out", "second fix"]
    assert "Visit 2, after adhesive and grout cure: " in said(page)
    fitter.press("Charge a visit otherwise", page)
    fitter.settled()
    fitter.type_into(page.form.row("terms.visits.0.amount"), "5")
    assert fitter.settled().price.visits == before.visits
    fitter.type_into(page.form.row("terms.visits.0.why"), "on the way home")
    made = fitter.settled().price
    assert [each.amount for each in made.visits] == [before.visits[0].amount, Decimal(5)]
    view = reason_of("visit:2", fitter.workspace)
    assert view is not None
    assert [(each.label, each.amount) for each in view.lines][-2:] == [
        ("It comes to", measure.show_money(made.visits[1].worked_out, sign=False)),
        ("Charged instead", "5.00"),
    ]
    fitter.press("Take it out", page)
    assert fitter.settled().price.visits == before.visits
