"""Survey: what is there, and how do we know?"""

from __future__ import annotations

from PySide6.QtWidgets import QApplication, QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from tundish import measure
from tundish.desktop import own_ware, photographs
from tundish.desktop import survey_groups as groups
from tundish.desktop.canvas.sketch import Sketch
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.form_heads import Sum
from tundish.desktop.inputs import InputForm
from tundish.desktop.page import Page
from tundish.desktop.painted import IconButton
from tundish.desktop.record_rows import RecordRows
from tundish.desktop.room_buttons import room_buttons
from tundish.desktop.started import add_appliance
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.documents.section_drawing import CHALK
from tundish.documents.survey_sketch import follow
from tundish.field import get, must_read
from tundish.figure import total
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.design import Appliance
from tundish.layout.room import Room
from tundish.session import Step
from tundish.survey.floor import Layer


class SurveyPage(Page):
    """Every fact and choice of a room, group by group, with a sketch that follows the box."""

    help_sentences = (
        "Type sums (210+12+13), other units (2.38 m) or a range (8 to 12).",
        "Enter takes the value and goes on; Ctrl+T marks it to be confirmed.",
        "Ctrl+U uses the usual size, marked assumed. Ctrl+K says how a value is known.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Survey", "What is there, and how do we know?")
        self._workspace = workspace
        self._group = groups.FIRST
        self._whole: set[str] = set()
        self._groups = ChipRow("Groups of measurements")
        self._groups.chosen.connect(self._choose)
        self.add_row(self._groups)
        self.form = InputForm("Survey", workspace)
        self.form.asked.connect(self._asked)
        self.sketch = Sketch()
        self._caption = label("", "note", "ink2", wrap=True)
        self._sum: Sum | None = None
        self.set_body(self._halves())
        workspace.job_opened.connect(self._begin)
        workspace.room_changed.connect(self._rebuild)
        workspace.job_changed.connect(self._changed)
        self.follow(workspace.estimate_ready, self._draw)
        self._shape: tuple[object, ...] = ()
        self._path = ""
        self._begin()

    def go_to(self, path: str) -> None:
        """Show the group of an input with the keyboard in its box."""
        if self.form.go_to(path):
            return
        key = groups.WARE if path.startswith("own_items.") else groups.group_of(path.partition(".")[2].partition(".")[2])
        self._choose(key)
        if not self.form.go_to(path):
            self._whole.add(key)
            self._rebuild()
            self.form.go_to(path)

    def first_box(self) -> QWidget | None:
        """The first box that is not answered; else the first of all."""
        blank = next((row.box for row in self.form.rows() if row.needed), None)
        return blank if blank is not None else super().first_box()

    def _halves(self) -> QWidget:
        made = QWidget()
        row = QHBoxLayout(made)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(8)
        card, side = QFrame(), QFrame()
        for each in (card, side):
            each.setProperty("kind", "card")
        inside = QVBoxLayout(card)
        inside.setContentsMargins(1, 1, 1, 1)
        inside.addWidget(self.form)
        drawn = QVBoxLayout(side)
        drawn.setContentsMargins(12, 12, 12, 12)
        drawn.addWidget(label("Sketch, to scale", "section"))
        drawn.addWidget(self._caption)
        drawn.addWidget(self.sketch, 1)
        row.addWidget(card, 3)
        row.addWidget(side, 2)
        return made

    def _begin(self) -> None:
        """A new job begins with what a first price needs; one that has it, with the room."""
        rooms = self._workspace.job.rooms
        self._whole.clear()
        wanting = not rooms or any(each is None for each in groups.numbers(rooms[0], groups.FIRST))
        self._group = groups.FIRST if wanting else "room"
        self._rebuild()

    def _choose(self, group: str) -> None:
        if group != self._group:
            self._group = group
            self._rebuild()

    def _changed(self, step: Step) -> None:
        if self._shape == self._shape_now():
            self._count()
            return
        focused = QApplication.focusWidget()
        was_here = focused is not None and self.form.isAncestorOf(focused)
        self._rebuild()
        if was_here:
            self._come_back(step.path)

    def _come_back(self, path: str) -> None:
        """The rows are others: the keyboard goes to the first new box, else to the button that adds to the list, else to the first box."""
        row = next((each for each in self.form.rows() if f"{each.path}.".startswith(f"{path}.")), None)
        if row is not None:
            self.form.go_to(row.path)
        elif not self._focus_button(f"add {path}") and (first := self.first_box()) is not None:
            first.setFocus()

    def _shape_now(self) -> tuple[object, ...]:
        """What the rows depend on: how many records there are, and the choices that other rows follow."""
        job, place = self._workspace.job, self._workspace.room_place
        if place >= len(job.rooms):
            return (len(job.rooms),)
        plan = job.rooms[place]
        own = tuple(each.code for each in job.own_items)
        if self._group == groups.FIRST:
            return (place, groups.shape(plan.survey.floor), groups.shape(plan.design.appliances))
        return (
            len(job.rooms),
            bool(job.sawn),
            place,
            own,
            *(groups.shape(get(plan, record)) for record in groups.group(self._group).records),
        )

    def _rebuild(self) -> None:
        self._shape = self._shape_now()
        self._sum = None
        self.form.clear()
        self._count()
        rows = RecordRows(self.form, self._workspace, whole=self._group in self._whole)
        if self._group == groups.CLIENT or not self._workspace.job.rooms:
            self._add_client()
        elif self._group == groups.FIRST:
            self._add_first(rows)
        elif self._group == groups.WARE:
            self._add_appliances(rows)
        elif self._group == "photographs":
            photographs.add_to(self.form, self._workspace)
        else:
            self._add_records(rows)
        if rows.left_out or self._group in self._whole:
            self._add_more(rows.left_out)
        self.order_focus()
        rows_now = self.form.rows()
        if rows_now and self._path not in {row.path for row in rows_now}:
            self._path = rows_now[0].path
        self._draw()

    def _add_records(self, rows: RecordRows) -> None:
        room, records = self._workspace.room_path, groups.group(self._group).records
        lists = tuple(each for each in records if isinstance(get(self._workspace.job, f"{room}.{each}"), tuple))
        for record in records:
            if record not in lists:
                rows.add(f"{room}.{record}")
        rows.add_lists(tuple(f"{room}.{each}" for each in lists))
        if self._group == "floor":
            self._add_sum()
        if self._group == "room":
            self.form.add_buttons(*room_buttons(self._workspace))

    def _add_first(self, rows: RecordRows) -> None:
        """The ten boxes of a first price."""
        room, plan = self._workspace.room_path, get(self._workspace.job, self._workspace.room_path)
        for title, boxes in (("Room", groups.ROOM_BOXES), ("Stack", groups.STACK_BOXES), ("Floor", (groups.FLOOR_BOX,))):
            self.form.add_group(title)
            for each in boxes:
                self.form.input(f"{room}.{each}")
        rows.add_lists((f"{room}.{groups.BUILD_UP}",))
        self._add_sum()
        self.form.add_group("Sanitaryware")
        for place, each in enumerate(plan.design.appliances):
            self.form.input(f"{room}.design.appliances.{place}.ware", label=each.name or KINDS[each.kind].title)
        self.form.add_buttons(*self._adders(("wc", "basin")))

    def _add_sum(self) -> None:
        self._sum = Sum("Finished floor above bare")
        self.form.add_part(self._sum)
        self._show_sum()

    def _show_sum(self) -> None:
        layers: tuple[Layer, ...] = get(self._workspace.job, f"{self._workspace.room_path}.{groups.BUILD_UP}")
        height = total([must_read(layer, "thickness") for layer in layers])
        if self._sum is not None:
            shown = measure.show_range(height.low, height.high)
            self._sum.show_value(shown, "mm, to be confirmed" if height.tbc else "mm")

    def _add_appliances(self, rows: RecordRows) -> None:
        listed = f"{self._workspace.room_path}.design.appliances"
        appliances: tuple[Appliance, ...] = get(self._workspace.job, listed)
        for place, appliance in enumerate(appliances):
            path, name = f"{listed}.{place}", appliance.name or f"Appliance {place + 1}"
            rows.add_record(name, path, rows.remover(listed, place, name))
            if any(each.code == appliance.ware for each in self._workspace.job.own_items):
                self._add_sheet(name, appliance.ware)
            else:
                own = button("Type from the maker's sheet", "s_maker")
                own.setAccessibleName(f"Type {name} from the maker's sheet")
                own.clicked.connect(lambda _=False, path=path: self._type_own(path))
                self.form.add_buttons(own)
        self.form.add_buttons(*self._adders(tuple(KINDS)))

    def _add_sheet(self, name: str, code: str) -> None:
        head = self.form.add_group(f"Maker's sheet, {name}")
        out = IconButton("cross", f"Take out the model typed for {name}", small=True)
        out.clicked.connect(lambda: own_ware.take_out_own(self._workspace, code))
        head.set_button(out)
        own_ware.add_sheet(self.form, self._workspace.job, code)

    def _type_own(self, path: str) -> None:
        own_ware.type_own(self._workspace, path)
        code = get(self._workspace.job, f"{path}.ware")
        place = next(number for number, each in enumerate(self._workspace.job.own_items) if each.code == code)
        self.form.go_to(f"own_items.{place}.name")

    def _adders(self, kinds: tuple[str, ...]) -> list[QWidget]:
        made: list[QWidget] = []
        for kind in kinds:
            add = button(f"Add {KINDS[kind].title}", "add")
            add.clicked.connect(lambda _=False, kind=kind: add_appliance(self._workspace, kind))
            made.append(add)
        return made

    def _add_more(self, left_out: int) -> None:
        whole = self._group in self._whole
        more = button("Fewer" if whole else f"More: {left_out} boxes" if left_out > 1 else "More: 1 box", "chevd" if not whole else "cross")
        more.setObjectName("more")
        more.clicked.connect(self._more)
        self.form.add_buttons(more)

    def _more(self) -> None:
        before = {row.path for row in self.form.rows()}
        self._whole ^= {self._group}
        self._rebuild()
        new = next((row.path for row in self.form.rows() if row.path not in before), "")
        if new:
            self.form.go_to(new)
        else:
            self._focus_button("more")

    def _focus_button(self, name: str) -> bool:
        """Put the keyboard on a button of the form, if it is there."""
        found = self.form.findChild(QPushButton, name)
        if isinstance(found, QPushButton):
            found.setFocus()
        return isinstance(found, QPushButton)

    def _add_client(self) -> None:
        self.form.add_group("Client and job")
        paths = list(groups.CLIENT_BOXES)
        if self._workspace.job.rooms:
            paths += [f"{self._workspace.room_path}.{each}" for each in groups.ROOM_WORDS]
        for path in paths:
            self.form.input(path, lines=3 if path.endswith(groups.MANY_LINES) else 0)

    def _count(self) -> None:
        self._groups.set_choices(tuple(self._choice(each) for each in groups.GROUPS), self._group)
        self._show_sum() if self._sum is not None else None

    def _choice(self, group: groups.Group) -> Choice:
        job, place = self._workspace.job, self._workspace.room_place
        numbers = groups.numbers(job.rooms[place], group.key) if place < len(job.rooms) else ()
        if not numbers:
            return Choice(group.key, group.words)
        given = [value for value in numbers if value is not None]
        note = f"{len(given)} of {len(numbers)}"
        if any(value.is_open for value in given):
            return Choice(group.key, group.words, note, "half", "tbc", "some to be confirmed")
        whole = len(given) == len(numbers)
        return Choice(group.key, group.words, note, "tick", "settled", "all given") if whole else Choice(group.key, group.words, note)

    def _asked(self, path: str) -> None:
        self._path = path
        self.figure_asked.emit(f"input:{path}")
        self._draw()

    def _draw(self) -> None:
        room = self._seen()
        if room is not None:
            drawing = follow(room, self._path.removeprefix(f"{room.path}."))
            self.sketch.show_drawing(drawing, drawing.title, CHALK)
            self._caption.setText(f"{drawing.title}. It follows the box you are in.")

    def _seen(self) -> Room | None:
        """The room at the pre-wall that the input belongs to, else at the one that is looked at."""
        rooms = self._workspace.estimate.rooms if self._workspace.estimate else ()
        here = [room for room in rooms if room.path == self._workspace.room_path]
        return next((room for room in here if self._belongs(room)), self._workspace.room)

    def _belongs(self, room: Room) -> bool:
        if self._path.startswith(f"{room.prewall_path}."):
            return True
        return any(self._path.startswith(f"{placed.path}.") for placed in room.placed)
