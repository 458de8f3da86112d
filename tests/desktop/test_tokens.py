"""The colours can be told apart: every pair used together is worked out again from its hex values."""

from __future__ import annotations

import math

import pytest

from tundish.desktop import tokens

PAIRS = [(pair, scheme) for pair in tokens.contrast_pairs() for scheme in tokens.SCHEMES]


def luminance(code: str) -> float:
    """Relative luminance of #RRGGBB, by WCAG 2.2."""
    parts = [int(code[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_black_on_white_is_the_most_there_is() -> None:
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)


@pytest.mark.parametrize(("pair", "scheme"), PAIRS, ids=[f"{pair['text']} on {pair['on']}, {scheme}" for pair, scheme in PAIRS])
def test_a_pair_used_together_has_the_contrast_it_needs(pair: dict[str, object], scheme: str) -> None:
    colours = tokens.colours(scheme)
    found = contrast(colours[str(pair["text"])], colours[str(pair["on"])])
    assert found >= float(str(pair["need"]))
    assert math.floor(found * 100) / 100 == pytest.approx(float(str(pair[scheme])))


def test_both_schemes_name_the_same_colours() -> None:
    assert tokens.colours("light").keys() == tokens.colours("dark").keys()


def test_no_text_is_smaller_than_a_note() -> None:
    roles = ("figure", "title", "section", "body", "bodyStrong", "table", "tableStrong", "note", "noteStrong", "amount", "price", "drawing")
    assert all(tokens.type_size(role)[0] >= 12 for role in roles)
