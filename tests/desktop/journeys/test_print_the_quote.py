"""The quote that the client signs says what the window says."""

from __future__ import annotations

from pathlib import Path

import pypdfium2  # type: ignore[import-untyped]  # it ships no types
import pytest
from PySide6.QtWidgets import QFileDialog

from tests.desktop.fitter import WAIT_MS, Fitter
from tundish import measure
from tundish.desktop.pages.pricing import PricingPage


def words_of(path: Path) -> str:
    pdf = pypdfium2.PdfDocument(path)
    words = "\n".join(page.get_textpage().get_text_range() for page in pdf)
    pdf.close()
    return words


def test_a_quote_is_priced_and_printed(fitter: Fitter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    fitter.open("101")
    fitter.settled()
    terms = fitter.page("Alt+7")
    assert isinstance(terms, PricingPage)
    terms.go_to("terms.labour_rate")
    fitter.type_into(terms.form.row("terms.labour_rate"), "42")
    price = fitter.settled().price

    page = fitter.page("Alt+8")
    target = tmp_path / "Quote.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_named: (str(target), ""))
    fitter.press("Save PDF", page)
    fitter.qtbot.waitUntil(target.exists, timeout=WAIT_MS)
    fitter.qtbot.waitUntil(lambda: bool(fitter.workspace.store.issued(fitter.workspace.job_id)), timeout=WAIT_MS)

    words = words_of(target)
    assert measure.show_money(price.total) in fitter.price()
    assert measure.show_money(price.total) in words
    assert fitter.workspace.job.client.name in words
    assert "Accepted" in words
    assert all(f"{stage.price:,.2f}" in words for stage in price.stages)
    assert "42.00" not in words, "what an hour costs is the trader's own business"
