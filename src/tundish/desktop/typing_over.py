"""Figures that the trader types in place of those worked out: which can be, what is typed, and back to what was worked out."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from tundish import typed
from tundish.desktop.receipt import Action, OwnBox
from tundish.estimate import Job
from tundish.field import Entry, NoSuchInputError, describe, get, put
from tundish.layout.design import Typed
from tundish.layout.typed_over import name_of, typeable

if TYPE_CHECKING:
    from tundish.desktop.workspace import Workspace
    from tundish.figure import Figure
    from tundish.layout.room import Room

ROWS: Final = "design.typed"


def own_id(asked: str, figure: Figure, workspace: Workspace) -> str:
    """What a figure is typed over by, such as "rooms.0/wc-1.studs"; "" where it cannot be."""
    if f".{ROWS}." in figure.path:
        try:
            row: Typed = get(workspace.job, figure.path.rpartition(".")[0])
        except NoSuchInputError:
            return ""
        return f"{figure.path.partition(f'.{ROWS}.')[0]}/{row.figure.strip()}"
    key, room = asked.removeprefix("figure:"), workspace.room
    if room is None or not asked.startswith("figure:") or figure.path or key not in typeable(room):
        return ""
    return f"{room.path}/{name_of(room, key)}"


def box(own: str, figure: Figure, workspace: Workspace) -> OwnBox | None:
    """The box that a figure is typed over in, None where it cannot be."""
    if not own:
        return None
    row = _row(own, workspace)
    declared = describe(Job, f"{own.partition('/')[0]}.{ROWS}.0.value")
    words = f"{figure.label}, {figure.unit}" + (" above bare floor" if _is_height(own) else "")
    return OwnBox(own, words, typed.shown(declared, row.value) if row else "")


def actions(own: str, workspace: Workspace) -> tuple[Action, ...]:
    """The buttons of a figure that can be typed over."""
    if _row(own, workspace) is None:
        return (Action(f"own:{own}", "Type my own", "pencil"),)
    return (Action(f"own:{own}", "Type another", "pencil", main=True), Action(f"back:{own}", "Put back (Del)", "undo"))


def type_over(own: str, words: str, workspace: Workspace) -> str:
    """Put words as typed in place of a figure, as one named step; what is wrong with them, or ""."""
    room, _, name = own.partition("/")
    rows: tuple[Typed, ...] = get(workspace.job, f"{room}.{ROWS}")
    place = next((n for n, row in enumerate(rows) if row.figure.strip() == name), len(rows))
    before = rows[place] if place < len(rows) else Typed(figure=name)
    value, problem = typed.taken(describe(Job, f"{room}.{ROWS}.{place}.value"), words, before.value)
    if problem or not isinstance(value, Entry):
        return problem or "Type a figure, or leave the one worked out."
    declared = describe(Job, f"{room}.{ROWS}.{place}.value")
    if declared.least is not None and value.value < declared.least:
        return f"Too small to be true: {declared.least:g} at least."
    after = (*rows[:place], replace(before, value=value), *rows[place + 1 :])
    workspace.edit(f"type {_words(own, workspace)}", put(workspace.job, f"{room}.{ROWS}", after), f"{room}.{ROWS}.{place}.value")
    return ""


def put_back(own: str, workspace: Workspace) -> None:
    """Take the worked-out figure again, as one named step."""
    room, _, name = own.partition("/")
    rows: tuple[Typed, ...] = get(workspace.job, f"{room}.{ROWS}")
    place = next((n for n, row in enumerate(rows) if row.figure.strip() == name), -1)
    if place >= 0:
        workspace.remove(f"{room}.{ROWS}", place, f"put back {_words(own, workspace)}")


def _row(own: str, workspace: Workspace) -> Typed | None:
    room, _, name = own.partition("/")
    rows: tuple[Typed, ...] = get(workspace.job, f"{room}.{ROWS}")
    return next((row for row in rows if row.figure.strip() == name), None)


def _words(own: str, workspace: Workspace) -> str:
    """The figure as it is called on its page."""
    room, name = _room(own, workspace), own.partition("/")[2]
    figure = room.figures.get(name) if room else None
    return figure.label if figure is not None and figure.label else name


def _room(own: str, workspace: Workspace) -> Room | None:
    path = own.partition("/")[0]
    return next((each for each in workspace.estimate.rooms if each.path == path), None) if workspace.estimate else None


def _is_height(own: str) -> bool:
    from tundish.desktop.reasons import OF_HEIGHT

    return any(word in own.rpartition(".")[2].rpartition("/")[2] for word in OF_HEIGHT)
