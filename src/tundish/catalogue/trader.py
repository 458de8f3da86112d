"""Whose name is on the paper."""

from __future__ import annotations

from dataclasses import dataclass

from tundish.field import choice, text

COLOURS = ("black", "slate", "blue", "green", "brown", "red")
"""What the heads of papers may be printed in: dark enough to be read on white, and on a grey copy."""
VAT_ROUNDED = (
    "on the total, to the nearest penny",
    "on the total, down to the penny",
    "line by line, to the nearest penny",
)
"""How VAT may come to whole pennies, the usual way first; pricing knows what each means."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trader:
    """The trader's own details, as they are printed."""

    name: str = text("Your name", "As it stands at the head of every paper.")
    trade: str = text("Your trade", default="Plumbing and bathrooms")
    address: str = text("Address", "One line each, postcode last.")
    phone: str = text("Phone")
    email: str = text("Email")
    vat_number: str = text("VAT number", "Printed only where you are registered.")
    colour: str = choice("Colour of papers", COLOURS, "The heads of papers, and the line beneath them.")
    vat_rounding: str = choice(
        "VAT is rounded",
        VAT_ROUNDED,
        "For new jobs; each says its own on Pricing. HMRC asks you to keep to one way. Down is not for retailers.",
    )
    terms: str = text("Your own terms", "One a line: they stand on the sheet of terms, before what the law says.")


def demo_trader() -> Trader:
    """Whose name the demonstration papers carry until the user's own is typed; telephone numbers set aside for fiction."""
    return Trader(
        name="M. Tarrowby",
        address="3 Kilnfold Yard\nHarrowmere\nZZ9 2RT",
        phone="07700 900268",
        email="m.tarrowby@example.com",
        vat_number="GB 000 0000 00",
    )
