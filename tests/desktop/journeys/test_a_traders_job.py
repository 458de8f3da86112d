"""A whole job as a trader has it: quoted, changed, quoted anew, accepted with an option, varied, billed, taken back, paid and closed."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

import pytest
from PySide6.QtWidgets import QFileDialog, QLabel, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from tests.desktop.fitter import WAIT_MS, Fitter
from tundish import measure
from tundish.desktop.app import Program
from tundish.desktop.main_window import MainWindow
from tundish.desktop.pages.paper import PaperPage
from tundish.desktop.pages.pricing import PricingPage
from tundish.documents.index import build_all
from tundish.pricing.invoice import bill_of
from tundish.pricing.variation import difference_of, rows_agreed, sums_of
from tundish.writers.text import as_text

WARE = "rooms.0.design.appliances"
Save = Callable[[Fitter, str], str]


def said(page: QWidget) -> str:
    return "\n".join(each.text() for each in page.findChildren(QLabel) if each.isVisible())


def shown(fitter: Fitter, page: QWidget, words: str) -> None:
    fitter.qtbot.waitUntil(lambda: words in said(page), timeout=WAIT_MS)


def pricing(fitter: Fitter) -> PricingPage:
    page = fitter.page("Alt+7")
    assert isinstance(page, PricingPage)
    fitter.settled()
    return page


def there_and_back(fitter: Fitter) -> None:
    """Undo the last step and do it again: the job is as it was, and so is every number."""
    job = fitter.workspace.job
    fitter.undo()
    assert fitter.workspace.job != job
    fitter.workspace.redo()
    assert fitter.workspace.job == job
    fitter.settled()


@pytest.fixture
def save(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Save:
    """Save a paper as PDF on Paper; gives the name of the file."""

    def saved(fitter: Fitter, key: str) -> str:
        workspace = fitter.workspace
        so_far = len(workspace.store.issued(workspace.job_id))
        files: list[str] = []

        def ask(_parent: object, _title: str, usual: str, _kinds: str) -> tuple[str, str]:
            files.append(Path(usual).name)
            return str(tmp_path / files[-1]), ""

        monkeypatch.setattr(QFileDialog, "getSaveFileName", ask)
        workspace.paper = key
        page = fitter.page("Alt+8")
        fitter.settled()
        fitter.qtbot.waitUntil(lambda: not workspace.aside.busy, timeout=WAIT_MS)
        fitter.press("Save PDF", page)
        fitter.qtbot.waitUntil(lambda: len(workspace.store.issued(workspace.job_id)) == so_far + 1, timeout=WAIT_MS)
        fitter.qtbot.waitUntil(lambda: not workspace.aside.busy, timeout=WAIT_MS)
        fitter.settled()
        return files[0]

    return saved


def reopened(fitter: Fitter, qtbot: QtBot) -> tuple[MainWindow, Fitter]:
    """The program closed and opened again on the same database."""
    fitter.window.close()
    window = MainWindow()
    program = Program(window)
    with qtbot.waitSignal(program.ready, timeout=WAIT_MS), qtbot.waitActive(window):
        window.show()
        window.activateWindow()
    again = Fitter(program, qtbot)
    again.open("102")
    again.settled()
    return window, again


def quoted_twice(fitter: Fitter, save: Save) -> None:
    """A quote, then one with a skip permit and an option without the bidet."""
    fitter.open("102")
    fitter.settled()
    assert save(fitter, "quote") == "Quote 102 Ostlethwaite.pdf"
    page = pricing(fitter)
    fitter.press("Price something by hand", page)
    there_and_back(fitter)
    fitter.type_into(page.form.row("terms.extras.0.what"), "Skip permit")
    fitter.type_into(page.form.row("terms.extras.0.amount"), "85")
    fitter.press("Begin an option", page)
    there_and_back(fitter)
    fitter.workspace.remove(WARE, 1, "take out Bidet 1")
    there_and_back(fitter)
    fitter.press("Keep it as an option", page)
    there_and_back(fitter)
    fitter.type_into(page.form.row("options.0.name"), "without the bidet")
    fitter.settled()
    papers = fitter.page("Alt+8")
    assert isinstance(papers, PaperPage)
    fitter.qtbot.waitUntil(lambda: not fitter.workspace.aside.busy, timeout=WAIT_MS)
    fitter.type_into(papers._why.row("why_revised"), "You asked for a skip permit.")
    fitter.settled()
    assert save(fitter, "quote") == "Quote 102a Ostlethwaite.pdf"
    first, second = (sums_of(each.offers[0].agreed.rows, each.offers[0].agreed.basis.terms).total for each in fitter.workspace.quotes)
    assert second - first == Decimal("102.00"), "85.00 and 20 % on it"


def test_a_job_from_the_first_quote_to_the_last_penny(fitter: Fitter, qtbot: QtBot, save: Save) -> None:
    quoted_twice(fitter, save)
    window, fitter = reopened(fitter, qtbot)
    page = pricing(fitter)
    words = next(each.text() for each in page.findChildren(QPushButton) if 'with "without the bidet"' in each.text() and each.isVisible())
    assert words.startswith("The client has accepted quote 102a of ")
    fitter.press(words, page)
    there_and_back(fitter)
    job = fitter.workspace.job
    agreed = sums_of(job.agreed.rows, job.terms).total
    assert words.endswith(measure.show_money(agreed))
    assert (job.agreed.quote, job.agreed.option) == ("102a", "without the bidet")
    assert [each.name for each in job.rooms[0].design.appliances] == ["WC 1", "Basin 1"]
    shown(fitter, page, 'quote 102a with "without the bidet", at')
    now = varied(fitter, save) + agreed
    billed(fitter, save, now)
    numbers = [(each.number, bool(each.gone)) for each in fitter.workspace.store.numbers() if each.kind != "quote"]
    assert numbers == [("102-V1", True), ("102-V2", False), *((f"102-{place}", False) for place in range(1, 6))]
    window.close()
    window.deleteLater()


def varied(fitter: Fitter, save: Save) -> Decimal:
    """Grab rails after all: offered, undone, offered again, out, signed; gives what it adds."""
    page = pricing(fitter)
    fitter.press("Price something by hand", page)
    fitter.settled()
    fitter.type_into(page.form.row("terms.extras.1.what"), "Grab rails")
    fitter.type_into(page.form.row("terms.extras.1.amount"), "120")
    fitter.type_into(page.form.row("why_varied"), "Rails after all")
    fitter.settled()
    for undone in (True, False):
        fitter.press("Work out what has changed", page)
        fitter.press("Make it a variation", page)
        fitter.settled()
        if undone:
            fitter.undo()
            fitter.settled()
    assert save(fitter, "variation-102-V2") == "Variation 102-V2 Ostlethwaite.pdf"
    page = pricing(fitter)
    fitter.undo()
    (made,) = fitter.workspace.job.variations
    paper = next(as_text(each) for each in build_all(fitter.settled()) if each.number == "102-V2")
    assert "To quote 102a" in paper
    fitter.press("Accepted today", page)
    there_and_back(fitter)
    more = sums_of(difference_of(made), fitter.workspace.job.terms).total
    assert more == Decimal("144.00"), "120.00 and 20 % on it"
    return more


def billed(fitter: Fitter, save: Save, now: Decimal) -> None:
    """Deposit and its receipt, a stage taken back and billed again, the last: to the penny what is agreed."""
    job = fitter.workspace.job
    assert sums_of(rows_agreed(job.agreed, job.variations), job.terms).total == now
    page = pricing(fitter)
    fitter.press("Make the next bill", page)
    there_and_back(fitter)
    assert save(fitter, "invoice-102-1") == "Invoice 102-1 Ostlethwaite.pdf"
    page = pricing(fitter)
    fitter.press("Paid", page)
    there_and_back(fitter)
    assert save(fitter, "invoice-102-1") == "Receipt 102-1 Ostlethwaite.pdf"
    page = pricing(fitter)
    fitter.press("Make the next bill", page)
    there_and_back(fitter)
    shown(fitter, page, "Invoice 102-2")
    backs = [each for each in page.findChildren(QPushButton) if each.text() == "Take it back" and each.isVisible()]
    backs[-1].click()
    there_and_back(fitter)
    for number in ("102-4", "102-5"):
        fitter.press("Make the next bill", page)
        fitter.settled()
        assert fitter.workspace.job.invoices[-1].number == number
        shown(fitter, page, f"Invoice {number}")
    assert "Make the next bill" not in [each.text() for each in page.findChildren(QPushButton) if each.isVisible()]
    bills = fitter.workspace.job.invoices
    assert sum(bill_of(each).total for each in bills) == now
    deposit = now / Decimal("1.2") * Decimal("0.3")
    assert abs(bill_of(bills[0]).net - deposit) <= Decimal("0.03"), "30 % before VAT, of pennies that VAT comes out on"
    text = {each.number: as_text(each) for each in build_all(fitter.settled()) if each.key.startswith("invoice-")}
    assert "No longer to be paid" in text["102-3"]
    assert "Taken back by credit note 102-3" in text["102-2"]
