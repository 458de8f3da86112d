"""How the window looks at this moment: scheme, text size, roomy rows, strong lines; and the colours and fonts that follow."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from PySide6.QtGui import QColor, QFont

from tundish.desktop import tokens

_STRONGER: Final = {"ink2": "ink", "hairline": "edge", "slateText2": "slateText"}


@dataclass(frozen=True, slots=True)
class Look:
    """A choice of looks; `percent` is the text size, `strong` turns pale ink and hairlines up for work in the sun."""

    scheme: str = "light"
    percent: int = 100
    roomy: bool = False
    strong: bool = False

    def hex(self, name: str) -> str:
        """A token's colour as #RRGGBB."""
        return tokens.colours(self.scheme)[_STRONGER.get(name, name) if self.strong else name]

    def px(self, design: float) -> int:
        """A design size at this text size, in whole pixels."""
        return round(design * self.percent / 100)

    @property
    def control(self) -> int:
        """Height of a button or box in pixels."""
        return self.px(44 if self.roomy else 34)

    def row(self, design: int) -> int:
        """Height of a list row whose usual design height is given, in pixels."""
        return self.px(max(design, 44) if self.roomy else design)

    def larger(self, steps: int) -> Look:
        """The same look with the text that many steps larger; it stays within the steps there are."""
        place = tokens.TEXT_STEPS.index(self.percent) + steps
        return replace(self, percent=tokens.TEXT_STEPS[max(0, min(place, len(tokens.TEXT_STEPS) - 1))])


_worn: list[Look] = []


def now() -> Look:
    """The look being worn."""
    return _worn[-1] if _worn else Look()


def wear(look: Look) -> None:
    """Make it the look being worn; `theme.apply` calls this and repaints."""
    _worn[:] = [look]


def colour(name: str) -> QColor:
    """A token's colour in the present look."""
    return _colour(now().hex(name))


def font(role: str) -> QFont:
    """The font of a text role in the present look."""
    return _font(role, now().percent)


@lru_cache(maxsize=128)
def _colour(code: str) -> QColor:
    return QColor(code)


@lru_cache(maxsize=64)
def _font(role: str, percent: int) -> QFont:
    size, weight = tokens.type_size(role)
    made = QFont(tokens.families())
    made.setPixelSize(round(size * percent / 100))
    made.setWeight(QFont.Weight(weight))
    made.setHintingPreference(QFont.HintingPreference.PreferVerticalHinting)
    return made
