"""What kinds of things there are, and what the row of each must say: kinds.toml read and checked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final, Literal, cast, get_args

from tundish.catalogue.item import Unit
from tundish.field import Problem

Sold = Literal["pack", "bar", "sheet"]
SIZE_UNITS: Final = frozenset({"mm", "h", "kg", "kg/m", "kg/m²", "each", "l", "l/min", "l/s", "kN", "kN·m", "kN·m²", "m³", "°"})


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind: its heading, what it is counted in, and the sizes (name to unit), words and ends that its rows must give."""

    name: str
    group: str
    unit: Unit
    sold: Sold
    sizes: Mapping[str, str]
    may: Mapping[str, str]
    signed: tuple[str, ...]
    words: tuple[str, ...]
    ends: int

    @property
    def columns(self) -> tuple[str, ...]:
        """Every column that a row of this kind may fill."""
        return (*self.sizes, *self.may, *self.words)


def kinds_from(groups: Mapping[str, Any], place: str, problems: list[Problem]) -> dict[str, Kind]:
    """The kinds of a file by name; `like` takes over what a kind above it says."""
    said: dict[str, dict[str, Any]] = {}
    for name, group in groups.items():
        if not isinstance(group, dict):
            problems.append(Problem(place, f"{name} should be a group of its own, in square brackets"))
            continue
        like = group.get("like")
        if like is not None and like not in said:
            problems.append(Problem(place, f"{name} is like {like}, which is not above it"))
        above = said.get(str(like), {})
        said[name] = {**above, **group, "sizes": {**above.get("sizes", {}), **group.get("sizes", {})}}
    return {name: _kind(name, group, place, problems) for name, group in said.items()}


_KEYS: Final = frozenset({"like", "group", "unit", "sold", "sizes", "may", "signed", "words", "ends"})
_COUNTED: Final[Mapping[str, str]] = {"bar": "mm", "sheet": "each"}


def _kind(name: str, group: Mapping[str, Any], place: str, problems: list[Problem]) -> Kind:
    sold, unit = group.get("sold", "pack"), group.get("unit")
    faults = [f"{key} is not known here" for key in group if key not in _KEYS]
    if not group.get("group"):
        faults.append("group is blank")
    if unit not in get_args(Unit):
        faults.append(f"unit: {unit} is not one of: {', '.join(get_args(Unit))}")
    if sold not in get_args(Sold):
        faults.append(f"sold: {sold} is not one of: {', '.join(get_args(Sold))}")
    elif unit != _COUNTED.get(sold, unit):
        faults.append(f"is sold by the {sold} and so must be counted in {_COUNTED[sold]}")
    sizes, may = group["sizes"], group.get("may", {})
    for size, of in (*sizes.items(), *may.items()):
        if of not in SIZE_UNITS:
            faults.append(f"{size}: {of} is not one of: {', '.join(sorted(SIZE_UNITS))}")
    faults += [f"signed: {size} is not one of its sizes" for size in group.get("signed", []) if size not in sizes]
    problems += [Problem(place, f"{name}: {fault}") for fault in faults]
    signed, words = tuple(group.get("signed", ())), tuple(group.get("words", ()))
    return Kind(name, group.get("group", ""), cast("Unit", unit), sold, sizes, may, signed, words, group.get("ends", 0))
