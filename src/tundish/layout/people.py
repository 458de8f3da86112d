"""How high those who use a room want what hangs in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from tundish import measure
from tundish.catalogue.book import Book
from tundish.figure import Figure, Known
from tundish.layout.design import User


@dataclass(frozen=True, slots=True)
class Advised:
    """What is advised above the finished floor: of a WC or bidet its seat. `agree`: one height suits all who use it.

    Where none does, `least` to `most` lies between what the smallest and what the tallest of them want.
    """

    least: float
    most: float
    names: str
    source: str
    agree: bool

    @property
    def words(self) -> str:
        """For paper: "780 to 800 for Nan"."""
        between = "" if self.agree else "nothing suits all; between them "
        shown = measure.show_range(self.least, self.most) if self.least != self.most else measure.show_length(self.least)
        return f"{between}{shown} for {self.names}"

    def figure(self, label: str) -> Figure:
        """The middle of it as an assumed height, open over all of it."""
        middle = round((self.least + self.most) / 2)
        note = f"advised {self.words}; {self.source}"
        return Figure(middle, self.least, self.most, "mm", label, Known.ASSUMED, tbc=True, note=note)


def advised(kind: str, users: Sequence[User], book: Book) -> Advised | None:
    """What is advised for a kind of appliance, or None where nobody who uses the room has a height for it in the rule book."""
    of = {"bidet": "wc"}.get(kind, kind)
    found = []
    for place, user in enumerate(users, 1):
        key = f"people.{of}_{user.person.replace(' ', '_').replace('-', '_')}"
        if f"{key}_least" in book.figures:
            name = user.name.strip() or f"user {place}, {user.person}"
            found.append((book.figure(f"{key}_least"), book.figure(f"{key}_most"), name))
    if not found:
        return None
    least, most = max(one.value for one, _, _ in found), min(other.value for _, other, _ in found)
    names = ", ".join(name for _, _, name in found)
    sources = "; ".join(dict.fromkeys(one.note for one, _, _ in found))
    return Advised(min(least, most), max(least, most), names, sources, least <= most)


def suggested(kind: str, users: Sequence[User], book: Book, path: str) -> Figure | None:
    """The height suggested for a top that nobody has given."""
    found = advised(kind, users, book)
    return None if found is None else replace(found.figure("Height for those who use it"), path=path)
