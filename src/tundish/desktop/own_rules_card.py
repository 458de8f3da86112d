"""The trader's own rules: a list of sentences, and the boxes that one of them is made of."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QVBoxLayout, QWidget

from tundish.catalogue.own_rules import EVERY, HOURS, WHEN, OwnRule, sentence
from tundish.desktop import look
from tundish.desktop.boxes import Box, TickBox
from tundish.desktop.cells import Cell, Column, Group, Row
from tundish.desktop.chooser import Chooser
from tundish.desktop.tables import Table, TableCard
from tundish.desktop.unkept import NOT_KEPT, Unkept
from tundish.desktop.weighing import Weighing
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.rules.rule import STAGES
from tundish.takeoff.own_rules import own_problems

COLUMNS: Final = (Column("Own rule"), Column("Called", 260), Column("Stage", 130))
HINT: Final = "For every so many of something, so much of an item or so many hours."


class OwnRulesCard(TableCard):
    """Choose a rule to change it or take it out, or make a new one; what it would do to the open job is shown before it is kept."""

    changed = Signal()

    def __init__(self, workspace: Workspace) -> None:
        self.table = Table("Own rules", COLUMNS)
        super().__init__(self.table)
        self._workspace = workspace
        self.table.set_empty("No rule of your own yet", HINT, "rules")
        self.table.row_chosen.connect(self._chosen)
        self._called, self._allow = Box("Called"), Box("Allow", figure=True)
        self._every, self._item, self._when, self._stage = (Chooser(name) for name in ("For every", "Of", "Only when", "Needed for"))
        self._rounded = TickBox("Rounded up")
        self._rounded.setChecked(True)
        for chooser, words in ((self._every, EVERY), (self._when, WHEN), (self._stage, STAGES)):
            chooser.show_choices(words, 0)
        self._stage.choose("frames")
        self._codes: list[str] = []
        self._unkept: Unkept[OwnRule] = Unkept()
        self._trouble = label("", "note", "fails", wrap=True)
        self._trouble.hide()
        self._weighing = Weighing(workspace)
        self._change, self._out = button("Change it"), button("Take it out")
        self.set_foot(self._foot())
        self.show_rules()

    def show_rules(self) -> None:
        """The rules as they are kept, each with what is wrong with it."""
        book = self._workspace.book
        items = sorted(book.items.values(), key=lambda each: each.name)
        codes = [HOURS, *(each.code for each in items)]
        if codes != self._codes:
            self._codes = codes
            self._item.show_choices([HOURS, *(each.name for each in items)], 0)
        wrong = {problem.path.split(".")[1]: problem.text for problem in own_problems(book)}
        rows = tuple(
            Row(
                f"own:{place}",
                (
                    Cell(sentence(rule, book.items), strong=True, below=wrong.get(str(place), "")),
                    Cell(rule.name, tone="ink2"),
                    Cell(rule.stage, tone="ink2"),
                ),
            )
            for place, rule in enumerate(book.own_rules)
        )
        self.table.set_groups((Group("own", "My own rules", rows),) if rows else ())
        self._chosen(self.table.chosen())

    def _foot(self) -> QWidget:
        made = QWidget()
        column = QVBoxLayout(made)
        column.setContentsMargins(12, 6, 12, 6)
        self._allow.setMaximumWidth(look.now().px(80))
        self._item.setMaximumWidth(look.now().px(300))
        column.addLayout(
            _line(
                label("For every", "table"),
                self._every,
                label("allow", "table"),
                self._allow,
                label("of", "table"),
                self._item,
                self._rounded,
            )
        )
        called = (label("called", "table"), self._called)
        column.addLayout(_line(label("only when", "table"), self._when, label("needed for", "table"), self._stage, *called))
        add, bring, give = button("Add rule", "add"), button("Bring in"), button("Save as file")
        acts = ((add, self._add), (self._change, self._put), (self._out, self._take_out), (bring, self._bring_in), (give, self._give_away))
        for tool, does in acts:
            tool.clicked.connect(does)
        column.addLayout(_line(*(tool for tool, _ in acts)))
        column.addWidget(self._trouble)
        column.addWidget(self._weighing)
        return made

    def _place(self) -> int:
        key = self.table.chosen().removeprefix("own:")
        return int(key) if key.isdecimal() and int(key) < len(self._workspace.book.own_rules) else -1

    def _chosen(self, _key: str) -> None:
        place = self._place()
        self._change.setEnabled(place >= 0)
        self._out.setEnabled(place >= 0)
        self._weighing.leave()
        self._unkept.leave(self._typed())
        if place < 0:
            return
        self._fill(self._workspace.book.own_rules[place])
        typed = self._unkept.show(str(place), self._typed())
        if typed is not None:
            self._fill(typed)
        self._say(NOT_KEPT if typed is not None else "")

    def _fill(self, rule: OwnRule) -> None:
        self._called.show_value(rule.name)
        self._allow.show_value(rule.allow)
        for chooser, words in ((self._every, rule.every), (self._when, rule.when), (self._stage, rule.stage)):
            chooser.choose(words)
        self._item.setCurrentIndex(self._codes.index(rule.item) if rule.item in self._codes else -1)
        self._rounded.setChecked(rule.rounded)

    def _typed(self) -> OwnRule:
        at = self._item.currentIndex()
        return OwnRule(
            name=self._called.text().strip(),
            every=self._every.currentText(),
            allow=self._allow.text().strip(),
            item=self._codes[at] if at >= 0 else "",
            rounded=self._rounded.isChecked(),
            when=self._when.currentText(),
            stage=self._stage.currentText(),
        )

    def _add(self) -> None:
        self._weigh((*self._workspace.book.own_rules, self._typed()), len(self._workspace.book.own_rules))

    def _put(self) -> None:
        place, rules = self._place(), self._workspace.book.own_rules
        self._weigh((*rules[:place], self._typed(), *rules[place + 1 :]), place)

    def _take_out(self) -> None:
        place, rules = self._place(), self._workspace.book.own_rules
        self._weigh((*rules[:place], *rules[place + 1 :]), -1)

    def _weigh(self, rules: tuple[OwnRule, ...], new: int) -> None:
        """Show what other rules would do, unless the one at `new` cannot be used."""
        book = replace(self._workspace.book, own_rules=rules)
        wrong = next((each.text for each in own_problems(book) if each.path.split(".")[1] == str(new)), "")
        self._say(wrong)
        if wrong:
            self._weighing.leave()
        else:
            self._weighing.weigh(book, self._keeping(rules))

    def _keeping(self, rules: tuple[OwnRule, ...]) -> Callable[[], None]:
        def keep() -> None:
            self._unkept = Unkept()
            self._workspace.store.keep_own_rules(rules)
            self._workspace.book_has_changed()
            self.show_rules()
            self.changed.emit()

        return keep

    def _bring_in(self) -> None:
        from tundish.errors import TundishError
        from tundish.store.own_rules_file import own_rules_of

        name, _ = QFileDialog.getOpenFileName(self, "Bring in own rules", "", "Own rules (*.json)")
        if not name:
            return
        try:
            brought = own_rules_of(Path(name).read_bytes(), Path(name).name)
        except (TundishError, OSError) as fault:
            self._say(str(fault))
            return
        mine = self._workspace.book.own_rules
        self._weigh((*mine, *(each for each in brought if each not in mine)), -1)

    def _give_away(self) -> None:
        from tundish.store.own_rules_file import own_rules_bytes
        from tundish.writers.safe import CouldNotWriteError, write_whole

        name, _ = QFileDialog.getSaveFileName(self, "Save own rules", "own rules.json", "Own rules (*.json)")
        if not name:
            return
        try:
            write_whole(Path(name), own_rules_bytes(self._workspace.book.own_rules))
        except CouldNotWriteError as fault:
            self._say(str(fault))
            return
        self._workspace.said.emit(f"Saved: {Path(name).name}")

    def _say(self, words: str) -> None:
        self._trouble.setText(words)
        self._trouble.setVisible(bool(words))


def _line(*parts: QWidget) -> QHBoxLayout:
    """Widgets side by side from the left."""
    row = QHBoxLayout()
    for part in parts:
        row.addWidget(part)
    row.addStretch(1)
    return row
