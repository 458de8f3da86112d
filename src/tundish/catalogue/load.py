"""The reference book from the files a person keeps: the catalogue's tables and the figures of the rules.

A folder holds `catalogue` and `rulebook`; docs/catalogue.md says what is in each file. Nothing is half loaded: a book comes back
whole, or not at all with everything that is wrong.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from tundish.catalogue.book import Book, RuleFigure
from tundish.catalogue.check import check
from tundish.catalogue.figures import read_figures
from tundish.catalogue.item import KitPart, Offer
from tundish.catalogue.kind import Kind, kinds_from
from tundish.catalogue.records import Parts, read_parts
from tundish.catalogue.table import read_groups
from tundish.errors import TundishError
from tundish.field import Problem
from tundish.resources import resource


class BadCatalogueError(TundishError):
    """The catalogue that came with the program cannot be used: the installation is damaged."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        told = "; ".join(f"{each.path}: {each.text}" for each in problems[:5])
        super().__init__(f"the supplied catalogue cannot be used: {told}")


def load_catalogue(folder: Path) -> tuple[Book | None, tuple[Problem, ...]]:
    """The book that a folder's `catalogue` and `rulebook` give, or None; and every problem, by file and row.

    The book's date is the latest `valid_from` of its prices and figures.
    """
    problems: list[Problem] = []
    parts = read_parts(folder / "catalogue", problems)
    figures = read_figures(folder / "rulebook", problems)
    problems += check(parts)
    return (None if problems else _book(parts, figures)), tuple(problems)


@cache
def supplied_book() -> Book:
    """The book that came with the program, read once."""
    book, problems = load_catalogue(resource())
    if book is None:
        raise BadCatalogueError(problems)
    return book


@cache
def supplied_kinds() -> Mapping[str, Kind]:
    """The kinds of things there are."""
    return kinds_from(read_groups(resource("catalogue") / "kinds.toml", []), "kinds.toml", [])


@cache
def supplied_systems() -> Mapping[str, Any]:
    """The jointing systems: for each nominal size the real outside diameter."""
    return read_groups(resource("catalogue") / "systems.toml", [])


def _book(parts: Parts, figures: dict[str, RuleFigure]) -> Book:
    kits: dict[str, tuple[KitPart, ...]] = {}
    for _, (kit, part) in parts.kits:
        kits[kit] = (*kits.get(kit, ()), part)
    offers: dict[str, tuple[Offer, ...]] = {}
    for _, offer in parts.offers:
        offers[offer.item] = (*offers.get(offer.item, ()), offer)
    days = [offer.valid_from for _, offer in parts.offers] + [figure.valid_from for figure in figures.values()]
    return Book(
        items={item.code: item for _, item in parts.items},
        roles={role: item for _, (role, item) in parts.roles},
        kits=kits,
        suppliers={supplier.key: supplier for _, supplier in parts.suppliers},
        offers=offers,
        figures=figures,
        stock={item: amount for _, (item, amount) in parts.stock},
        rack=tuple(piece for _, piece in parts.rack),
        date=max(days, default=""),
    )
