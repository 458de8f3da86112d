"""The trader's own rules as a file: given away and brought in whole or not at all."""

from __future__ import annotations

import json

from tundish.catalogue.own_rules import OwnRule, OwnRules
from tundish.errors import TundishError
from tundish.plain import from_plain, to_plain

FORMAT = "tundish own rules"
MOST_BYTES = 1_000_000


class CannotReadRulesError(TundishError):
    """A file of own rules cannot be used: which and why."""

    def __init__(self, name: str, why: str) -> None:
        super().__init__(f"{name} cannot be brought in: {why}. Nothing was changed.")


def own_rules_bytes(rules: tuple[OwnRule, ...]) -> bytes:
    """The file that holds these rules: JSON in UTF-8."""
    return (json.dumps({"format": FORMAT, "version": 1, **to_plain(OwnRules(rules=rules))}, ensure_ascii=False, indent=1) + "\n").encode()


def own_rules_of(data: bytes, name: str) -> tuple[OwnRule, ...]:
    """The rules that a file holds. Raises CannotReadRulesError."""
    if len(data) > MOST_BYTES:
        raise CannotReadRulesError(name, "it is larger than a file of rules can be")
    try:
        plain = json.loads(data.decode("utf-8-sig"))
    except (UnicodeDecodeError, json.JSONDecodeError, RecursionError) as fault:
        raise CannotReadRulesError(name, "it is not such a file, or was cut short") from fault
    if not isinstance(plain, dict) or plain.pop("format", None) != FORMAT:
        raise CannotReadRulesError(name, "it holds no rules")
    if plain.pop("version", None) != 1:
        raise CannotReadRulesError(name, "it is of a version that this program does not know")
    read, problems, unknown = from_plain(OwnRules, plain)
    if read is None or unknown:
        why = f"{problems[0].path}: {problems[0].text}" if problems else f"{next(iter(unknown))} is not known"
        raise CannotReadRulesError(name, why)
    return read.rules
