"""Where the job stands, in a word for each page, the closing card and the Tally."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from tundish import measure
from tundish.desktop import order_state
from tundish.desktop.workspace import Workspace
from tundish.documents.rod import rod
from tundish.estimate import Estimate, Job
from tundish.field import Entry, Field, describe, get, walk
from tundish.figure import Known
from tundish.rules.readings import of_record
from tundish.rules.rule import Decision
from tundish.survey.settled import Settled, wall_closed

TALLIED: Final = (("Strut", "strut", "m"), ("Soil 110", "soil pipe", "m"), ("Boards", "board", "sheets"), ("Wall tiles", "tile", "each"))
CHOSEN: Final = frozenset({"settled", "not needed"})


def joints(workspace: Workspace, estimate: Estimate) -> Iterator[tuple[str, str, str, str]]:
    """Key, words, tone and glyph of every page's state."""
    open_inputs = sum(1 for _ in unsettled(workspace.job))
    yield ("survey", *_tbc(open_inputs, "tick"))
    marks = sum(mark.height.tbc for room in estimate.rooms for mark in rod(room))
    closed = wall_closed(workspace.job.settled) is not None
    yield ("setting_out", *(("closed", "ink2", "lock") if closed else _tbc(marks, "")))
    yield ("checks", *_checks(estimate))
    yield ("materials", *_tbc(sum(line.amount.tbc for line in estimate.lines), ""))
    yield ("cutting", *_tbc(sum(cut.tbc for plan in estimate.cuts for cut in plan.cuts), ""))
    orders = order_state.to_send(order_state.still_of(workspace, estimate))
    yield ("ordering", f"{orders} to send" if orders else "", "ink2", "")
    unpriced = len(estimate.price.not_priced) + (not estimate.price.labour_priced)
    yield ("pricing", f"{unpriced} not priced" if unpriced else "", "tbc", "")
    yield ("paper", "", "ink2", "")


def unsettled(job: Job) -> Iterator[str]:
    """The paths of the inputs that are assumed or still to be confirmed, of those that were given at all, and of the open choices."""
    for path, declared, value in walk(job):
        if (
            declared.kind == "number"
            and isinstance(value, Entry)
            and value.is_open
            and not path.startswith(("agreed.", "variations.", "after.", "begun."))
        ):
            yield path
    for place, plan in enumerate(job.rooms):
        yield from dict.fromkeys(f"rooms.{place}.{row.choice}" for row in plan.undecided)


def closing(workspace: Workspace, estimate: Estimate) -> tuple[str, tuple[str, ...], str]:
    """Words, a box for each decision, and the due date, for the closing card."""
    states = [state_of(decision, workspace.job) for decision in estimate.decisions]
    still = sum(state not in CHOSEN for state in states)
    words = f"{still} of {len(states)} still open" if still else "All settled" if states else "Nothing to settle yet"
    if (closed := wall_closed(workspace.job.settled)) is not None:
        words = f"Closed {measure.show_date(closed.when, with_year=False)}" + (f", {still} open" if still else "")
    boarding = workspace.job.terms.boarding
    due = f"Boarding {measure.show_date(boarding, with_year=False)}" if boarding else "No boarding date yet"
    order = ("settled", "not needed", "asked", "open")
    return words, tuple(sorted(states, key=order.index)), due


def state_of(decision: Decision, job: Job) -> str:
    """The state of a decision; open again where what it was settled for has changed, or its readings no longer prove it."""
    record = record_of(decision, job)
    if record is None:
        return "open"
    if record.state in CHOSEN and record.rests_on != decision.rests_on:
        return "open"
    if record.state == "settled" and decision.proof is not None and of_record(decision.proof, record):
        return "open"
    return record.state


def record_of(decision: Decision, job: Job) -> Settled | None:
    """The job's record of a decision."""
    return next((each for each in job.settled if each.decision == decision.key), None)


def amounts(estimate: Estimate) -> Iterator[tuple[str, str]]:
    """The Tally's amounts: names and values."""
    for name, kind, unit in TALLIED:
        found = [purchase for purchase in estimate.buying.purchases if purchase.line.item.kind == kind]
        if not found:
            continue
        if unit == "m":
            yield name, f"{measure.show_metres(sum(each.line.amount.value for each in found))} m"
        elif unit == "sheets":
            yield name, measure.show_number(sum(pick.packs for each in found for pick in each.picks))
        else:
            yield name, measure.show_number(sum(each.line.amount.value for each in found))
    yield "Materials", measure.show_money(estimate.price.materials_cost)
    yield "Labour", f"{measure.show_hours(estimate.price.hours.value)} h"


def price(estimate: Estimate) -> tuple[str, str]:
    """The Tally's price: its name and the amount."""
    name = "Price inc. VAT" if estimate.price.charges_vat else "Price"
    if not estimate.price.labour_priced:
        name = "Not all labour" if any(each.labour for each in estimate.price.stages) else "Materials only"
    if estimate.job.begun.on:
        name = f"Option: {name[0].lower()}{name[1:]}"
    more = f" + {len(estimate.price.not_priced)} not priced" if estimate.price.not_priced else ""
    return name, measure.show_money(estimate.price.total) + more


def set_open(workspace: Workspace, path: str, *, still_open: bool) -> None:
    """Mark an input as to be confirmed, or as settled at the value it has; a blank one is settled at its usual size."""
    declared, entry = describe(Job, path), get(workspace.job, path)
    if still_open:
        workspace.set(path, replace(entry or Entry(float(declared.usual or 0), declared.known), tbc=True))
    else:
        workspace.set(path, confirmed(declared, entry))


def confirmed(declared: Field, entry: Entry | None) -> Entry:
    """An input settled at the value it has, or at its usual size where it is blank."""
    if entry is None:
        return Entry(float(declared.usual or 0), declared.known)
    known = declared.known if entry.known is Known.ASSUMED else entry.known
    return replace(entry, tbc=False, known=known, low=None, high=None)


def _tbc(count: int, glyph: str) -> tuple[str, str, str]:
    return (f"{count} TBC", "tbc", "") if count else ("", "settled" if glyph else "ink2", glyph)


def _checks(estimate: Estimate) -> tuple[str, str, str]:
    fails = sum(finding.state == "fails" for finding in estimate.findings)
    look = sum(finding.state in {"look", "cannot tell"} for finding in estimate.findings) + len(estimate.problems)
    if fails:
        return f"{fails} fail" if fails > 1 else "1 fails", "fails", "fails"
    return (str(look), "tbc", "warn") if look else ("", "settled", "tick")
