"""Cutting: how do I cut it with least waste?"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Final

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from tundish import measure
from tundish.cutting.plan import BarPlan, SheetPlan
from tundish.cutting.plans import CutPlan
from tundish.desktop import look
from tundish.desktop.boxes import Box
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.cut_part import PlanPart, PlanScroll, kept_words, plural, summary, taken_lengths, too_long
from tundish.desktop.estimate_page import EstimatePage
from tundish.desktop.rack_ticks import RackTicks
from tundish.desktop.sawing import marked, offcuts_of, unmarked
from tundish.desktop.tile_view import TileView
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.estimate import Estimate
from tundish.field import put
from tundish.layout.room import Room

__all__ = ["CuttingPage", "summary", "too_long"]
FIELDS: Final[dict[str, tuple[str, ...]]] = {"bars": ("cutting.kerf", "cutting.keep"), "sheets": ("cutting.sheet_kerf",), "tiles": ()}
"""The rule figures that can be changed here, the blade first."""


class CuttingPage(EstimatePage):
    """Every plan to scale, with what it comes from, what is kept and how good it is."""

    help_sentences = (
        "Choose a piece to see where its length is from.",
        "Space marks the chosen piece as cut: it stays where it is, and the rest is planned round it.",
        "A half ring says: do not cut yet, its length is still to be confirmed.",
        "Dashed is an offcut to keep; hatched is scrap. Put offcuts in stock once a bar or sheet is cut, and the next job finds them.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Cutting", "How do I cut it with least waste?", workspace)
        self._better: Estimate | None = None
        self._parts: dict[str, PlanPart] = {}
        self._tiles, self._floor = TileView(), TileView(floor=True)
        self._tiles.chosen.connect(self._start_tiles)
        self._floor.chosen.connect(self._start_floor)
        self._tools_of_page()
        self._views = ChipRow("What to cut")
        self._views.chosen.connect(self._choose_view)
        self._fields = (Box("Blade, mm", figure=True), Box("Keep offcuts from, mm", figure=True))
        self._field_words = (label("Blade", "table", "ink2"), label("keep from", "table", "ink2"))
        self.add_row(self._view_row())
        self._rack = RackTicks()
        self._rack.missing.connect(self._not_there)
        self._rack.found.connect(self._there)
        self.add_row(self._rack)
        self._offer, self._offered = QFrame(), label("", "table", wrap=True)
        self.add_row(self._offer_row())
        self._empty = label("", "body", "ink2", wrap=True)
        self._scroll = PlanScroll()
        self._plans = QVBoxLayout()
        self._foot = label("", "tableStrong")
        self._wait, self._kept = label("", "table", "tbc"), label("", "table", "ink2")
        self.set_body(self._card())
        workspace.better_offered.connect(self._offer_better)
        workspace.job_opened.connect(self._rack.forget)
        workspace.job_opened.connect(self.show_nothing)
        self.follow(workspace.room_changed, self.show_again)
        self.begin()

    def _view_row(self) -> QWidget:
        made = QWidget()
        row = QHBoxLayout(made)
        row.setContentsMargins(4, 0, 8, 0)
        row.addWidget(self._views, 1)
        for words, box in zip(self._field_words, self._fields, strict=True):
            box.setMaximumWidth(96)
            box.taken.connect(self._take_field)
            row.addWidget(words)
            row.addWidget(box)
        return made

    def _tools_of_page(self) -> None:
        self._mark, self._reorder = button("Mark as cut", "tick"), button("Reorder", "ordering")
        tools = ((button("Labels", "paper"), self._print_labels), (self._mark, self._mark_chosen), (self._reorder, self._order))
        for tool, does in (*tools, (button("Print cut list", "print", main=True), self._print)):
            tool.clicked.connect(does)
            self.add_tool(tool)

    def _offer_row(self) -> QWidget:
        self._offer.setProperty("kind", "note")
        row = QHBoxLayout(self._offer)
        row.setContentsMargins(10, 4, 4, 4)
        use = button("Use it", "tick", main=True)
        use.clicked.connect(self._use_better)
        row.addWidget(self._offered, 1)
        row.addWidget(use)
        self._offer.hide()
        return self._offer

    def _card(self) -> QWidget:
        card, inside, foot = QFrame(), QWidget(), QFrame()
        card.setProperty("kind", "card")
        inside.setProperty("kind", "clear")
        foot.setProperty("kind", "foot")
        self._plans = QVBoxLayout(inside)
        self._plans.setContentsMargins(13, 10, 13, 10)
        self._plans.setSpacing(4)
        self._plans.addWidget(self._empty)
        for view in (self._tiles, self._floor):
            self._plans.addWidget(view)
            view.hide()
        self._plans.addStretch(1)
        self._scroll.setWidget(inside)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        column = QVBoxLayout(card)
        column.setContentsMargins(1, 1, 1, 1)
        column.setSpacing(0)
        column.addWidget(self._scroll, 1)
        column.addWidget(foot)
        row = QHBoxLayout(foot)
        row.setContentsMargins(12, 6, 12, 6)
        row.setSpacing(20)
        for words in (self._foot, self._wait, self._kept):
            row.addWidget(words)
        row.addStretch(1)
        own, put_by = button("List of its own"), button("Put offcuts in stock", "stock")
        own.setToolTip("Plan pieces that belong to no job")
        own.clicked.connect(self._own_list)
        put_by.clicked.connect(self._put_by)
        for tool in (own, put_by):
            row.addWidget(tool)
        return card

    def _choose_view(self, _view: str) -> None:
        self.figure_asked.emit("")
        self.show_again()
        self._scroll.verticalScrollBar().setValue(0)

    def show_nothing(self) -> None:
        """Say that the plans are not there yet."""
        for shown in (self._offer, self._tiles, self._floor):
            shown.hide()
        self._keep_only(())
        self._empty.setText("The plans are being worked out." if self._workspace.session else "Open a job, and its cut plans are here.")
        self._empty.show()

    def show_estimate(self, estimate: Estimate) -> None:
        """The bars or the sheets of every material, to scale."""
        self._offer.hide()
        bars = [plan for plan in estimate.cuts if isinstance(plan.plan, BarPlan)]
        sheets = [plan for plan in estimate.cuts if isinstance(plan.plan, SheetPlan)]
        taken = self._views.taken() or "bars"
        counts = (sum(len(plan.plan.cuts) for plan in kind) for kind in (bars, sheets))
        names = (("bars", "Bars"), ("sheets", "Board sheets"))
        views = [Choice(key, words, str(count)) for (key, words), count in zip(names, counts, strict=True)]
        self._views.set_choices((*views, Choice("tiles", "Tile set-out")), taken)
        keep = estimate.book.figure("cutting.keep").value
        self._show_fields(estimate, taken)
        shown = {"bars": bars, "sheets": sheets}.get(taken, [])
        self._rack.show_pieces(shown)
        self._show_plans(shown, keep)
        has_tiles = self._show_tiles(estimate, self._workspace.room if taken == "tiles" else None)
        self._empty.setText(
            {"bars": "Nothing is cut from bars yet.", "sheets": "Nothing is cut from sheets yet."}.get(taken, "Nothing is tiled.")
        )
        self._empty.setVisible(not shown and not has_tiles)
        self._show_foot(shown, keep)

    def _show_tiles(self, estimate: Estimate, room: Room | None) -> bool:
        """The starts of the pre-wall that is looked at and of its room's floor; whether there are any."""
        first = next((each for each in estimate.rooms if room is not None and each.path == room.path and each.first), None)
        on_walls = room is not None and self._tiles.show_room(room)
        on_floor = first is not None and self._floor.show_room(first)
        self._tiles.setVisible(on_walls)
        self._floor.setVisible(on_floor)
        return on_walls or on_floor

    def _show_plans(self, shown: list[CutPlan], keep: float) -> None:
        self._keep_only(tuple(plan.item.code for plan in shown))
        longest = max((length for plan in shown for length in taken_lengths(plan)), default=1000.0)
        for place, plan in enumerate(shown):
            part = self._parts.get(plan.item.code)
            if part is None:
                part = self._parts[plan.item.code] = PlanPart()
                part.view.chosen.connect(self._chosen)
                part.view.reached.connect(self._reached)
                self._plans.insertWidget(place + 3, part)
            part.show_plan(plan, keep, longest)

    def _keep_only(self, codes: tuple[str, ...]) -> None:
        if tuple(self._parts) != codes:
            for part in self._parts.values():
                part.hide()
                part.deleteLater()
            self._parts = {}

    def _show_foot(self, shown: list[CutPlan], keep: float) -> None:
        pieces = [cut for plan in shown for cut in plan.cuts]
        done = sum(cut.mark in plan.done for plan in shown for cut in plan.cuts)
        wait = sum(cut.tbc and cut.mark not in plan.done for plan in shown for cut in plan.cuts)
        self._foot.setText(
            f"{len(pieces) - done} {plural(len(pieces) - done, 'piece')} to cut{f', {done} cut' if done else ''}" if pieces else ""
        )
        self._wait.setText(f"{wait} not to be cut yet" if wait else "")
        self._kept.setText(kept_words(shown, keep))

    def _chosen(self, mark: str) -> None:
        view = self.sender()
        for code, part in self._parts.items():
            if part.view is view:
                self.figure_asked.emit(f"piece:{code}:{mark}")
            else:
                part.view.choose("")

    def _reached(self, place: QRect) -> None:
        view = self.sender()
        inside = self._scroll.widget()
        if isinstance(view, QWidget) and inside is not None:
            at = view.mapTo(inside, place.center())
            self._scroll.ensureVisible(at.x(), at.y(), 0, place.height() // 2 + look.now().px(28))

    def _offer_better(self, estimate: Estimate) -> None:
        self._better = estimate
        now = self._workspace.estimate
        saves = now.price.total - estimate.price.total if now else Decimal(0)
        words = f"A better plan saves {measure.show_money(saves)}." if saves > 0 else "A better plan was found."
        self._offered.setText(f"{words} What you see stays until you take it.")
        self._offer.show()

    def _use_better(self) -> None:
        if self._better is not None:
            self._workspace.use_better(self._better)

    def _print(self) -> None:
        self._workspace.paper = "cut-list"
        self.page_asked.emit("paper")

    def _print_labels(self) -> None:
        self._workspace.paper = "labels"
        self.page_asked.emit("paper")

    def _own_list(self) -> None:
        self.page_asked.emit("cut_list")

    def _order(self) -> None:
        self.page_asked.emit("ordering")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Space and self._chosen_piece():
            self._mark_chosen()
        else:
            super().keyPressEvent(event)

    def _show_fields(self, estimate: Estimate, taken: str) -> None:
        keys = FIELDS[taken]
        for place, (words, box) in enumerate(zip(self._field_words, self._fields, strict=True)):
            shown = place < len(keys)
            words.setVisible(shown)
            box.setVisible(shown)
            if shown:
                box.show_value(measure.show_number(estimate.book.figure(keys[place]).value, None))

    def _take_field(self, words: str) -> None:
        box = self.sender()
        keys = FIELDS[self._views.taken() or "bars"]
        key = keys[self._fields.index(box)]
        read = measure.read_number(words)
        if read.value is None or read.value < 0:
            self._workspace.said.emit(read.problem or "A saw cut is nought or more")
            return
        self._workspace.store.overrule(key, read.value)
        self._workspace.book_has_changed()

    def _chosen_piece(self) -> tuple[CutPlan, str] | None:
        estimate = self._workspace.estimate
        chosen = next(((code, part.view.piece()) for code, part in self._parts.items() if part.view.piece()), None)
        if estimate is None or chosen is None:
            return None
        return next(((plan, chosen[1]) for plan in estimate.cuts if plan.item.code == chosen[0]), None)

    def _mark_chosen(self) -> None:
        chosen = self._chosen_piece()
        if chosen is None:
            self._workspace.said.emit("Choose a piece first")
            return
        plan, mark = chosen
        job = self._workspace.job
        cut = next(each for each in plan.cuts if each.mark == mark)
        if mark in plan.done:
            self._workspace.edit(f"take back: {mark} cut", unmarked(job, plan, mark), "sawn")
        elif cut.tbc:
            self._workspace.said.emit(f"Do not cut {mark} yet: its size is still to be confirmed")
        else:
            self._workspace.edit(f"mark {mark} as cut", marked(job, plan, mark), "sawn")

    def _not_there(self, key: str) -> None:
        """A piece that is not on the rack after all leaves the ledger, and the plans are made without it."""
        from tundish.store.ledger import STOCK_TAKE, Ledger

        said = Ledger(self._workspace.store).take_piece(key, STOCK_TAKE, note="not found when it was to be cut")
        self._workspace.said.emit(said or f"{key} is off the rack; planned anew without it")
        self._workspace.book_has_changed()

    def _there(self, key: str) -> None:
        """A piece that is there after all is put back, and the plans are made with it."""
        from tundish.store.ledger import STOCK_TAKE, Ledger

        said = Ledger(self._workspace.store).put_back(key, STOCK_TAKE, note="found after all")
        self._workspace.said.emit(said or f"{key} is on the rack again; planned anew with it")
        self._workspace.book_has_changed()

    def _start_tiles(self, name: str) -> None:
        path = f"{self._workspace.room_path}.design.finish.tile_start"
        self._workspace.edit(f"tiles start with {name}", put(self._workspace.job, path, name), path)

    def _start_floor(self, name: str) -> None:
        path = f"{self._workspace.room_path}.design.floor.tile_start"
        self._workspace.edit(f"floor tiles start with {name}", put(self._workspace.job, path, name), path)

    def _put_by(self) -> None:
        """What is left of every bar and sheet that is cut goes on the rack, where the next job finds it."""
        from tundish.desktop.sawing import keep_offcuts

        estimate = self._workspace.estimate
        found = offcuts_of(estimate) if estimate else ()
        if not found:
            self._workspace.said.emit("No bar or sheet is cut to its end yet: mark its pieces as cut first")
            return
        names = keep_offcuts(self._workspace.store, self._workspace.job_key, found)
        gone = {(each.item, each.bar) for each in found}
        job = self._workspace.job
        sawn = tuple(replace(one, rest_gone=True) if (one.item, one.bar) in gone else one for one in job.sawn)
        self._workspace.edit("put offcuts in stock", replace(job, sawn=sawn), "sawn")
        self._workspace.book_has_changed()
        self._workspace.said.emit(f"On the rack: {', '.join(names)}" if names else "Nothing long enough to keep was left")
