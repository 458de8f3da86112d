"""`tundish show JOB [--json]`: everything worked out, for a person or for another program."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from itertools import groupby
from typing import Any

from tundish import measure
from tundish.cli.job_named import job_named
from tundish.cli.papers import verdict
from tundish.cutting.plan import BarPlan, Effort
from tundish.cutting.plans import CutPlan
from tundish.documents import index
from tundish.estimate import Estimate, Job, estimate
from tundish.figure import Figure
from tundish.kit_or_loose import finishes, framed
from tundish.open_inputs import open_inputs
from tundish.pricing.price import Worked
from tundish.ranges import alone, with_range
from tundish.rules.rule import Finding
from tundish.takeoff.routes import routes


def declare(commands: Any) -> None:
    """The words of the command."""
    made: argparse.ArgumentParser = commands.add_parser("show", help="say what was worked out")
    made.add_argument("job", help="a job file, or the number of a job")
    made.add_argument("--json", action="store_true", help="as one JSON object")
    made.add_argument("--decides", action="store_true", help="what is still open, what it moves, and by when to settle it")
    made.add_argument("--routes", action="store_true", help="where each discharge could go, the best way first")
    made.add_argument("--kits", action="store_true", help="kit or loose: what it takes to finish with each frame of the catalogue")
    made.set_defaults(run=run)


def run(asked: argparse.Namespace) -> int:
    """Print it; 1 when a check fails."""
    job, book = job_named(asked.job)
    worked = estimate(job, book, Effort.BEST)
    if asked.json:
        print(json.dumps(as_plain(worked), ensure_ascii=False, indent=1))
    elif asked.decides:
        print("\n".join(_decides(worked)) or "Nothing is open.")
    elif asked.kits:
        print("\n".join(_kits(job, worked)) or "Every frame is the only one of its kind.")
    elif asked.routes:
        print("\n".join(_routes(worked)) or "Every discharge has one way to go: add other waste entries to compare.")
    else:
        from tundish.writers.text import as_text

        for key in ("setting-out", "materials", "quote"):
            for document in index.build(key, worked):
                print(as_text(document))
        for finding in worked.findings:
            print(_checked(finding))
    return verdict(worked)


def _checked(finding: Finding) -> str:
    """A check on a line: how it comes out, what there is with its range, and whether that holds whatever is decided."""
    has = f", has {with_range(finding.has)}{_unit(finding.has)}" if finding.has is not None else ""
    verdict = f", {finding.verdict_words}" if finding.verdict_words else ""
    return f"{finding.state}: {finding.place}: {finding.title}{has}{verdict}. {finding.message}".rstrip()


def _unit(figure: Figure) -> str:
    return f" {figure.unit}" if figure.unit else ""


def _moved(figure: Figure, path: str) -> str:
    """How far one open input alone moves a figure; where it stands while nobody has said how far the input may go."""
    low, high = alone(figure, path)
    words = measure.show_range(low, high, figure.unit)
    return words if low < high else f"now {words}"


def _decides(worked: Estimate) -> Iterator[str]:
    for each in open_inputs(worked):
        by = f", settle by {each.settle_by}{f' ({measure.show_date(each.day)})' if each.day else ''}" if each.settle_by else ""
        yield f"{each.input.label} ({each.path}){f': {each.input.note}' if each.choice else ''}{by}"
        yield from (f"  moves {figure.label}: {_moved(figure, each.path)}, {room}" for room, _, figure in each.figures)
        yield from (f"  may change {line.item.name}" for line in each.lines)
        yield from (f"  decides {finding.title}, {finding.place}" for finding in each.findings)
        yield from (f"  {words[0].lower()}{words[1:]}" for words in each.otherwise)


def _routes(worked: Estimate) -> Iterator[str]:
    ways = (way for place, plan in enumerate(worked.job.rooms) for way in routes(plan, worked.book, f"rooms.{place}"))
    for (room, appliance), each in groupby(ways, key=lambda way: (way.room, way.appliance)):
        yield f"{room}, {appliance}"
        yield from (f"  {place}. {way.words}" for place, way in enumerate(each, 1))


def _kits(job: Job, worked: Estimate) -> Iterator[str]:
    for one in framed(worked):
        yield f"{one.name}: to buy, with carriage"
        for place, each in enumerate(finishes(job, worked.book, one), 1):
            brings = f"brings {', '.join(each.kit)}" if each.kit else "brings nothing else"
            yield f"  {place}. {each.name}: {measure.show_money(each.cost)}, {measure.show_hours(each.hours)} h; {brings}"
            yield f"     {each.reasons}"


def as_plain(worked: Estimate) -> dict[str, Any]:
    """An estimate as plain data, as documented for other programs; money as text."""
    return {
        "job": {"number": worked.job.number, "title": worked.job.title, "client": worked.job.client.name},
        "rooms": [{"name": room.name, "figures": {name: _figure(each) for name, each in room.figures.items()}} for room in worked.rooms],
        "problems": [{"path": each.path, "text": each.text} for each in worked.problems],
        "findings": [_finding(each) for each in worked.findings],
        "cautions": [{"title": each.title, "words": each.words} for each in worked.cautions],
        "decisions": [{"key": each.key, "title": each.title, "by": each.by} for each in worked.decisions],
        "lines": [
            {
                "item": line.item.code,
                "name": line.item.name,
                "group": line.item.group,
                **_figure(line.amount),
                "own": line.own,
                "because": [{"rule": need.rule, "why": need.why, "amount": need.amount.value} for need in line.needs],
            }
            for line in worked.lines
        ],
        "cuts": [_cuts(plan) for plan in worked.cuts],
        "purchases": [
            {
                "item": each.line.item.code,
                "from_kits": each.from_kits.value,
                "from_rack": each.from_rack.value,
                "from_stock": each.from_stock.value,
                "priced": each.priced,
                "cost": str(each.cost),
                "picks": [
                    {"supplier": pick.offer.supplier, "code": pick.offer.code, "packs": pick.packs, "cost": str(pick.cost)}
                    for pick in each.picks
                ],
            }
            for each in worked.buying.purchases
        ],
        "price": _price(worked),
    }


def _figure(figure: Figure) -> dict[str, Any]:
    return {"value": figure.value, "low": figure.low, "high": figure.high, "unit": figure.unit, "tbc": figure.tbc}


def _finding(finding: Finding) -> dict[str, Any]:
    made: dict[str, Any] = {
        "rule": finding.rule,
        "title": finding.title,
        "place": finding.place,
        "state": finding.state,
        "tbc": finding.tbc,
    }
    for name, figure in (("has", finding.has), ("least", finding.least), ("most", finding.most)):
        made[name] = None if figure is None else _figure(figure)
    made |= {"verdict": finding.verdict, "verdict_words": finding.verdict_words}
    return made | {"set_by": finding.set_by, "source": finding.source, "message": finding.message}


def _cuts(plan: CutPlan) -> dict[str, Any]:
    done = plan.plan
    made: dict[str, Any] = {
        "item": plan.item.code,
        "pieces": [{"mark": cut.mark, "length": cut.length.value, "tbc": cut.tbc} for cut in plan.cuts],
    }
    if isinstance(done, BarPlan):
        made["plan"] = [
            {"stock": done.stock[cut.bar].name, "length": done.stock[cut.bar].length, "cuts": list(cut.pieces)} for cut in done.cuts
        ]
    else:
        made["plan"] = [
            {"stock": done.stock[cut.sheet].name, "places": [[one.piece, one.x, one.y, one.length, one.width] for one in cut.places]}
            for cut in done.cuts
        ]
    return made | {"cost_pence": done.cost_pence, "bound_pence": done.bound_pence, "proven": done.proven, "unplaced": list(done.unplaced)}


def _worked_by(one: Worked) -> dict[str, Any]:
    rate = None if one.rate is None else str(one.rate)
    return {"name": one.name, "hours": one.hours, "rate": rate, "amount": str(one.amount), "paid": str(one.paid)}


def _price(worked: Estimate) -> dict[str, Any]:
    price = worked.price
    stages = [
        {
            "stage": each.name,
            "materials": str(each.materials),
            "mark_up": str(each.mark_up),
            "hours": each.hours.value,
            "labour": str(each.labour),
        }
        | {name: str(getattr(each, name)) for name in ("overhead", "contingency", "rounding", "price")}
        | {"lasts": each.lasts, "people": [_worked_by(one) for one in each.people]}
        for each in price.stages
    ]
    money = {
        name: str(getattr(price, name)) for name in ("before_vat", "vat", "total", "kept_back", "materials_cost", "kept", "break_even")
    }
    money |= {f"cis_{name}": str(getattr(price.cis, name)) for name in ("materials", "hired", "base")}
    beside = [{"kind": each.kind, "name": each.name, "amount": str(each.amount)} for each in price.beside]
    visits = [
        {
            "number": each.number,
            "begins": each.begins,
            "why": each.why,
            "days": each.days,
            "again_hours": each.again,
            "by_hand": each.by_hand,
        }
        | {name: str(getattr(each, name)) for name in ("journeys", "labour", "overhead", "to_least", "amount")}
        for each in price.visits
    ]
    vat = [{"percent": str(each.percent), "net": str(each.net), "vat": str(each.vat), "charged": each.charged} for each in price.vat_lines]
    payments = [{"when": each.when, "percent": measure.show_percent(each.percent), "amount": str(each.amount)} for each in price.payments]
    rest = {"not_priced": list(price.not_priced), "labour_priced": price.labour_priced, "hours": price.hours.value, "days": price.days}
    return {"stages": stages, "beside": beside, "visits": visits, "vat_lines": vat, "payments": payments} | money | rest
