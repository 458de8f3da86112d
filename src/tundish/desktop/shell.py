"""The window joined to the workspace: what the regions show, and what they ask for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from importlib import import_module
from typing import Final

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QWidget

from tundish.desktop import kept_look, standing, typing_over
from tundish.desktop.different import Different
from tundish.desktop.find_box import FindBox
from tundish.desktop.look import Look
from tundish.desktop.main_window import MainWindow
from tundish.desktop.reasons import reason_of
from tundish.desktop.run import CLOSING, JOBS
from tundish.desktop.run import PAGES as JOINTS
from tundish.desktop.workspace import Workspace
from tundish.documents.paper import lines_of
from tundish.estimate import Estimate
from tundish.session import Step
from tundish.takeoff.by_hand import put_on_the_list

PAGES: Final = (
    ("jobs", "Jobs", "JobsPage"),
    ("survey", "Survey", "SurveyPage"),
    ("setting_out", "Setting out", "SettingOutPage"),
    ("checks", "Checks", "ChecksPage"),
    ("materials", "Materials", "MaterialsPage"),
    ("cutting", "Cutting", "CuttingPage"),
    ("cut_list", "Cut list", "CutListPage"),
    ("ordering", "Ordering", "OrderingPage"),
    ("pricing", "Pricing", "PricingPage"),
    ("paper", "Paper", "PaperPage"),
    ("closing", "Before closing", "ClosingPage"),
    ("after", "After the job", "AfterPage"),
    ("stock", "Stock", "StockPage"),
    ("prices", "Price list", "PricesPage"),
    ("suppliers", "Suppliers", "SuppliersPage"),
    ("catalogue", "Catalogue", "CataloguePage"),
    ("stock_take", "Stock-take", "StockTakePage"),
    ("rates", "Rates and rules", "RatesPage"),
    ("settings", "Settings", "SettingsPage"),
)
"""Key (and module), title and class of every page; each is imported and made when it is first shown."""
LATER_MS: Final = 1000
"""While something is held, Where from is written anew at most so often."""
JOB_PAGES: Final = frozenset({*(joint.key for joint in JOINTS), CLOSING, "after"})
"""The pages that there is nothing on while no job is open."""
PAPER_OF: Final = {
    "setting_out": "setting-out",
    "materials": "materials",
    "cutting": "cut-list",
    "ordering": "orders",
    "pricing": "quote",
    "closing": "closing",
    "after": "after",
}
"""The paper that printing a page means."""


class Shell(QObject):
    """Keeps the job line, the Run, the Tally and Where from true, and passes on what they ask for."""

    def __init__(self, window: MainWindow, workspace: Workspace) -> None:
        super().__init__(window)
        self.window, self.workspace = window, workspace
        self._trail: list[str] = []
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(LATER_MS)
        self._later.timeout.connect(self._show_reason_again)
        self._different = Different(workspace, window.where_from)
        self.find_box = FindBox(workspace, window.frame.pages)
        for key, title, name in PAGES:
            window.add_page(key, title, self._maker(key, name))
        self._connect()
        window.installEventFilter(self)

    def start(self, *, demo: bool = False) -> None:
        """Show the jobs; or with `demo` open the newest demonstration job on its setting out."""
        kept_look.wear(kept_look.chosen(self.workspace.store))
        self.window.run.set_job_open(open_job=False)
        self.window.show_page("jobs")
        if self.workspace.store.news:
            self.window.where_from.show_help("New in your catalogue", (self.workspace.store.news,))
            self.window.announce(self.workspace.store.news)
        if demo:
            row = next((each for each in self.workspace.store.jobs() if not each.put_away), None)
            if row is not None:
                self.workspace.open(row.id)
                self.window.show_page("setting_out")

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.window and event.type() == QEvent.Type.Close:
            self.workspace.close()
        return super().eventFilter(watched, event)

    def _maker(self, key: str, name: str) -> Callable[[], QWidget]:
        def make() -> QWidget:
            page: QWidget = getattr(import_module(f"tundish.desktop.pages.{key}"), name)(self.workspace)
            return page

        return make

    def _connect(self) -> None:
        window, workspace, line = self.window, self.workspace, self.window.job_line
        workspace.job_opened.connect(self._opened)
        workspace.job_closed.connect(self._closed)
        workspace.job_changed.connect(self._changed)
        workspace.estimate_ready.connect(self._worked_out)
        workspace.saved.connect(self._saved)
        workspace.said.connect(self._said)
        workspace.room_changed.connect(self._show_job)
        workspace.floor_changed.connect(self._show_floor)
        line.room_asked.connect(workspace.choose_room)
        line.floor_asked.connect(workspace.choose_floor)
        line.undo_asked.connect(workspace.undo)
        line.redo_asked.connect(workspace.redo)
        line.print_asked.connect(self._print)
        line.find_asked.connect(self.find_box.open)
        self.find_box.found.connect(self._go_to_found)
        window.look_changed.connect(self._look_changed)
        window.figure_asked.connect(self._ask)
        window.page_shown.connect(self._page_shown)
        window.where_from.link_asked.connect(self._follow)
        window.where_from.back_asked.connect(self._back)
        window.where_from.button.connect(self._pressed)
        window.where_from.typed.connect(self._typed)
        window.tally.price_asked.connect(self._ask_price)
        window.tally.stop_asked.connect(self.workspace.leave_off)
        self.workspace.searching.connect(self._searching)

    def _opened(self) -> None:
        self.window.run.set_job_open(open_job=True)
        self._show_job()
        self.window.job_line.set_saved("Saved")

    def _closed(self) -> None:
        self.window.run.set_job_open(open_job=False)
        self.window.job_line.set_job("", "")
        self.window.set_title("")
        self.window.show_page("jobs")

    def _changed(self, _step: Step) -> None:
        self._show_job()

    def _show_job(self) -> None:
        job, line = self.workspace.job, self.window.job_line
        address = lines_of(job.client.address)
        client = job.client.name or "No name yet"
        number = f"Option of job {job.number}" if job.begun.on else f"Job {job.number}"
        line.set_job(client, " · ".join(word for word in (address[0] if address else "", number) if word))
        line.set_rooms(tuple(room.name for room in job.rooms), self.workspace.room_place)
        line.set_undo(self.workspace.undo_label or None)
        line.set_redo(self.workspace.redo_label or None)
        self.window.set_title(", ".join(word for word in (client, job.title) if word))

    def _worked_out(self, estimate: Estimate) -> None:
        for key, words, tone, glyph in standing.joints(self.workspace, estimate):
            self.window.run.set_state(key, words, tone, glyph)
        self.window.run.set_closing(*standing.closing(self.workspace, estimate))
        self.window.tally.set_amounts(list(standing.amounts(estimate)))
        self.window.tally.set_price(*standing.price(estimate))
        self._show_floor()
        if not self.workspace.trying:
            self._show_reason_again()
        elif not self._later.isActive():
            self._later.start()

    def _show_reason_again(self) -> None:
        self._later.stop()
        if self._trail:
            self._show_reason()

    def _show_floor(self) -> None:
        room = self.workspace.room
        self.window.job_line.set_floor(self.workspace.floor, room.finished_floor.value if room else None)

    def _saved(self, words: str, bad: bool) -> None:
        self.window.job_line.set_saved(words, bad=bad)

    def _said(self, words: str) -> None:
        self.window.announce(words)
        self.window.tally.say(words)

    def _searching(self, on: bool) -> None:
        self.window.tally.set_working("Cut list: looking for a better plan, or a proof" if on else "", None)

    def _page_shown(self, key: str) -> None:
        if self.workspace.session is None and key in JOB_PAGES:
            self.window.show_page(JOBS)
            self.workspace.said.emit("Open a job, or start a survey, first.")
            return
        self._trail = []
        self._different.show("")
        self.workspace.cut_list_in_use = key == "cutting"
        self._searching(self.workspace.proving)
        self.workspace.remember_place(key)

    def _ask(self, asked: str) -> None:
        self._trail = [asked]
        self._show_reason()

    def _follow(self, link: str) -> None:
        self._trail.append(link)
        self._show_reason()

    def _back(self) -> None:
        if len(self._trail) > 1:
            self._trail.pop()
            self._show_reason()

    def _ask_price(self) -> None:
        self._ask("price")

    def _show_reason(self) -> None:
        came_from = ""
        if len(self._trail) > 1:
            before = reason_of(self._trail[-2], self.workspace)
            came_from = before.title if before else ""
        view = reason_of(self._trail[-1], self.workspace, came_from)
        if view is not None:
            self.window.where_from.show_figure(view)
        else:
            self.window.show_page_help()
        self._different.show(*((view.different, view.different_title) if view is not None else ("",)))

    def _pressed(self, asked: str) -> None:
        act, _, rest = asked.partition(":")
        if act == "change":
            self._go_to(rest)
        elif act in {"settle", "open"}:
            standing.set_open(self.workspace, rest, still_open=act == "open")
        elif act == "way":
            self._take_way_out(rest)
        elif act == "own":
            self.window.where_from.type_own()
        elif act == "back":
            typing_over.put_back(rest, self.workspace)
        elif act == "decide":
            self._go_to_decision(rest)
        elif act == "catalogue":
            self._open_item(rest)
        elif act == "sheet":
            self._open_sheet(rest)

    def _typed(self, own: str, words: str) -> None:
        problem = typing_over.type_over(own, words, self.workspace)
        if problem:
            self.window.where_from.refuse(words, problem)

    def _go_to_decision(self, key: str) -> None:
        self.window.show_page("closing")
        self.window.page("closing").go_to(key)  # type: ignore[union-attr]  # the page goes to a decision

    def _open_item(self, code: str) -> None:
        """Show an item in the catalogue."""
        self.window.show_page("catalogue")
        page = self.window.page("catalogue")
        if page is not None:
            page.open_item(code)  # type: ignore[attr-defined]  # the catalogue has it

    def _open_sheet(self, asked: str) -> None:
        """Open a picture or maker's sheet that is kept with an item."""
        from tundish.desktop.item_papers import open_file
        from tundish.store.item_files import attached

        item, _, key = asked.partition(":")
        for file in attached(self.workspace.store, item):
            if file.key == key:
                open_file(self.workspace.store, file)

    def _go_to(self, path: str) -> None:
        """Show the page that has the input's box, with the keyboard in it."""
        key = {"terms": "pricing", "after": "after"}.get(path.partition(".")[0], "survey")
        if path.startswith("rooms."):
            self.workspace.choose_room(int(path.split(".")[1]))
        self.window.show_page(key)
        page = self.window.page(key)
        if page is not None:
            page.go_to(path)  # type: ignore[attr-defined]  # both pages are forms

    def _go_to_found(self, found: str) -> None:
        """Show what the Find box found, on its page."""
        kind, _, name = found.partition(":")
        if kind == "input":
            self._go_to(name)
        elif kind == "figure":
            room, _, key = name.partition(":")
            self.workspace.choose_room(int(room))
            self.window.show_page("setting_out")
            self._ask(f"figure:{key}")
        else:
            page = {"line": "materials", "rule": "rates"}[kind]
            self.window.show_page(page)
            self.window.page(page).go_to(name)  # type: ignore[union-attr]  # both pages can go to a row

    def _look_changed(self, worn: Look) -> None:
        """Keep a text size that was changed by a key."""
        store = self.workspace.store
        kept_look.keep(store, replace(kept_look.chosen(store), percent=worn.percent))
        settings = self.window.page("settings")
        if isinstance(settings, QWidget) and hasattr(settings, "show_look"):
            settings.show_look()

    def _take_way_out(self, rest: str) -> None:
        check, _, way = rest.partition(":")
        estimate = self.workspace.estimate
        if estimate is not None and int(check) < len(estimate.findings):
            chosen = estimate.findings[int(check)].ways_out[int(way)]
            if chosen.adds:
                job = self.workspace.job
                made = put_on_the_list(chosen.adds, str(chosen.value))
                self.workspace.edit("put on the list by hand", replace(job, by_hand=(*job.by_hand, *made)), "by_hand")
            else:
                self.workspace.set(chosen.path, chosen.value)

    def _print(self) -> None:
        self.workspace.paper = PAPER_OF.get(self.window.current, self.workspace.paper)
        self.window.show_page("paper")
