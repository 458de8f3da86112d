"""What can be bought: items with their makers' sizes and typed ends, what kits hold, and who sells them at what price."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from decimal import ROUND_HALF_UP, Decimal
from typing import Final, Literal

from tundish.errors import TundishError
from tundish.figure import Figure, Known

Unit = Literal["each", "mm", "m", "m²", "kg", "ml", "day", "visit"]
"""What an item is counted in. Bars (strut, timber, pipe, trim, tape) are in mm, sheets each."""
WHOLE: Final = frozenset({"each", "day", "visit"})
"""The units of what is only ever had whole."""


@dataclass(frozen=True, slots=True)
class End:
    """One open end of a part. `diameter` is the real outside diameter in mm of the pipe it takes or is; threads name their size.

    `system`: push-fit, solvent, compression, soil, copper, thread, pan, seal… `gender`: male goes into female.
    """

    system: str
    nominal: str
    diameter: float
    gender: Literal["male", "female"]
    standard: str = ""


@dataclass(frozen=True, slots=True)
class Item:
    """One thing that can be bought. `sizes` are the maker's, by name, with their units (see kinds.toml for what a kind must say)."""

    code: str
    name: str
    kind: str
    group: str
    unit: Unit
    sizes: Mapping[str, tuple[float, str]]
    ends: tuple[End, ...] = ()
    words: Mapping[str, str] = field(default_factory=dict)
    sheet: str = ""
    own: Mapping[str, Figure] = field(default_factory=dict)
    """The sizes of ware that was typed in for one job, each as it is known; empty for what the catalogue holds."""

    def size(self, name: str) -> Figure:
        """A size from the maker's sheet, as a figure."""
        if name not in self.sizes:
            raise NoSuchSizeError(self.code, name)
        value, unit = self.sizes[name]
        label = f"{self.name}, {name.replace('_', ' ')}"
        if name in self.own:
            return self.own[name].named(label, self.sheet)
        return Figure(value, value, value, unit, label, Known.MAKER, note=self.sheet)

    def bare(self, name: str) -> float:
        """A size as a number alone, in its own unit, for geometry's insides."""
        if name not in self.sizes:
            raise NoSuchSizeError(self.code, name)
        return self.sizes[name][0]

    def has(self, name: str) -> bool:
        """Whether the maker's sheet gives this size."""
        return name in self.sizes


@dataclass(frozen=True, slots=True)
class KitPart:
    """So many of an item inside a kit, in the item's own unit."""

    item: str
    amount: float


@dataclass(frozen=True, slots=True)
class Supplier:
    """Who sells. Carriage is charged unless the order reaches `free_above`."""

    key: str
    name: str
    phone: str
    address: str
    account: str
    carriage: Decimal
    free_above: Decimal
    lead_days: int


@dataclass(frozen=True, slots=True)
class Offer:
    """One supplier's price, without VAT, for one pack. `pack` is in the item's unit; bars and sheets are offered by the piece.

    For a bar `length` is its length and `pack` the same; where `pack` is less, the supplier cuts to any length up to `length`, at the
    price of every `pack` of it. For a sheet `length` and `width` are its sizes. `valid_from` and `valid_to` are ISO dates. `least` packs
    must be taken; `breaks` are the numbers of packs from which each pack costs less. `lead_days` None is the supplier's usual.
    """

    item: str
    supplier: str
    code: str
    pack: float
    price: Decimal
    valid_from: str
    length: float = 0.0
    width: float = 0.0
    least: int = 1
    breaks: tuple[tuple[int, Decimal], ...] = ()
    valid_to: str = ""
    lead_days: int | None = None

    def each(self, packs: int) -> Decimal:
        """What each pack costs when so many are taken."""
        return max((step for step in self.breaks if packs >= step[0]), default=(0, self.price))[1] if self.breaks else self.price

    def valid(self, day: str) -> bool:
        """Whether the price holds on an ISO day; on no day ("") it always does."""
        return not day or (self.valid_from <= day and (not self.valid_to or day <= self.valid_to))

    @property
    def holds(self) -> float:
        """How much of the item one pack, bar or sheet gives, in the item's unit."""
        return self.length * self.width / 1e6 if self.width else self.pack

    @property
    def cut_to_length(self) -> bool:
        """Whether the supplier cuts a bar to any length up to `length`, charged by its length."""
        return not self.width and 0 < self.pack < self.length

    def cut_at(self, length: float) -> Offer:
        """The offer of one bar of a length that the supplier cuts it to: no less than `least` packs are charged."""
        charged = max(Decimal(str(length)) / Decimal(str(self.pack)), Decimal(self.least))
        price = (self.each(int(charged)) * charged).quantize(Decimal("0.01"), ROUND_HALF_UP)
        return replace(self, pack=length, length=length, price=price, least=1, breaks=())

    @property
    def key(self) -> str:
        """What it is known by among favourites and what is never bought."""
        return f"{self.supplier}/{self.code}"


@dataclass(frozen=True, slots=True)
class RackPiece:
    """An offcut that is kept: usable length (and width for a sheet), where it lies, and the number of the job it is kept for."""

    key: str
    item: str
    length: float
    width: float = 0.0
    place: str = "van"
    job: str = ""


class NotHeldError(TundishError):
    """Catalogue or rule book do not hold what they were asked for."""


class NoSuchSizeError(NotHeldError):
    """A size was asked for that the kind does not declare: a fault of the program or its catalogue."""

    def __init__(self, code: str, name: str) -> None:
        super().__init__(f"the catalogue gives no {name.replace('_', ' ')} for {code}")
