"""The materials list: everything the job needs, why, and where it comes from."""

from __future__ import annotations

from collections.abc import Iterator

from tundish import measure
from tundish.catalogue.own_rules import sentence
from tundish.documents.block import Column, Document, Paragraph, Points, Row, Table
from tundish.documents.order_list import amount_of, amount_reach, amount_words, pack_words
from tundish.documents.paper import paper
from tundish.estimate import Estimate
from tundish.procurement.purchase import Pick, Purchase
from tundish.rules.book import RULES
from tundish.takeoff.by_hand import ByHand
from tundish.takeoff.own_rules import OWN_RULE

_COLUMNS = (
    Column("Item", "text", 2.7),
    Column("Because", "text", 2.2, "quiet"),
    Column("Need", "text", 0.9),
    Column("Kits and stock", "text", 1.0),
    Column("Buy", "text", 1.6, "strong"),
    Column("Cost, £", "money", 0.9),
)


def build(estimate: Estimate) -> Document:
    """The materials list of a job, by group."""
    rows: list[Row] = []
    for group, purchases in grouped(estimate):
        rows.append(Row((group,), group=group))
        rows += [_row(each) for each in purchases]
    left = tuple(f"{each.item.name}: {amount_words(each.amount, each.item.unit)}, {each.why}" for each in estimate.buying.left_over)
    mine = tuple(of_my_own(estimate))
    blocks = (
        Table(_COLUMNS, tuple(rows), totals=(5,), total_label="Cost without VAT"),
        *(
            (Paragraph(f"Not priced: {', '.join(estimate.price.not_priced)}. They are not in the total.", "caution"),)
            if estimate.price.not_priced
            else ()
        ),
        Points("Left over", left or ("Nothing",)),
        *((Points("By figures and rules of my own", mine),) if mine else ()),
        *((Points("Changed by hand", tuple(by_hand_words(each) for each in estimate.by_hand)),) if estimate.by_hand else ()),
    )
    return paper(estimate, "materials", "Materials list", blocks, tables_only=True)


def grouped(estimate: Estimate) -> tuple[tuple[str, tuple[Purchase, ...]], ...]:
    """The purchases by the groups of the catalogue, in the order they are first met."""
    groups: dict[str, list[Purchase]] = {}
    for purchase in estimate.buying.purchases:
        groups.setdefault(purchase.line.item.group, []).append(purchase)
    return tuple((name, tuple(rows)) for name, rows in groups.items())


def buy_words(purchase: Purchase) -> str:
    """What is bought, in words: "2 × 3,000 mm", "5", or that there is nothing to buy."""
    if purchase.line.own:
        return "client's own"
    if not purchase.priced:
        return "not priced"
    unit = purchase.line.item.unit
    return " + ".join(_picked(pick, unit) for pick in purchase.picks) or "none to buy"


def of_my_own(estimate: Estimate) -> Iterator[str]:
    """The figures of the rule book that the trader changed, unless only rules rest on them that say nothing here; then own rules in use."""
    said = {need.rule for line in estimate.lines for need in line.needs} | {each.rule for each in estimate.findings}
    for figure in estimate.book.figures.values():
        rules = [rule.key for rule in RULES if figure.key in rule.figures and rule.family != "labour"]
        if figure.changed and (not rules or said & set(rules)):
            value, supplied = (measure.show_number(each, None) for each in (figure.value, figure.supplied))
            yield f"{figure.label}: {value} {figure.unit}".rstrip() + f", supplied {supplied}; {figure.changed_words}"
    if OWN_RULE in said:
        items = estimate.book.items
        used = {need.why for line in estimate.lines for need in line.needs if need.rule == OWN_RULE}
        yield from (sentence(rule, items) for rule in estimate.book.own_rules if (rule.name.strip() or OWN_RULE) in used)


def by_hand_words(change: ByHand) -> str:
    """A change by hand: "Channel nut M10: struck out, 24 worked out; the client has them"."""
    was = "nothing" if change.was is None else amount_words(change.was.value, change.was.unit)
    now = "struck out" if change.now is None else amount_words(change.now.value, change.now.unit)
    return f"{change.item.name}: {now}, {was} worked out{f'; {change.why}' if change.why else ''}"


def held(purchase: Purchase) -> float:
    """What kits, rack and stock give, in the line's unit."""
    return purchase.from_kits.value + purchase.from_rack.value + purchase.from_stock.value


def _row(purchase: Purchase) -> Row:
    line = purchase.line
    unit, reach = line.amount.unit, amount_reach(line.amount)
    shown = amount_of(held(purchase), unit) if held(purchase) else "–"
    cost = purchase.cost if (purchase.picks or purchase.rack_cost) and purchase.priced else None
    return Row(
        (line.item.name, line.because, amount_of(line.amount.value, unit), shown, buy_words(purchase), cost),
        line.amount.tbc,
        note=f"May be {reach}, once all is decided" if reach else "",
    )


def _picked(pick: Pick, unit: str) -> str:
    """So many packs: 3 × 10; singles by their number alone."""
    single = pick.offer.pack == 1 and not pick.offer.length
    return amount_words(pick.packs, unit) if single else f"{pick.packs} × {pack_words(unit, pick.offer)}"
