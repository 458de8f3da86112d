"""The figures of the rules, read from the rule book's files: one file a family, one group a figure."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Final

from tundish.catalogue.book import RuleFigure
from tundish.catalogue.table import Row, day, read_groups, words
from tundish.field import Problem

UNITS: Final = frozenset(
    {"", "each", "%", "mm", "m", "mm/m", "m²", "m³", "m³/m²", "m³/each", "l", "l/s", "ml/m", "ml/m²", "each/m²", "N/mm²"}
) | {
    *("kN", "kg", "kg/m²", "kg/m³", "kg/m²·mm", "h", "h/each", "h/m", "h/m²", "day", "h/day", "m²/day", "bar", "min"),
}
"""What a figure may be in; kg/m²·mm is kilograms for a square metre one millimetre thick."""


def read_figures(folder: Path, problems: list[Problem]) -> dict[str, RuleFigure]:
    """Every figure by its key, family and name with a dot between, such as "drainage.wc_fall_least"."""
    found: dict[str, RuleFigure] = {}
    paths = sorted(folder.glob("*.toml"))
    if not paths:
        problems.append(Problem("rulebook", "is missing: the folder beside the catalogue with one TOML file for each family of rules"))
    for path in paths:
        groups = read_groups(path, problems)
        since = groups.pop("valid_from", "")
        for name, group in groups.items():
            figure = _figure(f"{path.stem}.{name}", group, since, problems)
            found[figure.key] = figure
    return found


_KEYS: Final = ("value", "unit", "label", "source", "valid_from")


def _figure(key: str, group: Any, since: object, problems: list[Problem]) -> RuleFigure:
    place = f"{key.partition('.')[0]}.toml [{key.partition('.')[2]}]"
    said = group if isinstance(group, dict) else {}
    problems += [Problem(place, f"{name} is not known here") for name in said if name not in _KEYS]
    value, unit = said.get("value"), said.get("unit")
    if isinstance(value, bool) or not isinstance(value, int | float) or not abs(value) < _MOST:
        problems.append(Problem(place, f"value: {value} is not a number"))
        value = 0
    if unit not in UNITS:
        problems.append(Problem(place, f'unit: "{unit}" is not one of: {", ".join(sorted(UNITS - {""}))}, or "" for none'))
    row = Row(place, {name: str(one) for name, one in ({"valid_from": since} | said).items()})
    label, source = words(row, "label", problems), words(row, "source", problems)
    return RuleFigure(key, float(value), str(unit), label, source, day(row, "valid_from", problems), supplied=float(value))


_MOST: Final = 1e9
