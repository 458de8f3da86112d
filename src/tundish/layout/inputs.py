"""A room's inputs as the layout reads them: nothing that was typed stops the working. What cannot be used is told and bounded."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any, cast

from tundish import measure
from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.field import Field, NoSuchInputError, Problem, fields_of, read
from tundish.figure import Figure, Known
from tundish.layout.design import Typed


class Inputs:
    """Reads the inputs of one room and remembers what was wrong with them. `where` is a place within the room."""

    def __init__(self, path: str, typed: Sequence[Typed] = ()) -> None:
        self.path = path
        self._typed = {each.figure.strip(): (place, each) for place, each in enumerate(typed)}
        self._problems: list[Problem] = []

    @property
    def problems(self) -> tuple[Problem, ...]:
        """What was wrong so far, in the order in which it was met."""
        return tuple(self._problems)

    def parted(self) -> Inputs:
        """Another reader of the same room that starts with the problems met so far."""
        other = Inputs(self.path)
        other._typed = self._typed
        other._problems = list(self._problems)
        return other

    def tell(self, where: str, text: str) -> None:
        """Remember a problem, once however often it is met."""
        problem = Problem(f"{self.path}.{where}", text)
        if problem not in self._problems:
            self._problems.append(problem)

    def settled(self, name: str, figure: Figure) -> Figure:
        """The figure worked out, or what the trader typed over it; the note then says what was worked out and why it was not taken."""
        if name not in self._typed:
            return figure
        place, row = self._typed[name]
        where = f"design.typed.{place}"
        if row.value is None:
            self.tell(f"{where}.value", f"{name} is to be typed over, but no value is given: type it, or take the row out")
            return figure
        found = self.sure(row, "value", where)
        why = f": {row.why.strip()}" if row.why.strip() else ""
        note = f"worked out {measure.show_length(figure.value)}, typed {measure.show_length(found.value)}{why}"
        return replace(found, label=figure.label, known=Known.TYPED, note=note)

    def number(self, record: object, name: str, where: str) -> Figure | None:
        """An input within its declared limits; None while it is blank and has no usual size."""
        found = read(record, name, f"{self.path}.{where}")
        if found is None:
            return None
        declared = fields_of(type(record))[name]
        least = -math.inf if declared.least is None else declared.least
        most = math.inf if declared.most is None else declared.most
        if not all(map(math.isfinite, (found.value, found.low, found.high))):
            self.tell(f"{where}.{name}", f"{declared.label}: this is not a number that can be measured; type it again")
            return read(replace(cast("Any", record), **{name: None}), name, f"{self.path}.{where}")
        if found.low < least or found.high > most:
            return self._bounded(found, declared, f"{where}.{name}", (least, most))
        return self._whole(found, declared, f"{where}.{name}") if declared.whole else found

    def sure(self, record: object, name: str, where: str) -> Figure:
        """As `number`, for an input that declares a usual size and so is never missing."""
        found = self.number(record, name, where)
        if found is None:
            raise NoSuchInputError(f"{self.path}.{where}.{name}")
        return found

    def item(self, book: Book, code: str, kinds: tuple[str, ...], where: str) -> Item | None:
        """The item chosen at a place, or None, told, where there is none of these kinds."""
        wanted = " or ".join(kinds)
        found = book.items.get(code)
        if not code:
            self.tell(where, f"No {wanted} is chosen: choose one")
        elif found is None:
            self.tell(where, f"The catalogue does not hold '{code}': choose another {wanted}")
        elif found.kind not in kinds:
            self.tell(where, f"{found.name} is not a {wanted}: choose one")
        else:
            return found
        return None

    def complete(self, item: Item, sizes: tuple[str, ...], where: str) -> bool:
        """Whether the maker's sheet gives all these sizes; told where it does not."""
        missing = [name.replace("_", " ") for name in sizes if not item.has(name)]
        if missing:
            self.tell(where, f"The catalogue gives no {', '.join(missing)} for {item.name}: add them from the sheet")
        return not missing

    def _bounded(self, found: Figure, declared: Field, where: str, limits: tuple[float, float]) -> Figure:
        least, most = limits
        under = found.low < least
        limit = least if under else most
        words = "under the least" if under else "over the most"
        wrong = found.low if under else found.high
        self.tell(where, f"{declared.label}: {_shown(wrong)} is {words}, {_shown(limit)}; {_shown(limit)} is used until it is put right")
        value, low, high = (min(max(each, least), most) for each in (found.value, found.low, found.high))
        return replace(found, value=value, low=low, high=high, tbc=True)

    def _whole(self, found: Figure, declared: Field, where: str) -> Figure:
        value = float(math.ceil(found.value))
        if value == found.value:
            return found
        self.tell(where, f"{declared.label}: {found.value:g} should be a whole number; {value:g} is used until it is put right")
        return replace(found, value=value, low=value, high=value, tbc=True)


def _shown(value: float) -> str:
    return measure.show_number(value, None) if abs(value) < _LONG else f"{value:g}"


_LONG = 1e12
