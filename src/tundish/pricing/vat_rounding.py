"""How VAT comes to whole pennies: the ways that HMRC allows whoever bills with VAT shown.

Notice 700, 17.5, as the manual gives it (VATREC12010, VATREC12030); that a total by lines may go down as well is from memory.
A trader keeps to one of them. Rounding the total down is for bills with VAT shown to the customer, not for retailers.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import ROUND_DOWN, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from typing import Final

from tundish.catalogue.trader import VAT_ROUNDED
from tundish.pricing.pennies import PENNY, penny


@dataclass(frozen=True, slots=True)
class Rounding:
    """One way. `step`: each line's VAT is first brought to it, `line_down` down or to the nearest; `down`: the total then goes down."""

    words: str
    short: str
    step: Decimal | None = None
    line_down: bool = False
    down: bool = False

    @property
    def by_line(self) -> bool:
        """Whether VAT is worked line by line, so that a bill has a line for each row of the price."""
        return self.step is not None


NEAREST: Final = VAT_ROUNDED[0]
_BY: Final = "HMRC, VAT Notice 700, 17.5; VATREC12010"
_WAYS: Final = (
    Rounding("VAT is on the total at each rate, to the nearest penny, half a penny rounded up (HMRC, VATREC12030).", "rounded half up"),
    Rounding(f"VAT is on the total, rounded down to the penny ({_BY}).", "rounded down", down=True),
    Rounding(f"VAT is worked line by line, each to the nearest penny, half a penny rounded up ({_BY}).", "rounded by the line", PENNY),
    Rounding(
        f"VAT is worked line by line, each to the nearest half penny, and the total rounded down to the penny ({_BY}).",
        "rounded by the line, then down",
        PENNY / 2,
        down=True,
    ),
    Rounding(
        f"VAT is worked line by line, each down to a tenth of a penny, and the total rounded down to the penny ({_BY}).",
        "rounded by the line, then down",
        PENNY / 10,
        line_down=True,
        down=True,
    ),
)
ROUNDINGS: Final[Mapping[str, Rounding]] = dict(zip(VAT_ROUNDED, _WAYS, strict=True))
"""Every way by its name."""


def in_pennies(lines: Iterable[tuple[Decimal, Decimal]], rounding: str) -> dict[Decimal, Decimal]:
    """Per cents and nets of lines as the VAT at each rate in whole pennies.

    What is taken off is rounded as what is charged, so that a bill and its credit note are the same sum. A total that goes down gives up
    less than a penny in all, whatever the number of rates: the pennies that it keeps go to the rates that would lose most.
    """
    how = ROUNDINGS[rounding]
    exact: dict[Decimal, Decimal] = {}
    for percent, net in lines:
        exact[percent] = exact.get(percent, Decimal(0)) + _line(net * percent / 100, how)
    return _down(exact) if how.down else {percent: penny(vat) for percent, vat in exact.items()}


def _line(vat: Decimal, how: Rounding) -> Decimal:
    if how.step is None:
        return vat
    return (vat / how.step).quantize(Decimal(1), ROUND_DOWN if how.line_down else ROUND_HALF_UP) * how.step


def _down(exact: Mapping[Decimal, Decimal]) -> dict[Decimal, Decimal]:
    total = sum(exact.values(), Decimal(0))
    sign = -1 if total < 0 else 1
    whole = {percent: (sign * vat).quantize(PENNY, ROUND_FLOOR) for percent, vat in exact.items()}
    over = ((sign * total).quantize(PENNY, ROUND_FLOOR) - sum(whole.values(), Decimal(0))) / PENNY
    most = sorted(exact, key=lambda percent: (whole[percent] - sign * exact[percent], -percent))
    return {percent: sign * (vat + (PENNY if percent in most[: int(over)] else 0)) for percent, vat in whole.items()}
