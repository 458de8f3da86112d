"""Finding anything of the open job by its words: inputs, figures, lines of the materials list, rules."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Final

from tundish import measure, typed
from tundish.desktop.workspace import Workspace
from tundish.field import Field, NoSuchInputError, get, walk
from tundish.figure import Figure
from tundish.rules.book import RULES

MOST: Final = 60
HIDDEN: Final = ("settled.", "demo", "kept", "agreed.", "variations.", "after.", "own_rows.", "begun.")


@dataclass(frozen=True, slots=True)
class Found:
    """Something found: its id (`input:PATH`, `figure:ROOM:KEY`, `line:ITEM`, `rule:KEY`), its words, its value, and where it is."""

    id: str
    words: str
    value: str
    where: str


def find(workspace: Workspace, wanted: str) -> tuple[Found, ...]:
    """What holds every one of the words, in the order of the pages; at most sixty."""
    words = wanted.lower().split()
    if not words:
        return ()
    return tuple(islice((each for each in _everything(workspace) if _holds(each, words)), MOST))


def _holds(found: Found, words: list[str]) -> bool:
    text = f"{found.words} {found.value} {found.where}".lower()
    return all(word in text for word in words)


def _everything(workspace: Workspace) -> Iterator[Found]:
    yield from _inputs(workspace)
    yield from _figures(workspace)
    yield from _lines(workspace)
    for rule in RULES:
        yield Found(f"rule:{rule.key}", rule.sentence, "", "Rule")


def _inputs(workspace: Workspace) -> Iterator[Found]:
    if workspace.session is None:
        return
    for path, declared, value in walk(workspace.job):
        if not path.startswith(HIDDEN) and ".undecided." not in path:
            page = "Pricing" if path.startswith("terms.") else "Survey"
            place = _place(workspace, path)
            yield Found(f"input:{path}", f"{declared.label}{f', {place}' if place else ''}", _value(workspace, declared, value), page)


def _place(workspace: Workspace, path: str) -> str:
    """The room and the record an input is of, in words."""
    parts = path.split(".")
    if parts[0] != "rooms":
        return ""
    words = [workspace.job.rooms[int(parts[1])].name]
    for end in range(3, len(parts)):
        if parts[end].isdecimal():
            try:
                record = get(workspace.job, ".".join(parts[: end + 1]))
            except NoSuchInputError:
                continue
            words.append(getattr(record, "name", "") or getattr(record, "what", "") or getattr(record, "kind", ""))
    return ", ".join(word for word in reversed(words) if word)


def _value(workspace: Workspace, declared: Field, value: object) -> str:
    if declared.kind == "item":
        item = workspace.book.items.get(str(value))
        return item.name if item else ""
    words = typed.shown(declared, value)
    return f"{words} {declared.unit}".strip() if words and declared.unit not in {"each", "£"} else words


def _figures(workspace: Workspace) -> Iterator[Found]:
    for place, room in enumerate(workspace.estimate.rooms if workspace.estimate else ()):
        for key, figure in room.figures.items():
            if figure.label and not figure.path:
                yield Found(f"figure:{place}:{key}", f"{figure.label}, {workspace.job.rooms[place].name}", _amount(figure), "Setting out")


def _lines(workspace: Workspace) -> Iterator[Found]:
    for line in workspace.estimate.lines if workspace.estimate else ():
        yield Found(f"line:{line.item.code}", line.item.name, _amount(line.amount), "Materials")


def _amount(figure: Figure) -> str:
    return measure.show_amount(figure.value, figure.unit, with_unit=True)
