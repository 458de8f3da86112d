"""Job files in the window: opened, copied and saved with the photographs that belong to them."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from PySide6.QtCore import QBuffer, QIODevice
from PySide6.QtGui import QImage, qRgb
from PySide6.QtWidgets import QFileDialog, QPushButton

from tests.desktop.fitter import WAIT_MS, Fitter
from tundish.cutting.sawn import Sawn
from tundish.desktop.chips import Chip
from tundish.desktop.pages.jobs import JobsPage
from tundish.estimate import Job
from tundish.field import added
from tundish.pricing.invoice import Charge, Invoice
from tundish.pricing.variation import Agreed, Variation
from tundish.store.codec import read_job_file, write_job
from tundish.store.orders import Orders
from tundish.store.papers import Paper
from tundish.store.photographs import key_of
from tundish.survey.settled import Settled
from tundish.survey.shape import Photograph
from tundish.varying import agree


def jpeg() -> bytes:
    image = QImage(64, 48, QImage.Format.Format_RGB32)
    image.fill(qRgb(90, 120, 150))
    device = QBuffer()
    device.open(QIODevice.OpenModeFlag.WriteOnly)
    assert image.save(device, "JPEG", 80)  # type: ignore[call-overload]  # a device is taken too
    return bytes(device.data().data())


def jobs_page(fitter: Fitter) -> JobsPage:
    page = fitter.page("Alt+0")
    assert isinstance(page, JobsPage)
    return page


def pictured(fitter: Fitter, body: bytes) -> Job:
    opened, _ = fitter.workspace.store.open(fitter.workspace.store.find("101") or 0)
    assert opened.job is not None
    job = replace(opened.job, number="777")
    return added(job, "rooms.0.survey.photographs", Photograph(picture=key_of(body), name="stack.jpg"))


def open_file(fitter: Fitter, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_args, **_named: (str(path), ""))
    fitter.press("Open from a file", jobs_page(fitter))
    fitter.settled()


def save_to(fitter: Fitter, path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    said: list[str] = []
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_named: (str(path), ""))
    fitter.workspace.said.connect(said.append)
    fitter.press("Save to a file", jobs_page(fitter))
    fitter.qtbot.waitUntil(lambda: bool(said), timeout=WAIT_MS)
    fitter.workspace.said.disconnect(said.append)
    return said[-1]


def test_a_job_file_brings_its_photographs_and_a_copy_keeps_them(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    body = jpeg()
    file = tmp_path / "one.tundish"
    file.write_bytes(write_job(pictured(fitter, body), {key_of(body): body}))
    open_file(fitter, file, monkeypatch)
    first = fitter.workspace.job_id
    assert fitter.workspace.store.photograph(first, key_of(body)) == body
    page = jobs_page(fitter)
    page.table.choose(str(first))
    fitter.press("Copy", page)
    fitter.settled()
    assert fitter.workspace.job_id != first
    assert fitter.workspace.store.photograph(fitter.workspace.job_id, key_of(body)) == body


def test_a_saved_file_has_the_job_with_its_photographs(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    body = jpeg()
    file = tmp_path / "one.tundish"
    file.write_bytes(write_job(pictured(fitter, body), {key_of(body): body}))
    open_file(fitter, file, monkeypatch)
    jobs_page(fitter).table.choose(str(fitter.workspace.job_id))
    said = save_to(fitter, tmp_path / "out", monkeypatch)
    assert said == f"Saved: out.tundish, in {tmp_path}, with 1 photograph"
    again = read_job_file(tmp_path / "out.tundish")
    assert again.problems == ()
    assert again.job == fitter.workspace.job
    assert again.pictures == {key_of(body): body}


def test_a_file_that_cannot_be_written_is_said_and_nothing_is_left(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    said = save_to(fitter, tmp_path / "gone" / "job.tundish", monkeypatch)
    assert "job.tundish was not written" in said
    assert "the folder is not there" in said
    assert list(tmp_path.glob("*.tundish")) == []


def test_a_file_too_large_to_be_opened_again_is_not_written(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tundish.desktop.pages.jobs.MOST_BYTES", 1_000)
    said = save_to(fitter, tmp_path / "job.tundish", monkeypatch)
    assert "take some out. Nothing was written." in said
    assert not (tmp_path / "job.tundish").exists()


def test_a_job_put_away_is_found_among_those_and_taken_out_again(fitter: Fitter) -> None:
    page = jobs_page(fitter)
    job = str(fitter.workspace.store.find("103"))
    page.table.choose(job)
    fitter.press("Put away", page)
    assert page.table.table_model.place(job) < 0
    next(each for each in page.findChildren(Chip) if each.choice.text == "Put away").click()
    assert [each.id for each in page.table.table_model.entries()] == [job]
    page.table.choose(job)
    fitter.press("Take out again", page)
    assert page.table.table_model.rowCount() == 0


def test_every_tool_of_the_page_shows_its_words(fitter: Fitter) -> None:
    page = jobs_page(fitter)
    for each in page.findChildren(QPushButton):
        if each.isVisible():
            assert each.width() >= each.sizeHint().width(), each.text()


def test_a_copy_asks_for_the_same_and_has_nothing_of_what_was_issued(fitter: Fitter) -> None:
    fitter.open("102")
    worked = fitter.settled()
    charge = Charge(what="all", net=Decimal(10), percent=Decimal(20))
    first = replace(
        worked.job,
        agreed=agree(worked, "2026-12-01"),
        invoices=(Invoice(number="102-1", what="Deposit", charges=(charge,)),),
        variations=(Variation(number="102-V1"),),
        settled=(Settled(decision="seen", state="settled"),),
        sawn=(Sawn(item="strut", mark="A1"),),
        buying=replace(worked.job.buying, accepted="2026-12-01"),
        terms=replace(worked.job.terms, quoted="2026-11-30", start="2026-12-10"),
        why_varied="taller",
        why_revised="cheaper",
    )
    fitter.workspace.edit("sign all", first)
    key = fitter.workspace.job_key
    Orders(fitter.workspace.store).draft(key, "north", [worked.buying.purchases[0].picks[0]])
    fitter.workspace.issue(fitter.workspace.job_id, Paper("quote", "Quote 102", "pdf", 1, "2026-12-01T10:00:00", "words", b""), "102")
    page = jobs_page(fitter)
    page.table.choose(str(fitter.workspace.store.find("102")))
    fitter.press("Copy", page)
    fitter.settled()
    copy, workspace = fitter.workspace.job, fitter.workspace
    assert copy.number == "105"
    assert (copy.client, copy.rooms, copy.title, copy.options) == (first.client, first.rooms, first.title, first.options)
    assert copy.terms == replace(first.terms, quoted="", start="", boarding="", vat_evidence="")
    assert (copy.agreed, copy.invoices, copy.variations, copy.settled, copy.sawn) == (Agreed(), (), (), (), ())
    assert (copy.buying.accepted, copy.why_varied, copy.why_revised) == ("", "", "")
    assert workspace.quotes == workspace.store.issued(workspace.job_id) == ()
    assert Orders(workspace.store).all(workspace.job_key) == ()
    assert len(Orders(workspace.store).all(key)) == 1
    fitter.press("Copy", jobs_page(fitter))
    assert fitter.workspace.job.number == "106", "a copy of a copy has a number of its own too"


def test_a_file_of_a_job_that_is_here_is_told_so(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    opened, _ = fitter.workspace.store.open(fitter.workspace.store.find("101") or 0)
    assert opened.job is not None
    file = tmp_path / "again.tundish"
    file.write_bytes(write_job(opened.job))
    said: list[str] = []
    fitter.workspace.said.connect(said.append)
    open_file(fitter, file, monkeypatch)
    assert any("A job 101 was here already" in words for words in said)
    fitter.workspace.set("number", "102")
    assert "Another job is 102 too" in said[-1]
    fitter.workspace.said.disconnect(said.append)


def test_the_bills_of_all_jobs_are_saved_for_the_accountant_with_the_numbers_that_are_missing(
    fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fitter.open("101")
    job = replace(fitter.settled().job, demo="", number="700", invoices=())
    charge = Charge(what="all", net=Decimal(10), percent=Decimal(20))
    fitter.workspace.take_in(job)
    fitter.workspace.add("invoices", Invoice(number="700-1", what="Deposit", charges=(charge,), issued="2026-12-01"), "make invoice 700-1")
    fitter.undo()
    fitter.workspace.add("invoices", Invoice(number="700-2", what="Deposit", charges=(charge,), issued="2026-12-01"), "make invoice 700-2")
    target = tmp_path / "bills.csv"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_named: (str(target), ""))
    fitter.press("Bills", jobs_page(fitter))
    fitter.qtbot.waitUntil(target.exists, timeout=WAIT_MS)
    text = target.read_text(encoding="utf-8-sig")
    assert "700-2" in text
    assert "10.00" in text
    assert "Undone: make invoice 700-1" in text
