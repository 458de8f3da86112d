"""Wastes and supplies whose heights the ware's own sheet gives below its top."""

from __future__ import annotations

from tundish.figure import Figure
from tundish.layout.appliances.kind import Hung, below
from tundish.layout.makers import half


def waste_and_supply(hung: Hung, shared: dict[str, Figure], top: str, supply: str) -> dict[str, Figure]:
    """The height of the waste and of the supplies."""
    return {
        "waste": below(shared["top"], hung.ware, "top_to_waste", (top, "waste")).named(f"Waste, {hung.name}"),
        "supply": below(shared["top"], hung.ware, "top_to_supply", (top, "supply")).named(f"{supply}, {hung.name}"),
    }


def hot_and_cold(hung: Hung, shared: dict[str, Figure], top: str) -> dict[str, Figure]:
    """As above, with hot to the left of the centre and cold to the right."""
    aside = half(hung.ware, "supply_spacing", "Half way between hot and cold")
    return waste_and_supply(hung, shared, top, "Hot and cold") | {
        "hot_from_left": (hung.centre - aside).named(f"Hot from left wall, {hung.name}"),
        "cold_from_left": (hung.centre + aside).named(f"Cold from left wall, {hung.name}"),
    }


def level_supplies(hung: Hung, shared: dict[str, Figure]) -> dict[str, Figure]:
    """Hot to the left and cold to the right of what is in the wall itself, at its own height."""
    aside = half(hung.ware, "supply_spacing", "Half way between hot and cold")
    return {
        "supply": shared["top"].named(f"Hot and cold, {hung.name}"),
        "hot_from_left": (hung.centre - aside).named(f"Hot from left wall, {hung.name}"),
        "cold_from_left": (hung.centre + aside).named(f"Cold from left wall, {hung.name}"),
    }
