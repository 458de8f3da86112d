"""Whatever is missing from a catalogue or wrong in a job's file, the job is worked out: what is wrong is told, with words to mend it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tundish.catalogue.book import Book
from tundish.catalogue.item import KitPart
from tundish.catalogue.load import supplied_book
from tundish.documents.index import NAMES, build
from tundish.estimate import Estimate, Job, estimate
from tundish.field import Problem
from tundish.store.codec import read_job, write_job
from tundish.store.keep import demo_jobs

AMOUNTS = (0.0, -1.0, float("nan"), float("inf"))


@lru_cache(maxsize=1)
def jobs() -> tuple[Job, ...]:
    return demo_jobs()


def job(number: str) -> Job:
    return next(each for each in jobs() if each.number == number)


def without(held: Mapping[str, Any], key: str) -> dict[str, Any]:
    return {name: one for name, one in held.items() if name != key}


def told(worked: Estimate, path: str) -> list[Problem]:
    return [each for each in worked.problems if each.path == path]


@settings(max_examples=25)
@given(st.data())
def test_any_one_thing_may_be_missing_from_the_catalogue(data: st.DataObject) -> None:
    book, one = supplied_book(), data.draw(st.sampled_from(jobs()))
    part = data.draw(st.sampled_from(("items", "roles", "offers", "suppliers", "kits")))
    gone = data.draw(st.sampled_from(sorted(getattr(book, part))))
    shorter: dict[str, Any] = {part: without(getattr(book, part), gone)}
    estimate(one, replace(book, **shorter))


@settings(max_examples=15)
@given(st.data())
def test_any_one_size_or_the_ends_of_an_item_may_be_missing(data: st.DataObject) -> None:
    book, one = supplied_book(), data.draw(st.sampled_from(jobs()))
    item = book.items[data.draw(st.sampled_from(sorted(book.items)))]
    gone = data.draw(st.sampled_from(["ends", *sorted(item.sizes)]))
    worse = replace(item, ends=()) if gone == "ends" else replace(item, sizes=without(item.sizes, gone))
    estimate(one, replace(book, items={**book.items, item.code: worse}))


@pytest.mark.parametrize(
    "part", [KitPart("nothing", 1), KitPart("frame-wc-1120", 1), *(KitPart("grout-white", amount) for amount in AMOUNTS)]
)
def test_what_is_wrong_in_a_kit_is_left_out_and_told(part: KitPart) -> None:
    book, one = supplied_book(), job("101")
    worked = estimate(one, replace(book, kits={**book.kits, "frame-wc-1120": (*book.kits["frame-wc-1120"], part)}))
    (problem,) = told(worked, "kits.frame-wc-1120")
    assert part.item in problem.text
    assert worked.price.total == estimate(one, book).price.total


def test_the_price_of_a_supplier_that_is_gone_is_left_out_and_told() -> None:
    book = supplied_book()
    worked = estimate(job("101"), replace(book, suppliers=without(book.suppliers, "oddmoor")))
    assert "oddmoor" not in {order.supplier.key for order in worked.buying.orders}
    assert any(each.path.startswith("offers.oddmoor/") and "put the supplier back" in each.text for each in worked.problems)


@lru_cache(maxsize=1)
def short_of_pipe() -> Estimate:
    book = supplied_book()
    return estimate(job("104"), replace(book, roles=without(book.roles, "copper 15")))


@pytest.mark.parametrize("gone", ["bore", "diameter"])
def test_a_pipe_without_a_size_is_told_by_its_name(gone: str) -> None:
    book = supplied_book()
    pipe = book.items["soil-pipe-110"]
    worked = estimate(job("104"), replace(book, items={**book.items, pipe.code: replace(pipe, sizes=without(pipe.sizes, gone))}))
    assert any(f"no {gone} for soil-pipe-110" in each.text for each in told(worked, "rooms.0"))


def test_a_room_that_cannot_be_worked_out_is_told_and_left_out() -> None:
    (problem,) = told(short_of_pipe(), "rooms.0")
    assert "anything for 'copper 15'" in problem.text
    assert short_of_pipe().rooms == ()


@pytest.mark.parametrize("key", [name for name, _ in NAMES])
def test_papers_are_made_without_the_room(key: str) -> None:
    build(key, short_of_pipe())


def leaves(plain: Any, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    inner = plain.items() if isinstance(plain, dict) else enumerate(plain) if isinstance(plain, list) else ()
    return [one for name, each in inner for one in ((*path, name), *leaves(each, (*path, name)))]


@lru_cache(maxsize=8)
def as_file(number: str) -> tuple[str, list[tuple[str | int, ...]]]:
    words = write_job(job(number)).decode()
    return words, leaves(json.loads(words))


def other(now: Any, book: Book, data: st.DataObject) -> Any:
    """Something else of the kind that stands there: of an item, one of any kind at all."""
    if isinstance(now, bool):
        return not now
    if isinstance(now, int | float):
        return data.draw(st.sampled_from((0, -1, now * 10, now / 10, 1e6, 1e-6)))
    if isinstance(now, str):
        return data.draw(st.sampled_from(["", "nothing", *(sorted(book.items) if now in book.items else ())]))
    if isinstance(now, list):
        return data.draw(st.sampled_from(([], now + now, now[::-1], now[:1] * 3)))
    return {}


@settings(max_examples=40)
@given(st.data())
def test_any_one_field_of_a_job_file_may_be_missing_or_another(data: st.DataObject) -> None:
    book = supplied_book()
    words, every = as_file(data.draw(st.sampled_from([each.number for each in jobs()])))
    plain, path = json.loads(words), data.draw(st.sampled_from(every))
    box = plain
    for name in path[:-1]:
        box = box[name]
    if data.draw(st.booleans()):
        del box[path[-1]]
    else:
        box[path[-1]] = other(box[path[-1]], book, data)
    opened = read_job(json.dumps(plain).encode())
    if opened.job is None:
        assert opened.problems
    else:
        estimate(opened.job, book)
