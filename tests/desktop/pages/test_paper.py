"""Paper: the list with its states, the preview of the real PDF, saving and copying."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import partial
from pathlib import Path

import pypdfium2  # type: ignore[import-untyped]  # it ships no types
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QPushButton

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.spoken_names import nameless
from tundish.desktop.mail import Letter, Mailing
from tundish.desktop.pages.paper import PaperPage
from tundish.documents.block import Document, Heading, Table
from tundish.field import Entry
from tundish.issuing import Made, lettered, make
from tundish.pricing.invoice import Charge, Invoice
from tundish.store.papers import Paper


def opened(fitter: Fitter, number: str = "101") -> PaperPage:
    fitter.open(number)
    fitter.settled()
    page = fitter.page("Alt+8")
    assert isinstance(page, PaperPage)
    drawn(fitter, page)
    return page


def drawn(fitter: Fitter, page: PaperPage) -> None:
    """Wait until the papers are made and the page is shown."""
    fitter.qtbot.waitUntil(lambda: not fitter.workspace.aside.busy and not page.preview.page_shown().isNull(), timeout=WAIT_MS)


def states(page: PaperPage) -> dict[str, str]:
    model = page.table.table_model
    rows = [model.entry(place) for place in range(model.rowCount())]
    return {row.id: row.cells[0].below for row in rows if hasattr(row, "cells")}


def choose(fitter: Fitter, page: PaperPage, key: str) -> None:
    page.table.choose(key)
    drawn(fitter, page)


def button(page: PaperPage, words: str) -> QPushButton:
    return next(each for each in page.findChildren(QPushButton) if each.text() == words)


def answer_with(monkeypatch: pytest.MonkeyPatch, path: Path) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_named: (str(path), ""))


def test_every_paper_is_listed_with_one_order_for_each_supplier(fitter: Fitter) -> None:
    page = opened(fitter)
    listed = list(states(page))
    orders = fitter.settled().buying.orders
    assert listed[:7] == ["quote", "terms", "heights", "setting-out", "template", "materials", "cut-list"]
    assert [key for key in listed if key.startswith("order-")] == [f"order-{order.supplier.key}" for order in orders]
    assert listed[-5:] == ["survey-blank", "survey", "closing", "hand-over", "after"]


def test_only_what_has_something_open_on_it_says_so(fitter: Fitter) -> None:
    said = states(opened(fitter))
    assert [key for key, state in said.items() if state.endswith("with TBC")] == ["survey"], "its stack has usual sizes, assumed"
    said = states(opened(fitter, "102"))
    assert {"quote", "setting-out", "heights"} <= {key for key, state in said.items() if state.endswith("with TBC")}


def test_the_preview_is_a_page_of_paper_as_wide_as_there_is_room(fitter: Fitter) -> None:
    page = opened(fitter)
    picture = page.preview.page_shown()
    assert abs(picture.width() - page.preview.pixels_wide()) <= 2
    assert picture.height() / picture.width() == pytest.approx(297 / 210, abs=0.01)
    assert page.preview.accessibleName().startswith("Quote, page 1 of")


def test_page_down_and_page_up_turn_the_pages(fitter: Fitter) -> None:
    page = opened(fitter, "102")
    choose(fitter, page, "cut-list")
    page.preview.setFocus()
    assert "page 1 of" in page.preview.accessibleName()
    QTest.keyClick(page.preview, Qt.Key.Key_PageDown)
    drawn(fitter, page)
    assert "page 2 of" in page.preview.accessibleName()
    QTest.keyClick(page.preview, Qt.Key.Key_PageUp)
    drawn(fitter, page)
    assert "page 1 of" in page.preview.accessibleName()


def test_a_window_resized_while_a_paper_is_made_still_shows_that_paper(fitter: Fitter) -> None:
    page = opened(fitter, "102")
    assert page.preview.accessibleName() == "Quote, page 1 of 1"
    page.table.choose("cut-list")
    page.preview.wanted.emit()
    drawn(fitter, page)
    assert page.preview.accessibleName().startswith("Cut list, page 1 of ")
    assert not page.preview.accessibleName().endswith(" of 1")


def test_letters_that_cannot_be_printed_are_said_above_the_preview_until_they_are_gone(fitter: Fitter) -> None:
    page = opened(fitter)
    assert not page.lacks.isVisible()
    for name, told in (("Mrs 漢字", "No type here has 漢 字: printed as �"), ("Mrs כהן 😀", "")):
        fitter.workspace.set("client.name", name)
        fitter.settled()
        drawn(fitter, page)
        assert page.lacks.text() == told
        assert page.lacks.isVisible() == bool(told)


def test_true_size_is_the_size_on_paper(fitter: Fitter) -> None:
    page = opened(fitter)
    button(page, "True size").click()
    drawn(fitter, page)
    inches = page.preview.page_shown().width() / page.preview.screen().physicalDotsPerInchX()
    assert inches * 25.4 == pytest.approx(210, abs=1)


def test_a_saved_paper_is_a_pdf_and_is_marked_as_issued(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = opened(fitter)
    target = tmp_path / "Quote.pdf"
    answer_with(monkeypatch, target)
    fitter.press("Save PDF", page)
    fitter.qtbot.waitUntil(lambda: states(page)["quote"].startswith("issued"), timeout=WAIT_MS)
    assert target.read_bytes().startswith(b"%PDF")
    kept = fitter.workspace.store.issued(fitter.workspace.job_id)
    assert [(paper.key, paper.format, paper.body) for paper in kept] == [("quote", "pdf", target.read_bytes())]


def test_a_paper_saved_while_another_job_is_opened_is_kept_with_its_own(
    fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = opened(fitter)
    store, own, revision = fitter.workspace.store, fitter.workspace.job_id, fitter.workspace.revision
    answer_with(monkeypatch, tmp_path / "Quote.pdf")
    fitter.press("Save PDF", page)
    fitter.open("102")
    other = fitter.workspace.job_id
    fitter.qtbot.waitUntil(lambda: not fitter.workspace.aside.busy, timeout=WAIT_MS)
    assert [(paper.key, paper.revision) for paper in store.issued(own)] == [("quote", revision)]
    assert store.issued(other) == ()


def test_papers_of_the_job_before_are_not_shown_for_the_one_that_is_open(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.workspace.set("title", "Bath")
    fitter.settled()
    fitter.open("102")
    fitter.qtbot.waitUntil(lambda: not fitter.workspace.aside.busy, timeout=WAIT_MS)
    assert states(page) == {}
    assert page._paper() is None


def test_a_change_after_issue_is_said_with_how_much(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = opened(fitter)
    answer_with(monkeypatch, tmp_path / "Quote.pdf")
    fitter.press("Save PDF", page)
    fitter.qtbot.waitUntil(lambda: states(page)["quote"].startswith("issued"), timeout=WAIT_MS)
    fitter.workspace.set("terms.mark_up", 60)
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: states(page).get("quote", "").startswith("changed since"), timeout=WAIT_MS)
    fitter.undo()
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: states(page).get("quote", "").startswith("issued"), timeout=WAIT_MS)


@pytest.mark.parametrize(
    ("key", "kind", "begins"),
    [("quote", "Web page (*.html)", b"<!doctype html"), ("programme", "Calendar (*.ics)", b"begin:vcalendar")],
)
def test_a_paper_is_saved_as_the_kind_of_file_that_was_chosen(
    key: str, kind: str, begins: bytes, fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = opened(fitter)
    choose(fitter, page, key)
    offered: list[str] = []

    def asked(_parent: object, _title: str, _path: str, kinds: str) -> tuple[str, str]:
        offered.extend(kinds.split(";;"))
        return str(tmp_path / "paper.pdf"), kind

    monkeypatch.setattr(QFileDialog, "getSaveFileName", asked)
    fitter.press("Save PDF", page)
    made = tmp_path / f"paper.{kind.rpartition('.')[2].rstrip(')')}"
    fitter.qtbot.waitUntil(made.exists, timeout=WAIT_MS)
    fitter.qtbot.waitUntil(lambda: not fitter.workspace.aside.busy, timeout=WAIT_MS)
    assert kind in offered
    assert made.read_bytes().lower().startswith(begins)
    assert not (tmp_path / "paper.pdf").exists()


def test_only_lists_can_be_saved_as_a_spreadsheet(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = opened(fitter)
    assert not button(page, "Save table").isEnabled()
    choose(fitter, page, "materials")
    answer_with(monkeypatch, tmp_path / "list.xlsx")
    fitter.press("Save table", page)
    fitter.qtbot.waitUntil(lambda: states(page)["materials"].startswith("issued"), timeout=WAIT_MS)
    assert (tmp_path / "list.xlsx").read_bytes().startswith(b"PK")
    answer_with(monkeypatch, tmp_path / "list.csv")
    fitter.press("Save table", page)
    fitter.qtbot.waitUntil((tmp_path / "list.csv").is_file, timeout=WAIT_MS)
    assert "Item" in (tmp_path / "list.csv").read_text(encoding="utf-8-sig")


def test_a_name_that_is_typed_is_kept_and_no_other_file_is_written_over(
    fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The dialog stands at "Spreadsheet" and asks about the name that was typed: list.csv must not become list.xlsx behind its back."""
    page = opened(fitter)
    choose(fitter, page, "materials")
    (tmp_path / "list.xlsx").write_bytes(b"mine")
    told: list[str] = []
    fitter.workspace.said.connect(told.append)
    for typed, kind in (("list.csv", "Spreadsheet (*.xlsx)"), ("other.xlsx", "Table as text (*.csv)")):
        monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_, typed=typed, kind=kind: (str(tmp_path / typed), kind))
        fitter.press("Save table", page)
        fitter.qtbot.waitUntil((tmp_path / "list.csv").is_file, timeout=WAIT_MS)
    fitter.qtbot.waitUntil((tmp_path / "other.csv").is_file, timeout=WAIT_MS)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "other.xlsx"), "Table as text (*.csv)"))
    fitter.press("Save table", page)
    assert told[-1] == "other.csv is there already, nothing is saved: type its name to write over it"
    assert (tmp_path / "list.xlsx").read_bytes() == b"mine"


def test_a_folder_that_cannot_be_written_is_said_in_a_sentence(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = opened(fitter)
    answer_with(monkeypatch, tmp_path / "not there" / "Quote.pdf")
    told: list[str] = []
    fitter.workspace.said.connect(told.append)
    fitter.press("Save PDF", page)
    fitter.qtbot.waitUntil(lambda: any("was not written" in words for words in told), timeout=WAIT_MS)
    assert not states(page)["quote"].startswith("issued")


def test_a_paper_can_be_copied_as_text(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.press("Copy text", page)
    assert "Quote 101" in QApplication.clipboard().text()


def test_a_quote_without_a_labour_rate_says_what_it_needs(fitter: Fitter) -> None:
    page = opened(fitter)
    fitter.workspace.set("terms.labour_rate", None)
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: states(page).get("quote") == "needs a labour rate", timeout=WAIT_MS)


def test_every_control_has_a_name(fitter: Fitter) -> None:
    assert nameless(opened(fitter)) == []


def test_a_sheet_that_is_drawn_to_scale_can_be_saved_for_a_drawing_program(
    fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = opened(fitter)
    assert not button(page, "Save DXF").isEnabled()
    choose(fitter, page, "setting-out")
    answer_with(monkeypatch, tmp_path / "wall.dxf")
    fitter.press("Save DXF", page)
    fitter.qtbot.waitUntil(lambda: states(page)["setting-out"].startswith("issued"), timeout=WAIT_MS)
    assert "SOIL-AND-WASTE" in (tmp_path / "wall.dxf").read_text(encoding="utf-8")


def test_a_paper_that_changed_after_it_was_issued_carries_the_next_letter(
    fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = opened(fitter)
    choose(fitter, page, "quote")
    answer_with(monkeypatch, tmp_path / "first.pdf")
    fitter.press("Save PDF", page)
    fitter.qtbot.waitUntil(lambda: bool(fitter.workspace.store.issued(fitter.workspace.job_id)), timeout=WAIT_MS)
    assert fitter.workspace.set("terms.valid_days", Entry(45)) == ()
    assert fitter.workspace.set("terms.labour_rate", Decimal(55)) == ()
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: (made := page._paper()) is not None and made.document.number == "101a", timeout=WAIT_MS)
    drawn(fitter, page)
    told: list[str] = []
    fitter.workspace.said.connect(told.append)
    answer_with(monkeypatch, tmp_path / "second.pdf")
    fitter.press("Save PDF", page)
    assert told == ["Say why the quote changes, above it: the client reads that on the new one."]
    fitter.type_into(page._why.row("why_revised"), "You asked for it to hold longer.")
    fitter.press("Save PDF", page)  # the quote is made anew with the reason first, then saved: one press is enough
    fitter.qtbot.waitUntil(lambda: len(fitter.workspace.store.issued(fitter.workspace.job_id)) == 2, timeout=WAIT_MS)
    first, second = (words_of(tmp_path / name) for name in ("first.pdf", "second.pdf"))
    assert "Quote 101a" in second
    assert "Quote 101a" not in first
    assert "This takes the place of quote 101 of" in second
    assert "You asked for it to hold longer." in second
    assert "Changed since quote 101 of" in second
    assert "Good for 45 days" in second
    kept = fitter.workspace.store.issued(fitter.workspace.job_id)
    assert [each.why for each in kept] == ["", "You asked for it to hold longer."]
    assert [each.offers[0].agreed.on for each in kept] == [kept[0].made[:10], kept[1].made[:10]]
    fitter.qtbot.waitUntil(lambda: fitter.workspace.job.why_revised == "", timeout=WAIT_MS)  # the next one has a reason of its own
    fitter.settled()
    fitter.qtbot.waitUntil(lambda: (made := page._paper()) is not None and not made.anew, timeout=WAIT_MS)
    assert states(page)["quote"].startswith("issued")
    made = page._paper()
    assert made is not None
    assert (made.document.number, made.why) == ("101a", "You asked for it to hold longer.")


def words_of(path: Path) -> str:
    pdf = pypdfium2.PdfDocument(path)
    words = "\n".join(page.get_textpage().get_text_range() for page in pdf)
    pdf.close()
    return words


@pytest.mark.parametrize(
    ("texts", "now", "number"), [([], "x", "7"), (["x"], "x", "7"), (["x"], "y", "7a"), (["x", "y"], "y", "7a"), (["x", "y"], "x", "7b")]
)
def test_letters_follow_what_was_issued(texts: list[str], now: str, number: str) -> None:
    issued = [Paper("quote", "Quote 7", "pdf", 1, "2026-11-12T19:40:00", text, b"") for text in texts]
    made = lettered(Made(Document("quote", "Quote", "7", "", "", "", "Quote 7 Vale", "", (Heading("Bath"), Heading("Sign"))), now), issued)
    assert (made.document.number, made.document.name) == (number, f"Quote {number} Vale")
    assert any(isinstance(block, Table) for block in made.document.blocks) == (number != "7")


def test_a_bill_printed_again_keeps_its_number(fitter: Fitter) -> None:
    fitter.open("101")
    worked = fitter.settled()
    bill = Invoice(number="101-1", what="With your acceptance", charges=(Charge(what="all", net=Decimal(10), percent=Decimal(20)),))
    job = replace(worked.job, invoices=(replace(bill, paid="2026-12-02"),))
    issued = (Paper("invoice-101-1", "Invoice 101-1", "pdf", 1, "2026-11-12T19:40:00", "other words", b""),)
    (made,) = [each for each in make(replace(worked, job=job), issued) if each.document.key == "invoice-101-1"]
    assert (made.document.title, made.document.number) == ("Receipt", "101-1")


def test_a_quote_is_sent_to_the_client_and_is_issued_and_an_order_is_addressed_to_nobody(
    fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page, letters = opened(fitter), list[Letter]()
    assert fitter.workspace.set("client.email", "p.marlbeck@example.com") == ()
    fitter.settled()
    drawn(fitter, page)
    monkeypatch.setattr(Mailing, "start", lambda mailing: letters.append(mailing.letter))
    order = next(key for key in states(page) if key.startswith("order-"))
    for key in ("quote", order):
        answer_with(monkeypatch, tmp_path / f"{key}.pdf")
        choose(fitter, page, key)
        button(page, "Send").click()
        fitter.qtbot.waitUntil(partial(_handed_over, letters, key), timeout=WAIT_MS)
    assert [(each.to, each.file.read_bytes()[:5]) for each in letters] == [("p.marlbeck@example.com", b"%PDF-"), ("", b"%PDF-")]
    assert [each.key for each in fitter.workspace.store.issued(fitter.workspace.job_id)] == ["quote", order]


def _handed_over(letters: list[Letter], key: str) -> bool:
    return any(each.file.stem == key for each in letters)
