"""The trader's own rules: for every so many of something, so much of an item or so many hours. No formulas: units are checked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from tundish import measure
from tundish.catalogue.item import Item
from tundish.field import Problem, choice, flag, records, text

EVERY: Final = (
    "room",
    "job",
    "frame",
    "WC",
    "basin",
    "appliance",
    "pre-wall",
    "metre of strut or studwork",
    "metre of pipe",
    "square metre of board",
    "square metre of tiles",
    "cubic metre of waste",
    "day of work",
    "day of tiling",
)
"""What a rule counts."""
WHEN: Final = (
    "always",
    "steel pre-wall",
    "timber pre-wall",
    "on joists",
    "on a solid floor",
    "on a solid wall",
    "on a stud wall",
    "built before 2000 or not known",
)
HOURS: Final = "hours"
"""What stands in place of an item's code where a rule allows hours."""
_WHEN_WORDS: Final = {
    "steel pre-wall": "with a steel pre-wall",
    "timber pre-wall": "with a timber pre-wall",
    "built before 2000 or not known": "when it was built before 2000 or nobody knows",
}
_STAGES: Final = ("strip out", "first fix", "frames", "boarding", "second fix", "making good")


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnRule:
    """For every `every`, allow `allow` of `item`, only `when`."""

    name: str = text("Called", "As it stands on the materials list, such as: blades wear out.")
    every: str = choice("For every", EVERY)
    allow: str = text("Allow", "A number, with or without a unit that suits the item: 2, 0.5 kg, 3 m.")
    item: str = text("Of", "The code of an item of the catalogue, or hours.")
    rounded: bool = flag("Rounded up to whole ones", default=True)
    when: str = choice("Only when", WHEN)
    stage: str = choice("Needed for", _STAGES, default="frames")


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnRules:
    """All of them, as they are kept, brought in and given away."""

    rules: tuple[OwnRule, ...] = records("Own rules", OwnRule)


def sentence(rule: OwnRule, items: Mapping[str, Item]) -> str:
    """The rule as it is read: "For every frame allow 0.5 kg of Rapid cement, rounded up, only on joists."; in the unit of the item."""
    item = items.get(rule.item.strip())
    of = "work" if rule.item.strip() == HOURS else item.name if item else rule.item.strip() or "nothing yet"
    value, unit = allowed(rule, items), unit_of(rule, items)
    amount = rule.allow.strip() or "nothing" if value is None else measure.show_number(value, None)
    amount = f"{amount} {unit} of {of}" if value is not None and unit != "each" else f"{amount} of {of}"
    only = "" if rule.when == WHEN[0] else f", only {_WHEN_WORDS.get(rule.when, rule.when)}"
    return f"For every {rule.every} allow {amount}{', rounded up' if rule.rounded else ''}{only}."


def allowed(rule: OwnRule, items: Mapping[str, Item]) -> float | None:
    """How much it allows for each, in the unit of the item or in hours; None where that cannot be read."""
    return measure.read_number(rule.allow, unit_of(rule, items)).value


def unit_of(rule: OwnRule, items: Mapping[str, Item]) -> str:
    """The unit of what it allows."""
    item = items.get(rule.item.strip())
    return "h" if rule.item.strip() == HOURS or item is None else item.unit


def problems_of(rules: Sequence[OwnRule], items: Mapping[str, Item], sheets: frozenset[str]) -> Iterator[Problem]:
    """What is wrong with each rule, in words that mend it; such a rule allows nothing. `sheets`: items that are cut from sheets."""
    for place, rule in enumerate(rules):
        path, called = f"own_rules.{place}", rule.name.strip() or f"Own rule {place + 1}"
        code = rule.item.strip()
        if code != HOURS and code not in items:
            yield Problem(f"{path}.item", f"{called}: there is no item {code or 'named'}; choose one of the catalogue, or hours")
        elif code in sheets:
            yield Problem(f"{path}.item", f"{called}: {items[code].name} is counted by what is cut from it, so no rule can allow it")
        else:
            read = measure.read_number(rule.allow, unit_of(rule, items))
            if read.value is None or read.value < 0:
                words = read.problem or "type how much"
                yield Problem(f"{path}.allow", f"{called}: {words}")
