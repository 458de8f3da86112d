"""What is let into the front of a pre-wall: niches and access openings, as they are seen and as the frame is opened for them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.figure import Figure, number
from tundish.layout.depths import Covering
from tundish.layout.design import Hatch, Niche
from tundish.layout.inputs import Inputs
from tundish.layout.makers import size
from tundish.layout.standing import Standing

HATCH_SIDE: Final = 300.0
"""How large an access opening is taken to be that has no hatch of a known size, mm."""


@dataclass(frozen=True, slots=True)
class Recess:
    """A niche or an access opening. `left`, `bottom` are its lower left corner as it is seen, z from the bare floor.

    `round`: how much wider than that the frame is opened on every side, for boards and tiles of a niche's reveals. `depth` of a niche is
    as it is tiled, and as far as it goes behind the frame front. `hatch` is what closes an access opening, where one is chosen.
    """

    key: str
    path: str
    name: str
    kind: Literal["niche", "hatch"]
    left: Figure
    bottom: Figure
    width: Figure
    height: Figure
    round: Figure
    depth: Figure | None = None
    hatch: Item | None = None
    reaches: str = ""

    @property
    def open_left(self) -> Figure:
        """Left edge of the opening in the frame and the board."""
        return (self.left - self.round).named(f"Opening of {self.name}, left")

    @property
    def open_right(self) -> Figure:
        """Its right edge."""
        return (self.left + self.width + self.round).named(f"Opening of {self.name}, right")

    @property
    def open_foot(self) -> Figure:
        """Its lower edge."""
        return (self.bottom - self.round).named(f"Opening of {self.name}, foot")

    @property
    def open_head(self) -> Figure:
        """Its upper edge."""
        return (self.bottom + self.height + self.round).named(f"Opening of {self.name}, head")

    @property
    def open_width(self) -> Figure:
        """How wide frame and board are opened."""
        return (self.width + self.round + self.round).named(f"Opening of {self.name}, width")

    @property
    def open_height(self) -> Figure:
        """How high they are opened."""
        return (self.height + self.round + self.round).named(f"Opening of {self.name}, height")

    def between(self, low: float, high: float) -> bool:
        """Whether its opening takes any of a stretch along the wall."""
        return self.open_left.value < high and low < self.open_right.value


def niche_key(place: int) -> str:
    """The key of a niche by its place in the list."""
    return f"niche-{place + 1}"


def hatch_key(place: int) -> str:
    """The key of an access opening by its place in the list."""
    return f"hatch-{place + 1}"


def niche_name(niche: Niche, place: int) -> str:
    """What a niche is called."""
    return niche.name.strip() or f"Niche {place + 1}"


def hatch_name(hatch: Hatch, place: int) -> str:
    """What an access opening is called."""
    return hatch.name.strip() or f"Access opening {place + 1}"


def recesses_of(standing: Standing, finished_floor: Figure, covering: Covering, book: Book, inputs: Inputs) -> tuple[Recess, ...]:
    """Niches and access openings of a pre-wall, in the order in which they were put in."""
    return (*_niches(standing, finished_floor, covering, inputs), *_hatches(standing, finished_floor, book, inputs))


def _niches(standing: Standing, floor: Figure, covering: Covering, inputs: Inputs) -> Iterator[Recess]:
    for place, niche in enumerate(standing.prewall.niches):
        at, name = f"{standing.at}.niches.{place}", niche_name(niche, place)
        left, bottom, width, height, depth = (
            inputs.sure(niche, each, at).named(f"{name}, {words}")
            for each, words in (
                ("from_left", "left edge"),
                ("bottom", "bottom above finished floor"),
                ("width", "width"),
                ("height", "height"),
                ("depth", "depth"),
            )
        )
        low = (floor + bottom).named(f"{name}, bottom")
        yield Recess(niche_key(place), f"{inputs.path}.{at}", name, "niche", left, low, width, height, covering.thickness, depth)


def _hatches(standing: Standing, floor: Figure, book: Book, inputs: Inputs) -> Iterator[Recess]:
    for place, hatch in enumerate(standing.prewall.hatches):
        at, name = f"{standing.at}.hatches.{place}", hatch_name(hatch, place)
        item = inputs.item(book, hatch.item, ("access hatch",), f"{at}.item")
        if item is not None and not inputs.complete(item, ("width", "height"), f"{at}.item"):
            item = None
        usual = number(HATCH_SIDE, label="Hatch not chosen yet")
        wide, high = (size(item, each, f"{item.name}, {each}") if item else usual for each in ("width", "height"))
        left, low = inputs.sure(hatch, "from_left", at).named(f"{name}, left edge"), inputs.sure(hatch, "bottom", at)
        nought = number(0, label="Nothing round it")
        low = (floor + low).named(f"{name}, bottom")
        path = f"{inputs.path}.{at}"
        yield Recess(hatch_key(place), path, name, "hatch", left, low, wide, high, nought, None, item, hatch.reaches.strip())
