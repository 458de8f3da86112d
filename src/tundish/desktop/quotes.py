"""The quotes that were issued, each beside the price as it is now, and their bytes to be had again."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from functools import partial
from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop.words import button, clear_out, in_row, label
from tundish.desktop.workspace import Workspace
from tundish.documents.said import Changed, Said, changed
from tundish.errors import TundishError
from tundish.estimate import Estimate
from tundish.issuing import show_time
from tundish.pricing.terms import Terms
from tundish.pricing.variation import PricedRow, rows_of, sums_of
from tundish.store.papers import Paper


class Quotes(QWidget):
    """A row for every issue of the quote, the oldest first; a chosen one is set beside the price line by line."""

    made_anew = Signal()

    def __init__(self, workspace: Workspace, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Quotes issued")
        self._workspace = workspace
        self._beside: Paper | None = None
        self._shown: tuple[object, ...] = ()
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(14, 2, 12, 6)
        self.show_quotes()

    def show_quotes(self) -> None:
        """Show them as they are kept now."""
        estimate = self._workspace.estimate
        issued = _once(self._workspace.quotes)
        if self._beside not in issued:
            self._beside = None
        shown = (issued, self._beside, estimate.price if estimate and self._beside else None)
        if shown == self._shown:
            return
        self._shown = shown
        clear_out(self._rows)
        for place, paper in enumerate(issued):
            self._add(paper, issued[place - 1] if place else None)
        if self._beside is not None and estimate is not None:
            for words in compared(self._beside, estimate):
                self._rows.addWidget(label(words, "note", wrap=True))
        if not issued:
            self._rows.addWidget(
                label("None yet: a quote is issued when it is printed, saved or sent on Paper.", "note", "ink2", wrap=True)
            )
        self.made_anew.emit()

    def _add(self, paper: Paper, before: Paper | None) -> None:
        acts = (self._act("Compare", "", partial(self._compare, paper)), self._act("Save again", "paper", partial(self._save, paper)))
        self._rows.addWidget(in_row(label(quote_words(paper, before), "note", wrap=True), *acts))

    def _act(self, words: str, glyph: str, do: Callable[[], None]) -> QWidget:
        made = button(words, glyph)
        made.clicked.connect(lambda _=False: do())
        return made

    def _compare(self, paper: Paper) -> None:
        self._beside = None if paper == self._beside else paper
        self.show_quotes()

    def _save(self, paper: Paper) -> None:
        """The very bytes that went out, once more in a file."""
        from tundish.writers.safe import write_whole

        name = f"{paper.name}.{paper.format}"
        chosen, _ = QFileDialog.getSaveFileName(self, f"Save {name}", str(Path.home() / name), f"{paper.format.upper()} (*.{paper.format})")
        if not chosen:
            return
        try:
            write_whole(Path(chosen), paper.body)
        except TundishError as fault:
            self._workspace.said.emit(str(fault))
        else:
            self._workspace.said.emit(f"Saved: {Path(chosen).name}, in {Path(chosen).parent}")


def quote_words(paper: Paper, before: Paper | None) -> str:
    """An issued quote in a line: its number, when, what it asked for, how that differs from the one before, and why."""
    said = f"{paper.name}, {show_time(paper.made)}"
    total, last = _total(paper), _total(before) if before else None
    if total is None:
        return said
    said = f"{said}: {measure.show_money(total)}"
    if last is not None and total != last:
        said = f"{said}, {measure.show_money(abs(total - last))} {'more' if total > last else 'less'}"
    return f"{said}. Why: {' '.join(paper.why.split())}" if paper.why else said


def compared(paper: Paper, estimate: Estimate) -> tuple[str, ...]:
    """What an issued quote asked for beside the price as it is now, line by line; alike lines are left out."""
    if not paper.offers:
        return ("What it asked for was not kept line by line.",)
    agreed, terms = paper.offers[0].agreed, estimate.job.terms
    changes = changed(_said(agreed.rows, agreed.basis.terms), _said(rows_of(estimate.price, terms), terms))
    return tuple(map(_words, changes)) or ("It asks for what the price is now, line by line.",)


def _words(change: Changed) -> str:
    if change.was and change.now:
        return f"{change.what}: {change.now}, was {change.was}"
    return f"{change.what}: {change.now}, new"


def _said(rows: tuple[PricedRow, ...], terms: Terms) -> tuple[Said, ...]:
    lines = [(each.what, each.net or Decimal(0)) for each in rows] + [("Client pays", sums_of(rows, terms).total)]
    return tuple(Said(what, (("", measure.show_money(amount)),)) for what, amount in lines)


def _total(paper: Paper) -> Decimal | None:
    return sums_of(paper.offers[0].agreed.rows, paper.offers[0].agreed.basis.terms).total if paper.offers else None


def _once(issued: tuple[Paper, ...]) -> tuple[Paper, ...]:
    """Every issue once, as it first went out: what was printed again said the same."""
    return tuple(paper for place, paper in enumerate(issued) if not place or issued[place - 1].text != paper.text)
