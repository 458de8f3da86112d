"""The design's tokens (colours, type, sizes), read once from `resources/ui/tokens.json`."""

from __future__ import annotations

import json
from functools import cache
from typing import Any, Final, cast

from tundish.resources import resource

SCHEMES: Final = ("light", "dark")
TEXT_STEPS: Final = (100, 115, 130, 150)
"""Text sizes offered, per cent."""


@cache
def colours(scheme: str) -> dict[str, str]:
    """The colours of a scheme, "light" or "dark", by name, as #RRGGBB."""
    return cast("dict[str, str]", _tokens()["colour"][scheme])


@cache
def type_size(role: str) -> tuple[int, int]:
    """Size in pixels at 100 % and weight of a text role: figure, title, section, body, bodyStrong, table, note, drawing."""
    size = _tokens()["type"]["scale"][role]
    return size["px"], size["weight"]


def families() -> list[str]:
    """The type family and what stands in for it, first choice first."""
    named = _tokens()["type"]
    return [named["family"], *named["fallback"]]


@cache
def region(name: str) -> Any:
    """A design size of the window's regions, in pixels at 100 %: jobLine_h, run_w, whereFrom_w, tally_h, pageHead_h."""
    return _tokens()["regions"][name]


def contrast_pairs() -> list[dict[str, Any]]:
    """Every pair of colours used together: text, on, need and the ratios said for light and dark."""
    return cast("list[dict[str, Any]]", _tokens()["contrast"])


@cache
def _tokens() -> dict[str, Any]:
    text = resource("ui", "tokens.json").read_text(encoding="utf-8")
    return cast("dict[str, Any]", json.loads(text))
