"""What has to dry: by the products on the list and the floor, and by the figures of the rule book."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from tundish.catalogue.book import Book
from tundish.catalogue.load import supplied_book
from tundish.estimate import Estimate, Job, estimate
from tundish.field import put
from tundish.pricing.waits import Wait
from tundish.store.keep import demo_jobs


@cache
def bathroom() -> Job:
    """Without dates, so that no weekend helps."""
    job = next(each for each in demo_jobs() if each.number == "102")
    return put(job, "terms.start", "")


def worked(job: Job, book: Book | None = None) -> Estimate:
    return estimate(job, book or supplied_book())


def told(job: Job, book: Book | None = None) -> dict[str, tuple[float, tuple[str, ...]]]:
    return {each.what: (each.hours.value, each.before) for each in worked(job, book).price.waits}


def test_tanking_tiles_and_levelling_each_have_their_time() -> None:
    assert told(bathroom()) == {
        "Tanking dries": (12, ("tiling", "second fix")),
        "Adhesive and grout cure": (24, ("second fix",)),
        "Levelling dries": (24, ("second fix",)),
    }


def test_what_is_not_there_waits_for_nothing() -> None:
    bare = put(put(bathroom(), "rooms.0.design.finish.tanking", value=False), "rooms.0.survey.floor.build_up", ())
    assert set(told(bare)) == {"Adhesive and grout cure"}
    assert worked(Job()).price.waits == ()


def test_the_sheet_of_a_product_counts_before_the_rule_book() -> None:
    """Rapid adhesive is dry after 3 hours by its sheet; the grout still takes its 24, unless its sheet says less too."""
    book = supplied_book()
    rapid = replace(book, roles={**book.roles, "tile adhesive": "adhesive-rapid"})
    assert told(bathroom(), rapid)["Adhesive and grout cure"][0] == 24
    grout = replace(rapid, items={**rapid.items, "grout-white": replace(rapid.items["grout-white"], sizes={"dries": (4.0, "h")})})
    wait = next(each for each in worked(bathroom(), grout).price.waits if each.what == "Adhesive and grout cure")
    assert wait.hours.value == 4
    assert worked(bathroom(), grout).price.days < worked(bathroom()).price.days


def test_a_figure_that_the_trader_changes_moves_the_days() -> None:
    book = supplied_book()
    slow = replace(book.figures["drying.tanking"], value=48.0)
    other = replace(book, figures={**book.figures, slow.key: slow})
    assert worked(bathroom(), other).price.days > worked(bathroom()).price.days
    assert told(bathroom(), other)["Tanking dries"][0] == 48


def test_nobody_travels_on_a_day_that_waits() -> None:
    from decimal import Decimal

    job = put(bathroom(), "terms.travel", Decimal(10))
    price = worked(job).price
    on_site = sum(bool(day.work) for day in price.programme)
    assert on_site < price.days
    assert sum(each.days for each in price.visits) == on_site
    assert sum(each.journeys for each in price.visits) == 10 * on_site
    assert all(isinstance(each, Wait) for each in price.waits)
