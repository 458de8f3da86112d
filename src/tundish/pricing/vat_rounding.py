"""How VAT comes to whole pennies: ways that HMRC allows whoever bills with VAT shown (Notice 700, 17.5; VATREC12010, VATREC12030).

A trader keeps to one of them. Rounding the total down is for bills with VAT shown to the customer, not for retailers. Lines may also go
to half a penny or down to a tenth: that is not offered, because their total is rounded again, and bills would not add up to the price.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import ROUND_FLOOR, Decimal
from typing import Final

from tundish.catalogue.trader import VAT_ROUNDED
from tundish.pricing.pennies import PENNY, penny


@dataclass(frozen=True, slots=True)
class Rounding:
    """One way, in full and in few words. `by_line`: each line to the nearest penny; `down`: the total down to it, else to the nearest."""

    words: str
    short: str
    by_line: bool = False
    down: bool = False


NEAREST: Final = VAT_ROUNDED[0]
_BY: Final = "HMRC, VAT Notice 700, 17.5; VATREC12010"
_WAYS: Final = (
    Rounding("VAT is on the total at each rate, to the nearest penny, half a penny rounded up (HMRC, VATREC12030).", "rounded half up"),
    Rounding(f"VAT is on the total, rounded down to the penny ({_BY}).", "rounded down", down=True),
    Rounding(
        f"VAT is worked line by line, each to the nearest penny, half a penny rounded up ({_BY}).", "rounded by the line", by_line=True
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
        vat = net * percent / 100
        exact[percent] = exact.get(percent, Decimal(0)) + (penny(vat) if how.by_line else vat)
    return _down(exact) if how.down else {percent: penny(vat) for percent, vat in exact.items()}


def _down(exact: Mapping[Decimal, Decimal]) -> dict[Decimal, Decimal]:
    total = sum(exact.values(), Decimal(0))
    sign = -1 if total < 0 else 1
    whole = {percent: (sign * vat).quantize(PENNY, ROUND_FLOOR) for percent, vat in exact.items()}
    over = ((sign * total).quantize(PENNY, ROUND_FLOOR) - sum(whole.values(), Decimal(0))) / PENNY
    most = sorted(exact, key=lambda percent: (whole[percent] - sign * exact[percent], -percent))
    return {percent: sign * (vat + (PENNY if percent in most[: int(over)] else 0)) for percent, vat in whole.items()}
