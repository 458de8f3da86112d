"""What a job asks for apart from what is recorded: options begun, kept, chosen, and copies."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from tundish.asked import as_it_stands, as_new, begin_option, choose_option, keep_option
from tundish.estimate import Begun
from tundish.field import Entry, put, removed
from tundish.options import Change, Option
from tundish.pricing.invoice import Charge, Invoice
from tundish.store.keep import demo_jobs
from tundish.survey.settled import Settled

FAMILY = next(job for job in demo_jobs() if job.number == "102")
WARE = "rooms.0.design.appliances"
BILL = Invoice(number="102-1", charges=(Charge(what="all", net=Decimal(10), percent=Decimal(20)),))
SEEN = Settled(decision="seen", state="settled")


def test_what_is_recorded_while_an_option_is_made_stays_with_the_job_and_is_no_part_of_the_option() -> None:
    begun = begin_option(FAMILY)
    assert replace(begun, begun=Begun()) == FAMILY
    meanwhile = removed(replace(begun, invoices=(BILL,), settled=(SEEN,), number="103"), WARE, 1)
    meanwhile = put(meanwhile, "buying.accepted", "2026-12-01")
    kept = keep_option(meanwhile)
    (option,) = kept.options
    assert option.changes == (Change(path=f"{WARE}.1", value=""),)
    assert (kept.rooms, kept.invoices, kept.settled, kept.number) == (FAMILY.rooms, (BILL,), (SEEN,), "103")
    assert kept.buying.accepted == "2026-12-01"
    assert as_it_stands(meanwhile) == replace(kept, options=())
    assert as_it_stands(kept) is kept


def test_an_option_of_nothing_is_not_kept_and_each_has_a_name_of_its_own() -> None:
    assert keep_option(begin_option(FAMILY)) == FAMILY
    one = replace(FAMILY, options=(Option(name="Option 2", changes=(Change(path="rooms.0.name", value='"x"'),)),))
    kept = keep_option(put(begin_option(one), "rooms.0.name", "Bath"))
    assert [each.name for each in kept.options] == ["Option 2", "Option 3"]


def test_the_other_options_follow_when_one_becomes_the_job() -> None:
    without = keep_option(removed(begin_option(FAMILY), WARE, 1))
    both = keep_option(put(begin_option(without), f"{WARE}.2.top", Entry(900)))
    made, wrong = choose_option(both, 0)
    assert wrong == ()
    assert made.rooms == removed(FAMILY, WARE, 1).rooms
    (left,) = made.options
    assert [each.path for each in left.changes] == [f"{WARE}.1.top"], "the basin has moved up"
    assert choose_option(made, 0)[0].rooms[0].design.appliances[1].top == Entry(900)


def test_a_copy_made_while_an_option_is_open_is_of_the_job_as_it_stands() -> None:
    begun = removed(begin_option(replace(FAMILY, invoices=(BILL,))), WARE, 1)
    copy = as_new(begun, "500")
    assert (copy.number, copy.rooms, copy.begun, copy.invoices) == ("500", FAMILY.rooms, Begun(), ())
