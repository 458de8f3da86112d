"""The program's tables: rows that are ready to show, groups that fold, whole rows as targets, and the keyboard throughout."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Final

from PySide6.QtCore import QElapsedTimer, QEvent, QItemSelectionModel, QModelIndex, QPoint, QRect, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QFrame,
    QHeaderView,
    QStyle,
    QStyleOptionViewItem,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from tundish.desktop import icons, look
from tundish.desktop.cells import Column, Group, Row
from tundish.desktop.painted import ENTER, pen, width_of, write
from tundish.desktop.table_model import Index, TableModel
from tundish.desktop.table_paint import CellPainter, Head

ROW: Final = 28
TWO_LINES: Final = 39
NARROWEST: Final = 140
"""What a column that takes the rest is never narrower than, pixels at 100 %; the table scrolls sideways before that."""
READABLE: Final = 200
"""How wide others make it that give way, pixels at 100 %."""


class Table(QTableView):
    """A list of rows to choose from. Everything is told by the id of the row; `row_asked` when the chosen row is pressed once more."""

    row_chosen = Signal(str)
    row_asked = Signal(str)
    row_opened = Signal(str)
    row_ticked = Signal(str)
    add_asked = Signal()
    remove_asked = Signal(str)

    def __init__(self, name: str, columns: Sequence[Column], *, row_high: int = ROW, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._row_high = row_high
        self._typing = QElapsedTimer()
        self._empty: tuple[str, str, str] = ("", "", "")
        self._giving: tuple[str, ...] = ()
        self._pins = False
        self.table_model = TableModel(columns, self)
        self.setHorizontalHeader(Head(self))
        self.setItemDelegate(CellPainter(self))
        self.setModel(self.table_model)
        self._behave()
        self._take_look()
        self.selectionModel().currentRowChanged.connect(self._row_changed)

    def set_groups(self, groups: Sequence[Group]) -> None:
        """Show these groups; the row chosen stays so where it is still there, in sight where it was; else the list does not jump."""
        kept, at = self.chosen(), self._at()
        scrolled = self.verticalScrollBar().value()
        self.table_model.set_groups(groups)
        self._restore(kept, scrolled)
        if at is not None and self.chosen() == kept:
            moved = self.rowViewportPosition(self.currentIndex().row()) - at
            self.verticalScrollBar().setValue(self.verticalScrollBar().value() + moved)

    def set_rows(self, rows: Sequence[Row]) -> None:
        """Show rows without groups."""
        self.set_groups((Group("", "", tuple(rows)),))

    def set_heads(self, titles: Sequence[str]) -> None:
        """Name the columns otherwise, where the same ones hold something else."""
        self.table_model.set_heads(titles)

    def set_empty(self, title: str, sentence: str, glyph: str = "") -> None:
        """What to say where there are no rows."""
        self._empty = (title, sentence, glyph)
        self.viewport().update()

    def pin_total(self) -> None:
        """Keep the last total in sight: while it is further down it stands over the foot of the rows."""
        self._pins = True
        for bar in (self.verticalScrollBar(), self.horizontalScrollBar()):
            bar.valueChanged.connect(lambda _=0: self.viewport().update())

    def pinned(self) -> QRect:
        """Where the last total stands over the other rows, in the viewport; nowhere while it is in sight in its own place."""
        place = self._last_total() if self._pins else -1
        high, foot = self.rowHeight(place), self.viewport().height()
        if place < 0 or self.rowViewportPosition(place) + high <= foot:
            return QRect()
        return QRect(0, foot - high, self.viewport().width(), high)

    def chosen(self) -> str:
        """The id of the chosen row or group, "" where none is."""
        index = self.currentIndex()
        return self.table_model.entry(index.row()).id if index.isValid() else ""

    def choose(self, row_id: str) -> None:
        """Choose a row, and open its group and bring it into sight for that; an unknown one changes nothing."""
        if self.table_model.place(row_id) < 0 and (group := self.table_model.group_of(row_id)):
            self._fold(group, folded=False)
        if (place := self.table_model.place(row_id)) >= 0:
            self._go_to(place)

    def bring_back(self) -> None:
        """Bring the chosen row into sight, with no further scrolling than that takes."""
        if self.currentIndex().isValid():
            self.scrollTo(self.currentIndex())

    def indexAt(self, at: QPoint) -> QModelIndex:
        """What is pressed: the total where it stands over another row."""
        return self.table_model.index(self._last_total(), self.columnAt(at.x())) if self.pinned().contains(at) else super().indexAt(at)

    def scrollTo(self, index: Index, hint: QAbstractItemView.ScrollHint = QAbstractItemView.ScrollHint.EnsureVisible) -> None:
        """Bring a row into sight, and out from under the total."""
        super().scrollTo(index, hint)
        covered = self.visualRect(index).bottom() - self.pinned().top() + 1
        if covered > 0 and self.pinned().isValid() and index.row() != self._last_total():
            self.verticalScrollBar().setValue(self.verticalScrollBar().value() + covered)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        entry = self._entry()
        match event.key():
            case Qt.Key.Key_Insert:
                self.add_asked.emit()
            case Qt.Key.Key_Left | Qt.Key.Key_Right if isinstance(entry, Group):
                self._fold(entry.id, folded=event.key() == Qt.Key.Key_Left)
            case Qt.Key.Key_Space if self._typing.isValid() and not self._typing.hasExpired(QApplication.keyboardInputInterval()):
                self.keyboardSearch(" ")
            case Qt.Key.Key_Space if isinstance(entry, Group):
                self._fold(entry.id, folded=not self.table_model.folded(entry.id))
            case Qt.Key.Key_Space if entry is not None:
                self.row_ticked.emit(entry.id)
            case Qt.Key.Key_Delete if isinstance(entry, Row):
                self.remove_asked.emit(entry.id)
            case key if Qt.Key(key) in ENTER:
                self._open()
            case _:
                if event.text().isprintable() and event.text():
                    self._typing.start()
                super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        before = self.chosen()
        super().mousePressEvent(event)
        index = self.indexAt(event.position().toPoint())
        entry = self.table_model.entry(index.row()) if index.isValid() else None
        if isinstance(entry, Group):
            self._fold(entry.id, folded=not self.table_model.folded(entry.id))
        elif entry is not None and entry.id == before and event.button() == Qt.MouseButton.LeftButton:
            self.row_asked.emit(entry.id)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        super().mouseDoubleClickEvent(event)
        if event.button() == Qt.MouseButton.LeftButton and isinstance(self._entry(), Row):
            self._open()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._share_width()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.StyleChange:
            self._take_look()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self.table_model.rowCount() and self._empty[0]:
            self._paint_empty(QPainter(self.viewport()))
        if not (over := self.pinned()).isEmpty():
            self._paint_pinned(QPainter(self.viewport()), over)

    def _behave(self) -> None:
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.verticalHeader().setMinimumSectionSize(1)

    def _take_look(self) -> None:
        self.verticalHeader().setDefaultSectionSize(look.now().row(self._row_high))
        head = self.horizontalHeader()
        head.setMinimumSectionSize(look.now().px(24))
        head.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self._share_width()
        self._lay_out_heads()

    def leave_out(self, titles: Collection[str]) -> None:
        """Show every column but those of these titles."""
        for place, column in enumerate(self.table_model.columns):
            self.setColumnHidden(place, column.title in titles)
        self._share_width()

    def give_way(self, titles: tuple[str, ...]) -> None:
        """In a narrow table leave out these columns, one after the other, until the others have room to be read."""
        self._giving = titles
        self._share_width()

    def _share_width(self) -> None:
        """Columns of no width of their own share what is left, and stay wide enough to read."""
        px = look.now().px
        for gone in range(len(self._giving) + 1):
            for place, column in enumerate(self.table_model.columns):
                if column.title in self._giving:
                    self.setColumnHidden(place, column.title in self._giving[:gone])
            if self._share() >= px(READABLE):
                break
        for place, column in enumerate(self.table_model.columns):
            self.setColumnWidth(place, px(column.width) if column.width else max(self._share(), px(NARROWEST)))

    def _share(self) -> int:
        """What is left for a column of no width of its own."""
        px = look.now().px
        columns = self.table_model.columns
        free = sum(not column.width for column in columns)
        left = self.viewport().width() - sum(px(column.width) for place, column in enumerate(columns) if not self.isColumnHidden(place))
        return left // free if free else 0

    def _lay_out_heads(self) -> None:
        """A group's title runs across the columns up to its first subtotal."""
        self.clearSpans()
        low, high = look.now().row(ROW), look.now().row(self._row_high)
        for place, entry in enumerate(self.table_model.entries()):
            if isinstance(entry, Group):
                first = min((column for column, _ in entry.subtotals), default=len(self.table_model.columns))
                if first > 1:
                    self.setSpan(place, 0, 1, first)
            # Also where a head was in this place before.
            if high != low and self.rowHeight(place) != (wanted := low if isinstance(entry, Group) else high):
                self.setRowHeight(place, wanted)

    def _fold(self, group: str, *, folded: bool) -> None:
        kept = self.chosen()
        scrolled = self.verticalScrollBar().value()
        foldable = any(isinstance(each, Group) and each.id == group and each.folds for each in self.table_model.entries())
        if foldable:
            self.table_model.fold(group, folded=folded)
            self._restore(kept if self.table_model.place(kept) >= 0 else group, scrolled)

    def _restore(self, kept: str, scrolled: int) -> None:
        self._lay_out_heads()
        place = self.table_model.place(kept) if kept else -1
        if place >= 0:
            blocked = self.selectionModel().blockSignals(True)
            self._go_to(place)
            self.selectionModel().blockSignals(blocked)
        self.verticalScrollBar().setValue(scrolled)

    def _at(self) -> int | None:
        """How far below the heads the chosen row shows, pixels; None where none is chosen or it is out of sight."""
        index = self.currentIndex()
        shown = self.visualRect(index) if index.isValid() else QRect()
        return shown.top() if shown.isValid() and self.viewport().rect().contains(shown.center()) else None

    def _go_to(self, place: int) -> None:
        self.updateGeometries()  # rows that have just come are scrolled over only then
        index = self.table_model.index(place, 0)
        chosen = QItemSelectionModel.SelectionFlag.ClearAndSelect | QItemSelectionModel.SelectionFlag.Rows
        self.selectionModel().setCurrentIndex(index, chosen)

    def _row_changed(self, current: QModelIndex, _before: QModelIndex) -> None:
        if current.isValid():
            entry = self.table_model.entry(current.row())
            if isinstance(entry, Row):
                self.row_chosen.emit(entry.id)

    def _entry(self) -> Row | Group | None:
        index = self.currentIndex()
        return self.table_model.entry(index.row()) if index.isValid() else None

    def _open(self) -> None:
        entry = self._entry()
        if isinstance(entry, Group):
            self._fold(entry.id, folded=not self.table_model.folded(entry.id))
        elif entry is not None:
            self.row_opened.emit(entry.id)

    def _last_total(self) -> int:
        entries = self.table_model.entries()
        return next((place for place in reversed(range(len(entries))) if isinstance(each := entries[place], Row) and each.total), -1)

    def _paint_pinned(self, painter: QPainter, over: QRect) -> None:
        """The total as it is painted in its own place, under an edge that says that rows go on behind it."""
        option, place = QStyleOptionViewItem(), self._last_total()
        self.initViewItemOption(option)
        if self.currentIndex().row() == place:
            option.state |= QStyle.StateFlag.State_Selected
        for column in range(len(self.table_model.columns)):
            if not self.isColumnHidden(column):
                option.rect = QRect(self.columnViewportPosition(column), over.top(), self.columnWidth(column), over.height())
                self.itemDelegate().paint(painter, option, self.table_model.index(place, column))
        painter.setPen(pen("edge"))
        painter.drawLine(over.topLeft(), over.topRight())

    def _paint_empty(self, painter: QPainter) -> None:
        title, sentence, glyph = self._empty
        px = look.now().px
        room = self.viewport().rect()
        wide = max(width_of(title, "bodyStrong"), width_of(sentence, "table"))
        left, top = room.center().x() - wide // 2, px(48)
        if glyph:
            icons.draw(painter, QRect(left - px(40), top + px(8), px(24), px(24)), glyph, "ink2")
        write(painter, QRect(left, top, wide + 1, px(20)), title, "bodyStrong")
        write(painter, QRect(left, top + px(20), wide + 1, px(20)), sentence, "table", "ink2")


class TableCard(QFrame):
    """A table on a card, with room for a strip of totals at its foot."""

    def __init__(self, table: Table, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setProperty("kind", "card")
        self.table = table
        self._whole = 0
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(1, 1, 1, 4)
        self._column.setSpacing(0)
        self._column.addWidget(table, 1)

    def set_foot(self, foot: QWidget) -> None:
        """Put a strip below the rows."""
        foot.setProperty("kind", "foot")
        foot.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._column.setContentsMargins(1, 1, 1, 1)
        self._column.addWidget(foot)

    def fit(self) -> None:
        """Be no higher than the rows are: what is left goes to what stands beside it."""
        head, rows = self.table.horizontalHeader().sizeHint().height(), self.table.verticalHeader().length()
        margins = self._column.contentsMargins()
        self._whole = head + rows + margins.top() + margins.bottom() + look.now().px(4)
        self.setMaximumHeight(self._whole)

    def sizeHint(self) -> QSize:
        return QSize(look.now().px(600), self._whole or look.now().px(300))
