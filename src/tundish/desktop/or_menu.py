"""The menu that leaves a choice open: every other thing that it may be, those that it may still be ticked."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtWidgets import QMenu

from tundish.desktop.forms import FormRow
from tundish.estimate import Job
from tundish.field import get
from tundish.layout.undecided import MOST_OTHERS, others, place_of


def others_at(job: Job, path: str) -> tuple[str, ...]:
    """What else the choice at a path of the job may still be."""
    found = place_of(path)
    return others(get(job, found[0]), found[1]) if found else ()


def asked(row: FormRow, values: Sequence[tuple[str, str]], taken: Sequence[str], take: Callable[[tuple[str, ...]], object]) -> QMenu:
    """Show the menu under a row: values with their words, those `taken` ticked; a press tells `take` what is ticked then."""
    menu = QMenu(row)
    menu.setAccessibleName(f"{row.label}: or")
    menu.aboutToHide.connect(menu.deleteLater)
    for value, words in values:
        escaped = words.replace("&", "&&")
        way = menu.addAction(f"or {escaped}")
        way.setCheckable(True)
        way.setChecked(value in taken)
        way.setEnabled(value in taken or len(taken) < MOST_OTHERS)
        now = tuple(each for each in taken if each != value) if value in taken else (*taken, value)
        way.triggered.connect(lambda _=False, now=now: take(now))
    if taken:
        menu.addSeparator()
        menu.addAction("Settle it at what the box has").triggered.connect(lambda _=False: take(()))
    ways = [way for way in menu.actions() if way.isEnabled()]
    if ways:
        menu.setActiveAction(ways[0])
    place = row.or_room() if not row.or_room().isEmpty() else row.box.geometry()
    menu.popup(row.mapToGlobal(place.bottomLeft()))
    return menu
