"""Ordering: who do I buy from, and by when?"""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING, Final

from PySide6.QtWidgets import QApplication, QFileDialog, QHBoxLayout, QVBoxLayout, QWidget

from tundish import measure
from tundish.catalogue.item import Offer
from tundish.desktop.bill_look import look_at_bill
from tundish.desktop.boxes import Box, TickBox
from tundish.desktop.chooser import Chooser
from tundish.desktop.estimate_page import EstimatePage
from tundish.desktop.order_out import to_write
from tundish.desktop.order_rows import COLUMNS, left_out_group, level_group, levels_of, sent_group, still_group, way_words
from tundish.desktop.tables import Table, TableCard
from tundish.desktop.ways_to_buy import WaysToBuy
from tundish.desktop.words import CutLabel, button, label
from tundish.desktop.workspace import Workspace
from tundish.documents.order_list import as_words
from tundish.errors import TundishError
from tundish.estimate import Estimate
from tundish.procurement.outstanding import Still, still_to_order
from tundish.procurement.purchase import Pick
from tundish.procurement.wishes import ALL_FROM_ONE, BY_A_DAY, CHEAPEST
from tundish.store.placed import placed

if TYPE_CHECKING:
    from tundish.store.orders import OrderLine, SentOrder

SITE: Final = "site"
HOWS: Final = ("by email", "by telephone", "at the counter")


class OrderingPage(EstimatePage):
    """What is still to be ordered from each supplier, and every order sent with what came of it."""

    help_sentences = (
        "Choose a line and send its supplier's order; what is sent is never changed: a change makes a further order.",
        "Choose a line of a sent order and type what came; what will not come is ordered again.",
        "What kits, the rack and stock give is not ordered; sending keeps it for this job.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Ordering", "Who do I buy from, and by when?", workspace)
        self._ways = WaysToBuy()
        self._sent: tuple[SentOrder, ...] = ()
        self._still: dict[str, tuple[Still, ...]] = {}
        self._levels: dict[str, tuple[Pick, ...]] = {}
        self._send, copy = button("Send order", "tick", main=True), button("Copy order")
        paper, xml = button("Order lists", "print"), button("Order XML")
        opened = button("Open XML")
        for tool, does in (
            (opened, self._open_xml),
            (paper, self._paper),
            (xml, self._save_xml),
            (copy, self._copy),
            (self._send, self._send_chosen),
        ):
            tool.clicked.connect(does)
            self.add_tool(tool)
        self._way = Chooser("How to buy")
        self._way.activated.connect(self._take_way)
        self._how = Chooser("How it is sent")
        self._how.show_choices(HOWS, 0)
        self._how.setMinimumWidth(140)
        self._day = Box("Here by")
        self._day.taken.connect(self._take_day)
        self._accepted = TickBox("Job accepted")
        self._accepted.setToolTip("Its needs count in what Stock says is short")
        self._reason = label("", "table", "ink2", wrap=True)
        self.add_row(self._way_row())
        self.table = Table("Orders", COLUMNS)
        self.table.row_chosen.connect(self._chosen)
        self.table.set_empty("Nothing to buy", "It is all in stock.", "ordering")
        card = TableCard(self.table)
        self._foot = CutLabel("table", "ink")
        self._trouble = label("", "note", "fails", wrap=True)
        self._day.setPlaceholderText("Thu, or 3 Dec")
        self._box = Box("Packs", figure=True)
        self._came, self._all = button("Goods in", "tick"), button("All came")
        self._favourite, self._never = TickBox("Always this one"), TickBox("Never this one")
        self._short, self._back = button("Rest will not come"), button("Give back")
        card.set_foot(self._foot_row())
        self.set_body(card)
        workspace.job_opened.connect(self._ways.forget)
        self.begin()

    def _way_row(self) -> QWidget:
        made = QWidget()
        column = QVBoxLayout(made)
        column.setContentsMargins(8, 0, 4, 0)
        row = QHBoxLayout()
        row.addWidget(label("Buy", "table"))
        row.addWidget(self._way)
        row.addWidget(label("Here by", "table"))
        self._day.setFixedWidth(146)
        row.addWidget(self._day)
        self._accepted.clicked.connect(self._accept)
        row.addWidget(self._accepted)
        row.addStretch(1)
        row.addWidget(label("Sent", "table"))
        row.addWidget(self._how)
        column.addLayout(row)
        column.addWidget(self._reason)
        return made

    def _foot_row(self) -> QWidget:
        made = QWidget()
        column = QVBoxLayout(made)
        column.setContentsMargins(12, 4, 12, 4)
        row = QHBoxLayout()
        self._box.setMaximumWidth(70)
        row.addWidget(label("Packs", "table"))
        row.addWidget(self._box)
        acts = ((self._came, self._goods_in), (self._all, self._all_in), (self._short, self._rest_short), (self._back, self._give_back))
        for tool, does in acts:
            tool.clicked.connect(does)
            row.addWidget(tool)
        row.addStretch(1)
        row.addWidget(self._foot)
        column.addLayout(row)
        wishes = QHBoxLayout()
        for tick in (self._favourite, self._never):
            tick.clicked.connect(self._wish)
            wishes.addWidget(tick)
        wishes.addWidget(self._trouble, 1)
        column.addLayout(wishes)
        return made

    def _paper(self) -> None:
        self._workspace.paper = "orders"
        self.page_asked.emit("paper")

    def show_estimate(self, estimate: Estimate) -> None:
        """What is still to be ordered, a group a supplier, then every order that was sent."""
        from tundish.store.orders import Orders, ordered

        mine = {self._workspace.job_key, ""}
        self._sent = tuple(each for each in Orders(self._workspace.store).all() if each.sent and each.job in mine)
        still = still_to_order(estimate.buying, ordered(each for each in self._sent if each.job))
        self._still = {
            order.supplier.key: tuple(one for one in still if one.pick.offer.supplier == order.supplier.key)
            for order in estimate.buying.orders
        }
        start = self._workspace.job.terms.start
        open_ = [still_group(order, self._still[order.supplier.key], start) for order in estimate.buying.orders]
        self._levels = levels_of(self._workspace.store, estimate.book)
        open_ += [level_group(key, picks, estimate.book) for key, picks in self._levels.items()]
        open_.append(left_out_group(estimate))
        groups = [group for group in open_ if group.rows] + [sent_group(each, estimate.book) for each in self._sent]
        self.table.set_groups(tuple(groups))
        self._show_ways(estimate)
        whole = sum((order.goods + order.carriage for order in estimate.buying.orders), Decimal(0))
        self._foot.setText(f"{len(estimate.buying.orders)} orders, {measure.show_money(whole)} before VAT")
        buying = estimate.job.buying
        self._accepted.setChecked(buying.under_way)
        words = f"Job accepted, done {measure.show_date(buying.done)}" if buying.done else "Job accepted"
        self._accepted.setText(words)
        self._accepted.setAccessibleName(words)
        self._enable()

    def _show_ways(self, estimate: Estimate) -> None:
        place, wishes = self._ways.take(estimate), estimate.job.buying
        self._way.show_choices([way_words(way, estimate.book) for way in self._ways.ways], place)
        self._day.show_value(measure.show_date(wishes.by) if wishes.by else "")
        self._reason.setText(self._ways.reason)

    def _take_way(self, place: int) -> None:
        way = self._ways.ways[place]
        if way.aim == ALL_FROM_ONE:
            self._workspace.set("buying.supplier", way.supplier)
        self._workspace.set("buying.aim", way.aim)

    def _take_day(self, words: str) -> None:
        read = measure.read_day_ahead(words, self._workspace.book.date or date.today().isoformat()) if words.strip() else None
        if read is not None and read.value is None:
            self._trouble.setText(read.problem or "is no date")
            return
        self._trouble.setText("")
        self._workspace.set("buying.by", str(read.value) if read else "")
        self._workspace.set("buying.aim", BY_A_DAY if read else CHEAPEST)

    def _accept(self) -> None:
        """Count the job's needs from today, a job that was done anew; or no longer."""
        accepted = self._accepted.isChecked()
        if self._workspace.job.buying.done:
            self._workspace.set("buying.done", "")
        self._workspace.set("buying.accepted", date.today().isoformat() if accepted else "")

    def _chosen(self, row: str) -> None:
        self._trouble.setText("")
        if row.startswith(("line:", "never:", "none:")):
            self.figure_asked.emit(f"line:{row.partition('@')[0].partition(':')[2]}")
        found = self._line()
        if found is not None:
            self.figure_asked.emit(f"line:{found[1].item}")
        self._box.show_value(str(found[1].coming) if found else "")
        self._enable()

    def _offer(self) -> Offer | None:
        """The offer of the line chosen, where it is still to be ordered or never bought."""
        kind, _, rest = self.table.chosen().partition(":")
        if kind == "never":
            item, _, offer_key = rest.partition("@")
            return next((each for each in self._workspace.book.offers.get(item, ()) if each.key == offer_key), None)
        key, _, place = rest.partition("@")[2].partition("/")
        rows = self._still.get(key, ()) if kind == "line" else ()
        return rows[int(place)].pick.offer if place.isdecimal() and int(place) < len(rows) else None

    def _wish(self) -> None:
        """Keep that the offer chosen is always, or never, bought; the other offers of its item are looked at anew."""
        from tundish.store.wishes import wish

        offer = self._offer()
        if offer is not None:
            wish(self._workspace.store, offer.key, always=self._favourite.isChecked(), never=self._never.isChecked())
            self._workspace.book_has_changed()

    def _enable(self) -> None:
        offer, book = self._offer(), self._workspace.book
        for tick, keys in ((self._favourite, book.favourites), (self._never, book.never)):
            tick.setEnabled(offer is not None)
            tick.setChecked(offer is not None and offer.key in keys)
        found = self._line()
        coming = found is not None and any(line.coming for line in found[0].lines)
        self._all.setEnabled(coming)
        for tool in (self._came, self._short):
            tool.setEnabled(found is not None and found[1].coming > 0)
        self._back.setEnabled(found is not None and found[1].came > found[1].returned)
        self._send.setEnabled(bool(self._supplier()) or self.table.chosen().startswith("level:"))

    def _line(self) -> tuple[SentOrder, OrderLine] | None:
        """The order and line chosen, where it is of a sent one."""
        kind, _, rest = self.table.chosen().partition(":")
        if kind != "order" or ":" not in rest:
            return None
        order_id, _, line_id = rest.partition(":")
        pairs = ((order, line) for order in self._sent for line in order.lines)
        return next(((order, line) for order, line in pairs if (str(order.id), str(line.id)) == (order_id, line_id)), None)

    def _supplier(self) -> str:
        """The supplier of the line chosen, or of the first with something to send."""
        open_ = [key for key, rows in self._still.items() if any(one.pick.packs for one in rows)]
        chosen = self.table.chosen()
        mine = chosen.partition("@")[2].partition("/")[0] if "@" in chosen else chosen.partition(":")[2]
        return mine if mine in open_ else next(iter(open_), "")

    def _copy(self) -> None:
        estimate, key = self._workspace.estimate, self._supplier()
        order = next((each for each in estimate.buying.orders if each.supplier.key == key), None) if estimate else None
        if estimate is not None and order is not None:
            QApplication.clipboard().setText(as_words(estimate, order, [one.pick for one in self._still[key]]))
            self._workspace.said.emit(f"The order to {order.supplier.name} is on the clipboard: paste it into your message")

    def _send_chosen(self) -> None:
        from tundish.store.ledger import Ledger
        from tundish.store.orders import Orders

        estimate, key = self._workspace.estimate, self._supplier()
        chosen = self.table.chosen()
        if chosen.startswith("level:"):
            self._send_levels(chosen.partition("@")[2])
            return
        if self._workspace.held_up:
            self._workspace.said.emit(self._workspace.held_up)
            return
        if estimate is None or not key:
            return
        orders, job = Orders(self._workspace.store), self._workspace.job_key
        order_id = orders.draft(job, key, [one.pick for one in self._still[key]])
        orders.send(order_id, self._how.currentText())
        taken = {each.line.item.code: each.from_stock.value for each in estimate.buying.purchases if each.from_stock.value}
        ledger = Ledger(self._workspace.store)
        self._trouble.setText(" ".join(ledger.set_aside(job, taken)))
        ledger.keep_pieces(job, tuple(piece.key for plan in estimate.cuts for piece in plan.from_rack))
        self._workspace.said.emit(f"Order to {estimate.book.suppliers[key].name} sent")
        self._changed()
        self._go_to_order(order_id)

    def _send_levels(self, key: str) -> None:
        """Send the van's own order, of what is under its level."""
        from tundish.store.orders import Orders

        orders = Orders(self._workspace.store)
        order_id = orders.draft("", key, self._levels[key])
        orders.send(order_id, self._how.currentText())
        self._changed()
        self._go_to_order(order_id)

    def _go_to_order(self, order_id: int) -> None:
        """Choose the first line of an order that was sent: what is asked of it next is what came."""
        line = next((line for order in self._sent if order.id == order_id for line in order.lines), None)
        if line is not None:
            self.table.choose(f"order:{order_id}:{line.id}")

    def _save_xml(self) -> None:
        """Save the order chosen: a sent one as it was sent, else the draft, which is kept so that its number stands."""
        from tundish.store.orders import Orders
        from tundish.writers.order_xml import write_order_xml

        estimate, key, found = self._workspace.estimate, self._supplier(), self._line()
        if estimate is None or not (found or key):
            self._workspace.said.emit("Everything is sent: choose a line of the order to save")
            return
        orders = Orders(self._workspace.store)
        order_id = found[0].id if found else orders.draft(self._workspace.job_key, key, [one.pick for one in self._still[key]])
        order = next(each for each in orders.all() if each.id == order_id)
        made = to_write(estimate, placed(order, estimate.book.suppliers), (order.sent or order.made)[:10])
        name, _ = QFileDialog.getSaveFileName(self, "Save the order as XML", f"Order {order.number}.xml", "UBL order (*.xml)")
        if name:
            write_order_xml(made, Path(name))
            self._workspace.said.emit(f"Saved: {Path(name).name}")

    def _open_xml(self) -> None:
        """Open an order file and take in what it says came, or a bill and tell what of it does not agree."""
        from tundish.store.bill_file import is_bill
        from tundish.store.order_file import goods_in_from, read_order_file

        name, _ = QFileDialog.getOpenFileName(self, "Open an order or a bill", "", "UBL order or invoice (*.xml)")
        if not name:
            return
        if is_bill(Path(name)):
            self._trouble.setText(look_at_bill(self._workspace, Path(name)))
            return
        try:
            said = goods_in_from(self._workspace.store, read_order_file(Path(name)), self._workspace.job_key, SITE)
        except TundishError as fault:
            self._trouble.setText(str(fault))
            return
        self._changed()
        self._trouble.setText("")
        self._workspace.said.emit(said)

    def _goods_in(self) -> None:
        found, read = self._line(), measure.read_number(self._box.text())
        if found is None:
            return
        if read.value is None or read.value != int(read.value) or not 0 <= read.value <= found[1].coming:
            beyond = "; count what came beyond into stock" if read.value and read.value > found[1].coming else ""
            self._trouble.setText(read.problem or f"type how many packs came, {found[1].coming} at most{beyond}")
            return
        self._take_in(found[0], {found[1].id: int(read.value)})

    def _all_in(self) -> None:
        found = self._line()
        if found is not None:
            self._take_in(found[0], {line.id: line.coming for line in found[0].lines})

    def _rest_short(self) -> None:
        found = self._line()
        if found is not None:
            self._take_in(found[0], {}, ended=(found[1].id,))

    def _take_in(self, order: SentOrder, came: dict[int, int], *, ended: tuple[int, ...] = ()) -> None:
        from tundish.store.orders import Orders

        Orders(self._workspace.store).goods_in(order, came, SITE, ended=ended)
        self._changed()

    def _give_back(self) -> None:
        from tundish.store.orders import Orders

        found, read = self._line(), measure.read_number(self._box.text())
        if found is None:
            return
        most, packs = found[1].came - found[1].returned, read.value or 0
        if packs != int(packs) or not 0 < packs <= most:
            self._trouble.setText(read.problem or f"type how many packs go back, {most} at most")
            return
        self._trouble.setText(Orders(self._workspace.store).give_back(found[0], found[1], int(packs), SITE))
        self._changed()

    def _changed(self) -> None:
        """Show what became of it, the line chosen in sight with what is still to come of it."""
        self._workspace.book_has_changed()
        self.show_again()
        self.table.bring_back()
        found = self._line()
        if found is not None:
            self._box.show_value(str(found[1].coming))
