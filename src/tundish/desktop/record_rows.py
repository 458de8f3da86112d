"""A record of the job as rows of a form: its inputs, the records within it and its lists, with buttons that add and take out."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QWidget

from tundish.desktop import survey_groups as groups
from tundish.desktop.inputs import InputForm
from tundish.desktop.painted import IconButton
from tundish.desktop.words import button
from tundish.desktop.workspace import Workspace
from tundish.estimate import Job
from tundish.field import describe, fields_of, get
from tundish.plain import MOST_ROWS
from tundish.survey.shape import Photograph
from tundish.survey.wall import Side, wall_letter


class RecordRows:
    """Fills a form with the records at given paths; `whole` shows every input, else only the few that a price needs and what was given."""

    def __init__(self, form: InputForm, workspace: Workspace, *, whole: bool = False) -> None:
        self._form, self._workspace, self._whole = form, workspace, whole
        self.left_out = 0
        """How many inputs "More" would show."""

    def add(self, path: str, title: str = "") -> None:
        """Add what stands at a path, a record or a list, under its declared label or another title."""
        declared = describe(Job, path)
        if declared.kind == "records":
            self._add_list(path, title)
            self._form.add_buttons(*self._adders((path,)))
        else:
            self.add_record(title or declared.label, path)

    def add_record(self, title: str, path: str, remove: QWidget | None = None) -> None:
        """Add a head, the inputs of a record, then the rows of its lists."""
        record = get(self._workspace.job, path)
        head = self._form.add_group(title)
        if remove is not None:
            head.set_button(remove)
        shown = groups.plain_inputs(record) if self._whole else groups.short(record)
        self.left_out += len(groups.plain_inputs(record)) - len(shown)
        for name in shown:
            self._form.input(f"{path}.{name}")
        lists = tuple(f"{path}.{name}" for name, _ in groups.lists_of(record))
        for each in lists:
            self._add_list(each, title)
        self._form.add_buttons(*self._adders(lists))

    def add_lists(self, paths: tuple[str, ...]) -> None:
        """Add the rows of several lists, then one line with a button for each that adds to it."""
        for path in paths:
            self._add_list(path, "")
        self._form.add_buttons(*self._adders(paths))

    def remover(self, path: str, place: int, words: str) -> QWidget:
        """A button that takes one row out of a list."""
        made = IconButton("cross", f"Take out {words}", small=True)
        made.clicked.connect(lambda: self._workspace.remove(path, place, f"take out {words}"))
        return made

    def _add_list(self, path: str, within: str) -> None:
        lead = f"{within}, " if within.startswith("Pre-wall ") else ""
        for place, record in enumerate(get(self._workspace.job, path)):
            title = groups.title_of(record, place)
            said = title[0].lower() + title[1:] if not getattr(record, "name", "") else title
            self.add_record(f"{lead}{said}" if lead else title, f"{path}.{place}", self.remover(path, place, said))

    def _adders(self, paths: tuple[str, ...]) -> tuple[QWidget, ...]:
        made: list[QWidget] = []
        for path in paths:
            of: Any = describe(Job, path).of
            count = len(get(self._workspace.job, path))
            if of is Photograph or count >= groups.MOST.get(of, MOST_ROWS):
                continue
            words = f"wall {wall_letter(count + 1)}" if of is Side else groups.NOUNS[of]
            add = button(f"Add {words}", "add")
            add.setObjectName(f"add {path}")
            add.clicked.connect(lambda _=False, path=path, of=of, label=f"add {words}": self._add_one(path, of, label))
            made.append(add)
        return tuple(made)

    def _add_one(self, path: str, of: Any, label: str) -> None:
        before = get(self._workspace.job, path)
        wall = getattr(before[-1], "wall", None) if before else None
        again = {"wall": wall} if isinstance(wall, str) and "wall" in fields_of(of) else {}
        self._workspace.add(path, of(**again), label)
