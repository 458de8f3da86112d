"""Rates and rules: every figure of the rule book, who says so, and the trader's own in place of it."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QStackedWidget, QVBoxLayout, QWidget

from tundish import measure
from tundish.catalogue.book import RuleFigure
from tundish.desktop import look
from tundish.desktop.boxes import Box
from tundish.desktop.cells import Cell, Column, Group, Row
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.own_rules_card import OwnRulesCard
from tundish.desktop.page import Page
from tundish.desktop.people_card import PeopleCard
from tundish.desktop.tables import Table, TableCard
from tundish.desktop.weighing import Weighing
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.rules.book import RULES
from tundish.rules.rule import Rule

SENTENCES: Final = (Column("Rule"), Column("Set by", 290))
FIGURES: Final = (Column("Figure"), Column("Value", 110, right=True), Column("Set by", 220), Column("State", 190))
VIEWS: Final = (("figures", "Figures and hours"), ("rules", "Rules as sentences"), ("own", "My own rules"), ("people", "People and rates"))


class RatesPage(Page):
    """The rule book to read and, figure by figure, to change."""

    help_sentences = (
        "Choose a figure, type your own value and press Enter: what it changes on the open job is shown, then keep it or leave it.",
        "My own rules allow for what you always need besides, for every frame, metre or square metre.",
        "Put back gives the value as supplied, once you have seen what that changes.",
        "People and rates: who does which work on your jobs, at what rate; a job may say otherwise on Pricing.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Rates and rules", "What does the program reckon with, and who says so?")
        self._workspace = workspace
        self._views = ChipRow("What to show")
        self._views.set_choices(tuple(Choice(key, words) for key, words in VIEWS), "figures")
        self._views.chosen.connect(self._choose_view)
        self._find = QLineEdit()
        self._find.setPlaceholderText("Find a figure or rule")
        self._find.setAccessibleName("Find a figure or rule")
        self._find.setMinimumWidth(look.now().px(190))
        self._find.textChanged.connect(self._show)
        head = QWidget()
        row = QHBoxLayout(head)
        row.setContentsMargins(8, 0, 4, 0)
        row.addWidget(self._views, 1)
        row.addWidget(self._find)
        self.add_row(head)
        self.table = Table("Figures", FIGURES)
        self.table.set_empty("Nothing found", "No figure or rule holds those words.", "rules")
        self.table.row_chosen.connect(self._chosen)
        self.sentences = Table("Rules", SENTENCES)
        self.sentences.set_empty("Nothing found", "No rule holds those words.", "rules")
        self.sentences.row_chosen.connect(self.figure_asked)
        self.sentences.row_asked.connect(self.figure_asked)
        self._stack = QStackedWidget()
        card = TableCard(self.table)
        self._name, self._box, self._back = label("", "table"), Box("Your own value", figure=True), button("Put back", "undo")
        self._trouble = label("", "note", "fails")
        self._weighing = Weighing(workspace)
        self._box.taken.connect(self._taken)
        self._back.clicked.connect(self._put_back)
        card.set_foot(self._foot())
        self._stack.addWidget(card)
        self._stack.addWidget(TableCard(self.sentences))
        self.own_rules = OwnRulesCard(workspace)
        self._stack.addWidget(self.own_rules)
        self.people = PeopleCard(workspace)
        self._stack.addWidget(self.people)
        self.set_body(self._stack)
        self._show()

    def go_to(self, rule: str) -> None:
        """Choose a rule among the sentences, whatever was looked for."""
        self._find.clear()
        self._choose_view("rules")
        self.sentences.choose(f"rule:{rule}")
        self.sentences.setFocus()

    def _foot(self) -> QWidget:
        made = QWidget()
        column, row = QVBoxLayout(made), QHBoxLayout()
        column.setContentsMargins(12, 4, 12, 4)
        column.addLayout(row)
        column.addWidget(self._weighing)
        for widget in (self._name, self._box, self._back, self._trouble):
            row.addWidget(widget)
        row.addStretch(1)
        self._box.setMaximumWidth(110)
        return made

    def _choose_view(self, view: str) -> None:
        self._views.take(view)
        self._show()

    def _show(self) -> None:
        wanted = self._find.text().strip().lower()
        self._stack.setCurrentIndex([key for key, _ in VIEWS].index(self._views.taken()))
        if self._views.taken() == "rules":
            self.sentences.set_groups(
                _grouped([(rule.family, _rule_row(rule)) for rule in RULES if wanted in f"{rule.sentence} {rule.key}".lower()])
            )
        elif self._views.taken() == "own":
            self.own_rules.show_rules()
        elif self._views.taken() == "people":
            self.people.show_people()
        else:
            figures = self._workspace.book.figures.values()
            found = [each for each in figures if wanted in f"{each.label} {each.key} {each.source}".lower()]
            self.table.set_groups(_grouped([(each.key.partition(".")[0], _figure_row(each)) for each in found]))
        self._chosen(self.table.chosen())

    def _chosen(self, row: str) -> None:
        figure = self._workspace.book.figures.get(row)
        self._trouble.setText("")
        self._weighing.leave()
        self._box.setEnabled(figure is not None)
        self._back.setEnabled(figure is not None and bool(figure.changed))
        self._name.setText(f"{figure.label}, {figure.unit}" if figure else "Choose a figure to change it")
        self._box.show_value(measure.show_number(figure.value, None) if figure else "")

    def _taken(self, words: str) -> None:
        figure = self._workspace.book.figures.get(self.table.chosen())
        if figure is None:
            return
        read = measure.read_number(words)
        if read.value is None or read.value < 0:
            self._trouble.setText(read.problem or "a number of nothing or more is needed")
            return
        self._weigh(figure, read.value, read.value)

    def _put_back(self) -> None:
        figure = self._workspace.book.figures.get(self.table.chosen())
        if figure is not None:
            self._box.show_value(measure.show_number(figure.supplied, None))
            self._weigh(figure, figure.supplied, None)

    def _weigh(self, figure: RuleFigure, value: float, own: float | None) -> None:
        """Show what another value of a figure changes; `own`: what is kept where it is wanted, None for what is supplied."""
        book = self._workspace.book
        other = replace(book, figures={**book.figures, figure.key: replace(figure, value=value)})
        self._weighing.weigh(other, lambda: self._overrule(figure.key, own))

    def _overrule(self, key: str, value: float | None) -> None:
        self._workspace.store.overrule(key, value)
        self._workspace.book_has_changed()
        self._show()


def _grouped(rows: list[tuple[str, Row]]) -> tuple[Group, ...]:
    groups: dict[str, list[Row]] = {}
    for family, row in rows:
        groups.setdefault(family, []).append(row)
    return tuple(Group(family, family.capitalize(), tuple(inside)) for family, inside in groups.items())


def _figure_row(figure: RuleFigure) -> Row:
    state = figure.changed_words or "as supplied"
    value = f"{measure.show_number(figure.value, None)} {figure.unit}".strip()
    below = f"supplied {measure.show_number(figure.supplied, None)}" if figure.changed else ""
    return Row(
        figure.key,
        (
            Cell(figure.label, strong=True),
            Cell(value, strong=bool(figure.changed), below=below),
            Cell(figure.source, tone="ink2"),
            Cell(state, tone="chalk" if figure.changed else "ink2"),
        ),
    )


def _rule_row(rule: Rule) -> Row:
    return Row(f"rule:{rule.key}", (Cell(rule.sentence), Cell(rule.source, tone="ink2")))
