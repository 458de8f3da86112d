"""Lines that the trader adds, strikes out or sets by hand: kept through every working, each with its reason and what was worked out."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from tundish.catalogue.book import Book
from tundish.catalogue.item import Item
from tundish.field import Entry, Problem, amount, choice, must_read, text
from tundish.figure import Figure, Known, total
from tundish.rules.rule import STAGES, Cut, Need
from tundish.takeoff.line import Line

ADDS: Final = "adds"
STRIKES: Final = "strikes out"
SETS: Final = "sets"


@dataclass(frozen=True, slots=True, kw_only=True)
class LineByHand:
    """One change to the materials list. The amount is in the unit in which the item is counted."""

    item: str = text("Item", "The code of an item of the catalogue.")
    does: str = choice("Does", (ADDS, STRIKES, SETS), "Adds to what was worked out, strikes the line out, or sets its amount.")
    amount: Entry | None = amount("Amount", "", known=Known.TYPED)
    stage: str = choice("Needed for", STAGES, "The stage at which an added line is wanted.")
    why: str = text("Why")


@dataclass(frozen=True, slots=True)
class ByHand:
    """A change that was made: to which item, what was worked out (None: nothing), and what there is now (None: struck out)."""

    item: Item
    does: str
    was: Figure | None
    now: Figure | None
    why: str
    place: int


@dataclass(frozen=True, slots=True)
class Changed:
    """The lines after the changes, the changes that were made, and what is wrong with the others."""

    lines: tuple[Line, ...]
    made: tuple[ByHand, ...]
    problems: tuple[Problem, ...]


def changed(lines: Sequence[Line], rows: Sequence[LineByHand], book: Book) -> Changed:
    """The lines with every change made, in order. A line that the client supplies is changed only where there is no other."""
    kept, made, problems = list(lines), [], []
    for place, row in enumerate(rows):
        item = book.items.get(row.item.strip())
        if item is None:
            problems.append(
                Problem(f"by_hand.{place}.item", f"There is no item {row.item.strip() or 'named'}: choose one of the catalogue")
            )
            continue
        at = _place(kept, item)
        was = None if at is None else kept[at]
        wrong = _wrong(row, item, was, book)
        if wrong:
            problems.append(Problem(f"by_hand.{place}.{wrong[0]}", f"{item.name}: {wrong[1]}"))
            continue
        now = None if row.does == STRIKES else _line(row, place, item, was, book)
        made.append(ByHand(item, row.does, was.amount if was else None, now.amount if now else None, row.why.strip(), place))
        if at is None:
            kept += (now,) if now else ()
        else:
            kept[at : at + 1] = (now,) if now else ()
    return Changed(tuple(kept), tuple(made), tuple(problems))


def put_on_the_list(parts: Iterable[tuple[str, float]], why: str) -> tuple[LineByHand, ...]:
    """Changes that add so much of each item, each in its own unit, for the first fix."""
    return tuple(LineByHand(item=code, does=ADDS, amount=Entry(much, Known.TYPED), stage="first fix", why=why) for code, much in parts)


def _place(lines: Iterable[Line], item: Item) -> int | None:
    """Where the item's line is, the trader's before the client's."""
    found = [(line.own, place) for place, line in enumerate(lines) if line.item.code == item.code]
    return min(found)[1] if found else None


def _wrong(row: LineByHand, item: Item, was: Line | None, book: Book) -> tuple[str, str] | None:
    """The input that cannot be as it is, and words to mend it; None where the change can be made."""
    if row.does != ADDS and was is None:
        return "item", "nothing was worked out that could be changed; add it instead"
    if row.does == STRIKES:
        return None
    if row.amount is None:
        return "amount", "type how much"
    if any(offer.width for offer in book.offers.get(item.code, ())):
        return "item", "sheets are counted by what is cut from them; change the faces they cover, or price a sheet by hand on Pricing"
    if row.does == SETS and was is not None and was.cuts:
        return "item", "its amount is the sum of its pieces; strike the line out, or add a length"
    return None


def _line(row: LineByHand, place: int, item: Item, was: Line | None, book: Book) -> Line:
    figure = replace(must_read(row, "amount", f"by_hand.{place}"), unit=item.unit, label=item.name)
    why = f"by hand: {row.why.strip()}" if row.why.strip() else "by hand"
    if row.does == SETS and was is not None:
        return _set(was, figure, why)
    bars = item.unit == "mm" and any(offer.length for offer in book.offers.get(item.code, ()))
    cuts = (Cut(f"H{place + 1}", figure, why),) if bars else ()
    need = Need(figure, next(each for each in STAGES if each == row.stage), why, item=item.code, cuts=cuts)
    if was is None:
        return Line(item, total([figure], item.name, item.unit), (need,))
    return Line(item, total([was.amount, figure.named("Added by hand")], item.name, item.unit), (*was.needs, need), was.own)


def _set(was: Line, figure: Figure, why: str) -> Line:
    """The line at another amount; each stage keeps its share of it."""
    note = f"{why}; worked out {was.amount.value:g}"
    share = figure.value / was.amount.value if was.amount.value else 0.0
    needs = tuple(replace(need, amount=need.amount * share) for need in was.needs)
    first = replace(needs[0], why=f"{needs[0].why}, {why}")
    return Line(was.item, replace(figure, note=note), (first, *needs[1:]), was.own)
