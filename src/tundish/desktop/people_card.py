"""The trader's usual rate and usual people: kept for every job that says nothing else, changed with what it does to the open job."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from typing import Final

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from tundish import measure, typed
from tundish.catalogue.crew import DOES, WORKS, Crew, Person
from tundish.desktop import look
from tundish.desktop.boxes import Box
from tundish.desktop.cells import Cell, Column, Group, Row
from tundish.desktop.chooser import Chooser
from tundish.desktop.flow import Flow
from tundish.desktop.tables import Table, TableCard
from tundish.desktop.weighing import Weighing
from tundish.desktop.words import button, label, named
from tundish.desktop.workspace import Workspace
from tundish.field import fields_of

COLUMNS: Final = (Column("Who"), Column("Charged, £/h", 104, right=True), Column("Costs you, £/h", 114, right=True))
DOING: Final = (Column("Does", 160), Column("Shares", 160), Column("Helps with", 160))
MONEY: Final = ("rate", "paid")
YOU: Final = "you"


class PeopleCard(TableCard):
    """Choose yourself or somebody else to change them, or add somebody; what it would do to the open job is shown before it is kept."""

    def __init__(self, workspace: Workspace) -> None:
        self.table = Table("People", (*COLUMNS, *DOING))
        self._fields, self._inside = QScrollArea(), Flow([])
        super().__init__(self.table)
        self._workspace = workspace
        self.table.row_chosen.connect(self._chosen)
        declared = fields_of(Person)
        self._boxes = {name: Box(declared[name].label, figure=name in MONEY) for name in ("name", *MONEY)}
        self._does = {name: Chooser(declared[name].label) for name in WORKS}
        for chooser in self._does.values():
            chooser.show_choices(DOES, 0)
        self._own_way = Chooser(declared["own_way"].label)
        self._own_way.show_choices(("no", typed.YES), 0)
        self._trouble = label("", "note", "fails", wrap=True)
        self._trouble.hide()
        self._weighing = Weighing(workspace)
        self._add, self._change, self._out = button("Add them", "add"), button("Change it"), button("Take them out")
        self.set_foot(self._foot())
        self.show_people()

    def show_people(self) -> None:
        """You first, then everybody else, as they are kept."""
        crew = self._workspace.book.crew
        rows = [Row(YOU, (Cell("You", strong=True), _money(crew.rate), Cell(), Cell("what nobody else does"), Cell(), Cell()))]
        rows += [_row(place, each) for place, each in enumerate(crew.people)]
        self.table.set_groups((Group("people", "People and rates for every job", tuple(rows)),))
        self._chosen(self.table.chosen())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self._fit()

    def _fit(self) -> None:
        """The fields take no more than they need; where there is less they scroll."""
        self._fields.setMaximumHeight(self._inside.heightForWidth(max(self._fields.viewport().width(), 1)))

    def _foot(self) -> QWidget:
        made = QWidget()
        column = QVBoxLayout(made)
        column.setContentsMargins(12, 6, 12, 6)
        for name, box in self._boxes.items():
            box.setFixedWidth(look.now().px(90 if name in MONEY else 150))
        declared = fields_of(Person)
        parts = (*self._boxes.items(), *self._does.items())
        self._fields.setWidgetResizable(True)
        self._fields.setFrameShape(QFrame.Shape.NoFrame)
        self._fields.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._fields.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._fields.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Maximum)
        self._inside = Flow([named(declared[name].label, part) for name, part in parts], above=0)
        self._inside.setProperty("kind", "clear")
        self._fields.setWidget(self._inside)
        for box in self._boxes.values():
            box.entered.connect(lambda box=box: self._fields.ensureWidgetVisible(box))
        for chooser in self._does.values():
            chooser.entered.connect(lambda box=chooser: self._fields.ensureWidgetVisible(box))
        column.addWidget(self._fields)
        row = QHBoxLayout()
        for tool, does in ((self._add, self._added), (self._change, self._changed), (self._out, self._taken_out)):
            tool.clicked.connect(does)
            row.addWidget(tool, 0, Qt.AlignmentFlag.AlignBottom)
        row.addStretch(1)
        row.addWidget(named(declared["own_way"].label, self._own_way))
        column.addLayout(row)
        column.addWidget(self._trouble)
        column.addWidget(self._weighing)
        return made

    def _chosen(self, key: str) -> None:
        crew = self._workspace.book.crew
        place = _place(key, crew)
        self._change.setEnabled(key == YOU or place >= 0)
        self._out.setEnabled(place >= 0)
        self._weighing.leave()
        self._say("")
        shown = crew.people[place] if place >= 0 else Person(rate=crew.rate)
        for name, box in self._boxes.items():
            box.show_value(typed.shown(fields_of(Person)[name], getattr(shown, name)))
        for name, chooser in self._does.items():
            chooser.choose(getattr(shown, name))
        self._own_way.choose(typed.YES if shown.own_way else "no")

    def _typed(self) -> Person | None:
        """Who the boxes describe; None where an amount cannot be read, which is said."""
        money: dict[str, Decimal | None] = {}
        for name in MONEY:
            declared = fields_of(Person)[name]
            words = self._boxes[name].text().strip()
            read = measure.read_money(words)
            too = read.value is not None and not 0 <= read.value <= Decimal(str(declared.most))
            if words and (read.value is None or too):
                self._say(f"{declared.label}: {read.problem or f'between £0 and £{declared.most:g}'}")
                return None
            money[name] = read.value if words else None
        does = {name: chooser.currentText() for name, chooser in self._does.items()}
        own_way = self._own_way.currentText() == typed.YES
        return Person(name=self._boxes["name"].text().strip(), own_way=own_way, **money, **does)  # type: ignore[arg-type]

    def _added(self) -> None:
        crew, somebody = self._workspace.book.crew, self._typed()
        if somebody is None:
            return
        if not somebody.name:
            self._say("Type a name or a trade first.")
            return
        self._weigh(replace(crew, people=(*crew.people, somebody)))

    def _changed(self) -> None:
        crew, somebody = self._workspace.book.crew, self._typed()
        if somebody is None:
            return
        place = _place(self.table.chosen(), crew)
        if place < 0:
            self._weigh(replace(crew, rate=somebody.rate))
        else:
            self._weigh(replace(crew, people=(*crew.people[:place], somebody, *crew.people[place + 1 :])))

    def _taken_out(self) -> None:
        crew = self._workspace.book.crew
        place = _place(self.table.chosen(), crew)
        self._weigh(replace(crew, people=(*crew.people[:place], *crew.people[place + 1 :])))

    def _weigh(self, crew: Crew) -> None:
        self._say("")
        self._weighing.weigh(replace(self._workspace.book, crew=crew), self._keeping(crew))

    def _keeping(self, crew: Crew) -> Callable[[], None]:
        def keep() -> None:
            self._workspace.store.keep_crew(crew)
            self._workspace.book_has_changed()
            self.show_people()

        return keep

    def _say(self, words: str) -> None:
        self._trouble.setText(words)
        self._trouble.setVisible(bool(words))


def _place(key: str, crew: Crew) -> int:
    """Which of the people a row is; -1 for you and for nobody."""
    return int(key) if key.isdecimal() and int(key) < len(crew.people) else -1


def _row(place: int, person: Person) -> Row:
    doing = (", ".join(work for work in WORKS.values() if person.does(work) == does) for does in DOES[1:])
    name = Cell(person.name, strong=True, below="comes by own means" if person.own_way else "")
    return Row(str(place), (name, _money(person.rate), _money(person.paid), *(Cell(each) for each in doing)))


def _money(amount: Decimal | None) -> Cell:
    return Cell("" if amount is None else measure.show_money(amount, sign=False))
