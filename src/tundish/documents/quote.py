"""The quote a client signs: what is done, what it costs, what is not in it, what is still open."""

from __future__ import annotations

from tundish import measure
from tundish.documents.block import Block, Column, Document, Facts, FillIn, Heading, Paragraph, Points, Row, SideBySide, Sketch, Sums, Table
from tundish.documents.good_for import good_for, near
from tundish.documents.paper import lines_of, paper, trader_of
from tundish.documents.promised import as_priced, promised
from tundish.documents.terms import OFFER, how_rounded, rights, terms_of_money
from tundish.documents.wall_drawing import CLIENT_VIEW, elevation
from tundish.estimate import Estimate, OptionPrice
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.room import Room
from tundish.pricing.price import Price
from tundish.pricing.vat_rounding import ROUNDINGS
from tundish.rules.rule import Stage

_IN_IT: dict[Stage, str] = {
    "strip out": "Floors and stairs covered; what is there now taken out and away",
    "first fix": "New branches into the stack, wastes, hot and cold with a valve to each, tested",
    "frames": "Steel frames that carry the ware, fixed to floor and wall, and the false wall round them",
    "boarding": "Boards, waterproofing, tiles, grout and trim",
    "second fix": "Ware hung, connected, sealed and tried",
    "making good": "Made good, swept, shown to you working",
}
_COLUMNS = (
    Column("Work", "text", 2.2, "strong"),
    Column("What is in it", "text", 3.2, "quiet"),
    Column("Price, £", "money", 1, "strong"),
)
_OPTIONS = (
    Column("Instead of the above", "text", 2.2, "strong"),
    Column("What it means", "text", 3.2, "quiet"),
    Column("Difference, £", "money", 1.1),
    Column("You pay, £", "money", 1.1, "strong"),
    Column("Yes", "tick", 0.5),
)
_BESIDE = {
    "carriage": "Suppliers' carriage",
    "cost": "As described",
    "provisional sum": "Provisional: settled at what it comes to, shown to you first",
    "discount": "Off the prices above, provisional sums apart",
}
_LOW = 0.62
"""How high a drawing may be, as a part of its column's width."""
_SCALE = 30
"""The largest scale it is drawn at: what is seen is to be known again, not measured."""


def build(estimate: Estimate) -> Document:
    """The quote of a job; hours, costs and mark-up never reach it."""
    price, terms = estimate.price, estimate.job.terms
    stages = tuple(Row((each.name, _in_it(each.stage, estimate), each.price)) for each in price.stages)
    beside = tuple(Row((each.name, _beside(each.kind, price), each.amount)) for each in price.beside)
    table = Table(_COLUMNS, (*stages, *beside))
    sums = [("Total before VAT", price.before_vat)] if price.vat_lines else []
    rounded = ROUNDINGS[terms.vat_rounding].short
    sums += [(f"{each.words}, {rounded}" if each.vat else each.words, each.vat) for each in price.vat_lines if each.charged]
    promise = as_priced(estimate)
    options = (Table(_OPTIONS, tuple(_option(each, price) for each in estimate.options), title="Or choose"),) if estimate.options else ()
    below = SideBySide(
        (*((Points("When you pay", promise.payments),) if promise.payments else ()), _still_open(estimate)),
        (Sums((*sums, ("You pay", price.total)), table), Points("Not in this price", not_included(estimate))),
    )
    binding = Paragraph(OFFER[terms.offer], "note")
    accounted = how_rounded((each for each in price.vat_lines if not each.charged), terms.vat_rounding)
    money = (Paragraph(each, "note") for each in (*terms_of_money(promise), *accounted, *rights(terms)))
    blocks: tuple[Block, ...] = (
        _facts(estimate),
        *_rooms(estimate),
        table,
        *options,
        below,
        binding,
        *money,
        *_caution(estimate),
        *_accept(estimate),
    )
    return paper(estimate, "quote", "Quote" if terms.offer == "a quotation" else "Estimate", blocks)


def described(room: Room) -> str:
    """One plain paragraph on what is built in a room."""
    height = "a full-height" if room.prewall.height == "full" else "a part-height"
    ware = _and([f"the {KINDS[each.choice.kind].plain}" for each in room.framed])
    hides = f" and the steel frames that carry {ware}, which hang clear of the floor" if ware else " that run behind it"
    capped = f", closed by {room.capping.item.name} on top" if room.capping else ""
    shelf = ", with a tiled shelf on top" if room.prewall.height == "part" and room.prewall.shelf else capped
    return (
        f"I will build {height} false wall, {measure.show_length(round(room.figures['finished_face'].value))} mm deep"
        f" and {measure.show_length(room.top.value - room.finished_floor.value)} mm high above the finished floor{shelf}."
        f" It hides the pipes{hides}."
    )


def not_included(estimate: Estimate) -> tuple[str, ...]:
    """What the price leaves out: what is not priced, what the client supplies, what is found on opening up."""
    own = tuple(f"{line.item.name}, which you supply" for line in estimate.lines if line.own)
    found = ("Repairs to joists, walls or old pipe: agreed when found",)
    some = "Part of the labour" if any(each.labour for each in estimate.price.stages) else "Labour"
    labour = () if estimate.price.labour_priced else (f"{some}: not priced yet",)
    unpriced = tuple(f"{name}: not priced yet" for name in estimate.price.not_priced)
    return (*labour, *unpriced, *lines_of(estimate.job.terms.not_included), *own, *found)


def _beside(kind: str, price: Price) -> str:
    if kind != "visits":
        return _BESIDE[kind]
    days, times = sum(each.days for each in price.visits), len(price.visits)
    again = ", setting up again" if any(each.again for each in price.visits) else ""
    return f"To and from the work{again}: {days} {'day' if days == 1 else 'days'} in {times} {'visit' if times == 1 else 'visits'}"


def _option(option: OptionPrice, base: Price) -> Row:
    words = option.note or f"Changed: {', '.join(each[:1].lower() + each[1:] for each in option.changes)}"
    return Row((option.name, words, option.price.total - base.total, option.price.total, ""))


def _facts(estimate: Estimate) -> Facts:
    job, trader = estimate.job, trader_of(estimate)
    sender = (*lines_of(trader.address), *(word for word in (trader.phone, trader.email) if word))
    vat = (f"VAT reg. {trader.vat_number}",) if trader.vat_number and estimate.price.vat_lines else ()
    start = (f"Start {near(job.terms.start, job.terms.quoted)}",) if job.terms.start else ()
    days = (f"{estimate.price.days} working days",) if estimate.price.hours.value else ()
    dates = (*good_for(estimate), *((", ".join((*start, *days)),) if start or days else ()))
    return Facts(
        (
            ("For", (job.client.name, *lines_of(job.client.address))),
            ("From", (*sender, *vat)),
            ("Dates", dates),
        )
    )


def _rooms(estimate: Estimate) -> tuple[Block, ...]:
    blocks: list[Block] = []
    for room in estimate.rooms:
        names = _and([KINDS[each.choice.kind].plain for each in room.placed])
        heights = _and(
            [f"{each.name} at {measure.show_length(each.figures['top'].value - room.finished_floor.value)} mm" for each in room.placed]
        )
        agreed = Paragraph(f"Heights of the tops, above the finished floor: {heights}.") if heights else None
        blocks.append(Heading(f"{room.name}: wall-hung {names} on a new pre-wall" if names else room.name))
        words: tuple[Block, ...] = (Paragraph(described(room)), *((agreed,) if agreed else ()))
        blocks.append(SideBySide(words, (_seen(room),)))
    return tuple(blocks)


def _seen(room: Room) -> Sketch:
    """The wall as the client will see it; a high one is drawn smaller, so that the quote stays on a page."""
    drawing = elevation(room, CLIENT_VIEW)
    _, _, wide, high = drawing.extent
    return Sketch(drawing, "What you will see", scale=_SCALE, share=min(1.0, _LOW * wide / high))


def _in_it(stage: Stage, estimate: Estimate) -> str:
    names = [placed.ware.name for room in estimate.rooms for placed in room.placed]
    if stage == "second fix" and names:
        return f"{', '.join(dict.fromkeys(names))}; all hung, connected, sealed and tried"
    floors = [room.room_name for room in estimate.rooms if room.floor]
    if stage == "boarding" and floors:
        where = "" if len(floors) == len({room.path for room in estimate.rooms}) else f" of {' and '.join(floors)}"
        return f"{_IN_IT[stage]}; the floor{where} tiled"
    return _IN_IT[stage]


def _still_open(estimate: Estimate) -> Points:
    rows = []
    for room in estimate.rooms:
        if room.finished_floor.tbc:
            reach = measure.show_range(room.finished_floor.low, room.finished_floor.high)
            rows.append(f"{room.room_name}: finished floor {reach} mm above the floor as it is")
        rows += [
            f"{each.name}: sizes and height to be confirmed" for each in room.placed if not each.choice.in_hand or each.figures["top"].tbc
        ]
    if not estimate.rooms:
        rows = ["Everything: no room is set out yet"]
    if not rows:
        return Points("Nothing to be confirmed", ("Everything this price rests on is settled",))
    return Points("Still to be confirmed", tuple(dict.fromkeys(rows)), tbc=True)


def _caution(estimate: Estimate) -> tuple[Block, ...]:
    failing = [each.title for each in estimate.findings if each.state == "fails"]
    return (Paragraph(f"Checks not passed yet: {'; '.join(failing)}. Not to be signed before they are.", "caution"),) if failing else ()


def _accept(estimate: Estimate) -> tuple[Block, ...]:
    """Where the client signs, unless there is nothing to sign for; once the price was accepted, what holds instead of this paper."""
    total, job = estimate.price.total, estimate.job
    if not job.agreed.on and not (estimate.price.stages or estimate.price.beside):
        return (Paragraph("Nothing is priced yet: there is nothing to accept.", "caution"),)
    if not job.agreed.on:
        named = f"quote {job.number}" if job.number else "this quote"
        ticked = ", or with what is ticked under Or choose, at its price" if estimate.options else ""
        said = f"Accepted: {named} at {measure.show_money(total)}{_vat_words(estimate)}{ticked}"
        return (FillIn(said, (), ("Signed", "Name", "Date")),)
    promise = promised(estimate)
    other = "" if promise.total == total else " This paper is what the work would be quoted at as it stands now; that is not agreed."
    return (Paragraph(f"{promise.accepted}{other}", "caution" if other else "strong"),)


def _vat_words(estimate: Estimate) -> str:
    return " including VAT" if estimate.price.charges_vat else ""


def _and(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}" if words else ""
