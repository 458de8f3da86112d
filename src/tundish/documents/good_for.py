"""How long the paper's price is good for, and how old the prices are that it rests on."""

from __future__ import annotations

from tundish import measure
from tundish.estimate import Estimate
from tundish.pricing.validity import validity


def good_for(estimate: Estimate) -> tuple[str, ...]:
    """The day of the quote, how long it is good for, and since when the suppliers' prices are; nothing where the quote has no day."""
    quoted = estimate.job.terms.quoted
    if not quoted:
        return ()
    found = validity(estimate.buying, estimate.job.terms, estimate.book)
    days = "1 day" if found.days == 1 else f"{found.days} days"
    said = (f"Quoted {measure.show_date(quoted)}", f"Good for {days}, to {near(found.until, quoted)}")
    return (*said, f"on goods priced from {near(found.of[0], quoted)}") if found.of else said


def near(day: str, other: str) -> str:
    """A day, with its year where that is not the other's."""
    return measure.show_date(day, with_year=day[:4] != other[:4])
