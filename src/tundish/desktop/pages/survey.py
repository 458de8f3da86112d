"""Survey: what is there, and how do we know?"""

from __future__ import annotations

from typing import Final

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout, QWidget

from tundish.desktop.canvas.sketch import Sketch
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.inputs import InputForm
from tundish.desktop.page import Page
from tundish.desktop.started import add_appliance
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.documents import section_drawing
from tundish.field import Entry, Field, get, walk
from tundish.layout.appliances.kinds import KINDS
from tundish.session import Step
from tundish.survey.floor import Layer
from tundish.survey.wall import Opening

GROUPS: Final = (
    ("room", "Room", ("survey.room",)),
    ("wall", "Walls", ("survey.wall",)),
    ("floor", "Floor", ("survey.floor",)),
    ("stack", "Stack", ("survey.stack",)),
    ("water", "Water", ("survey.water",)),
    ("prewall", "Pre-wall", ("design.prewall",)),
    ("appliances", "Sanitaryware", ("design.appliances",)),
    ("finish", "Tiles", ("design.finish",)),
    ("out", "Coming out", ("survey.existing",)),
    ("client", "Client", ()),
)
"""Key, words and the records of each group of inputs."""
LISTS: Final = {"floor": ("survey.floor.build_up", "layer", Layer), "wall": ("survey.openings", "opening", Opening)}
CLIENT: Final = ("number", "title", "client.name", "client.address", "client.phone", "client.email", "note")
MANY_LINES: Final = ("client.address", "note")


class SurveyPage(Page):
    """Every fact and choice of a room, group by group, with a sketch that follows the box."""

    help_sentences = (
        "Type sums (210+12+13), other units (2.38 m) or a range (8 to 12).",
        "Enter takes the value and goes on; Ctrl+T marks it to be confirmed.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Survey", "What is there, and how do we know?")
        self._workspace = workspace
        self._group = "room"
        self._groups = ChipRow("Groups of measurements")
        self._groups.chosen.connect(self._choose)
        self.add_row(self._groups)
        self.form = InputForm("Survey", workspace)
        self.form.asked.connect(self._asked)
        self.sketch = Sketch()
        self._caption = label("", "note", "ink2", wrap=True)
        self.set_body(self._halves())
        workspace.job_opened.connect(self._rebuild)
        workspace.room_changed.connect(self._rebuild)
        workspace.job_changed.connect(self._changed)
        workspace.estimate_ready.connect(self._draw)
        self._shape: tuple[object, ...] = ()
        self._path = ""
        self._rebuild()

    def go_to(self, path: str) -> None:
        """Show the group of an input with the keyboard in its box."""
        self._choose(_group_of(path))
        self.form.go_to(path)

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

    def _choose(self, group: str) -> None:
        if group != self._group:
            self._group = group
            self._rebuild()

    def _changed(self, _step: Step) -> None:
        if self._shape != self._shape_now():
            self._rebuild()
        else:
            self._count()

    def _shape_now(self) -> tuple[object, ...]:
        """What the rows depend on: how many records there are, and the kinds of appliances."""
        job, place = self._workspace.job, self._workspace.room_place
        if place >= len(job.rooms):
            return (len(job.rooms),)
        plan = job.rooms[place]
        kinds = tuple(each.kind for each in plan.design.appliances)
        return (place, len(plan.survey.floor.build_up), len(plan.survey.openings), kinds)

    def _rebuild(self) -> None:
        self._shape = self._shape_now()
        self.form.clear()
        self._count()
        path = self._workspace.room_path
        if self._group == "client" or not self._workspace.job.rooms:
            self._add_client()
        elif self._group == "appliances":
            self._add_appliances(path)
        else:
            key, words, records = next(each for each in GROUPS if each[0] == self._group)
            for record in records:
                self._add_record(words, f"{path}.{record}")
            if key in LISTS:
                self._add_list(f"{path}.{LISTS[key][0]}", LISTS[key][1], LISTS[key][2])
        self.order_focus()
        self._draw()

    def _add_record(self, title: str, path: str) -> None:
        self.form.add_group(title)
        for name, declared, _ in walk(get(self._workspace.job, path)):
            if name.count(".") == 0 and declared.kind not in {"record", "records"}:
                self.form.input(f"{path}.{name}")

    def _add_list(self, path: str, words: str, of: type[Layer | Opening]) -> None:
        for place, _ in enumerate(get(self._workspace.job, path)):
            self._add_record(f"{words.capitalize()} {place + 1}", f"{path}.{place}")
            self._add_remove(path, place, f"{words} {place + 1}")
        add = button(f"Add a {words}" if words == "layer" else f"Add an {words}", "add")
        add.clicked.connect(lambda: self._workspace.add(path, of(), f"add a {words}"))
        self.form.add_part(_in_row(add))

    def _add_remove(self, path: str, place: int, words: str) -> None:
        remove = button(f"Take out {words}", "cross")
        remove.clicked.connect(lambda: self._workspace.remove(path, place, f"take out {words}"))
        self.form.add_part(_in_row(remove))

    def _add_appliances(self, path: str) -> None:
        listed = f"{path}.design.appliances"
        for place, appliance in enumerate(get(self._workspace.job, listed)):
            self._add_record(appliance.name or f"Appliance {place + 1}", f"{listed}.{place}")
            self._add_remove(listed, place, appliance.name or "it")
        row = QWidget()
        across = QHBoxLayout(row)
        across.setContentsMargins(12, 8, 12, 8)
        for kind, words in ((each.key, each.title) for each in KINDS.values()):
            add = button(f"Add {words}", "add")
            add.clicked.connect(lambda _=False, kind=kind: add_appliance(self._workspace, kind))
            across.addWidget(add)
        across.addStretch(1)
        self.form.add_part(row)

    def _add_client(self) -> None:
        self.form.add_group("Client and job")
        for path in CLIENT:
            self.form.input(path, lines=3 if path in MANY_LINES else 0)
        if self._workspace.job.rooms:
            self.form.input(f"{self._workspace.room_path}.name")

    def _count(self) -> None:
        self._groups.set_choices(tuple(self._choice(key, words, records) for key, words, records in GROUPS), self._group)

    def _choice(self, key: str, words: str, records: tuple[str, ...]) -> Choice:
        job, path = self._workspace.job, self._workspace.room_path
        numbers: list[tuple[Field, Entry | None]] = []
        if job.rooms:
            for record in records:
                found = get(job, f"{path}.{record}")
                rows = found if isinstance(found, tuple) else (found,)
                numbers += [(declared, value) for row in rows for _, declared, value in walk(row) if declared.kind == "number"]
        if not numbers:
            return Choice(key, words)
        given = [value for _, value in numbers if value is not None]
        note = f"{len(given)} of {len(numbers)}"
        if any(value.is_open for value in given):
            return Choice(key, words, note, "half", "tbc", "some to be confirmed")
        return Choice(key, words, note, "tick", "settled", "all given") if len(given) == len(numbers) else Choice(key, words, note)

    def _asked(self, path: str) -> None:
        self._path = path
        self.figure_asked.emit(f"input:{path}")
        self._draw()

    def _draw(self) -> None:
        room = self._workspace.room
        if room is not None:
            drawing = section_drawing.follow(room, self._path.removeprefix(f"{room.path}."))
            self.sketch.show_drawing(drawing, drawing.title)
            self._caption.setText(drawing.title)


def _group_of(path: str) -> str:
    inside = path.partition(".")[2].partition(".")[2]
    for key, _, records in GROUPS:
        if any(inside.startswith(f"{record}.") for record in records):
            return key
    return "wall" if inside.startswith("survey.openings") else "client"


def _in_row(widget: QWidget) -> QWidget:
    made = QWidget()
    row = QHBoxLayout(made)
    row.setContentsMargins(12, 6, 12, 6)
    row.addWidget(widget, 0, Qt.AlignmentFlag.AlignLeft)
    row.addStretch(1)
    return made
