"""A catalogue kept from an earlier version: what the supplied one has gained comes in once, and the user's own is left alone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import TypeVar

import pytest

from tests.store.earlier import take_back
from tundish.__main__ import main
from tundish.catalogue.book import Book
from tundish.catalogue.load import supplied_book
from tundish.store import keep
from tundish.store.catalogue import ItemRows, keep_item, remove_item, replace_all, rows_of, sheets_of
from tundish.store.keep import Store

T = TypeVar("T")
BOSS = "soil-branch-110-boss"
STAY = frozenset({"sound-pad"})
"""An item with an offer and with stock, that stays."""


@pytest.fixture(autouse=True)
def own_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TUNDISH_HOME", str(tmp_path / "home"))


def without(book: Book, *codes: str) -> Book:
    """A supplied book before it had these items, and all that rests on them."""

    def kept(rows: Mapping[str, T]) -> dict[str, T]:
        return {code: row for code, row in rows.items() if code not in codes}

    kits = {kit: tuple(part for part in parts if part.item not in codes) for kit, parts in kept(book.kits).items()}
    roles = {role: code for role, code in book.roles.items() if code not in codes}
    figures = {key: one for key, one in book.figures.items() if key != "drainage.waste_fall"}
    return replace(book, items=kept(book.items), roles=roles, kits=kits, offers=kept(book.offers), figures=figures)


def kept_with(monkeypatch: pytest.MonkeyPatch, supplied: Book) -> Store:
    """The store as a program with this supplied book opens it."""
    monkeypatch.setattr(keep, "supplied_book", lambda: supplied)
    return Store()


def forget_record() -> None:
    """Take the database back to the schema before the record was kept."""
    take_back("0004")


def same(book: Book, other: Book) -> None:
    assert (book.items, book.roles, book.suppliers, book.figures) == (other.items, other.roles, other.suppliers, other.figures)
    assert {kit: set(parts) for kit, parts in book.kits.items()} == {kit: set(parts) for kit, parts in other.kits.items() if parts}
    assert {code: set(few) for code, few in book.offers.items()} == {code: set(few) for code, few in other.offers.items()}


def in_kit(book: Book) -> str:
    """An item that is part of a kit."""
    return next(part.item for parts in book.kits.values() if len(parts) > 1 for part in parts)


def test_a_new_store_has_no_news() -> None:
    store = Store()
    assert store.news == ""
    store.close()


def test_what_the_supplied_catalogue_gained_comes_in_once_with_words(monkeypatch: pytest.MonkeyPatch) -> None:
    supplied = supplied_book()
    gone = (BOSS, in_kit(supplied), supplied.roles["strut"])
    old = kept_with(monkeypatch, without(supplied, *gone))
    assert BOSS not in old.book().items
    old.close()

    new = kept_with(monkeypatch, supplied)
    same(new.book(), supplied)
    assert new.news.startswith("Added to your catalogue from this version's: 3 items, ")
    assert supplied.items[BOSS].name in new.news
    assert "took out" not in new.news
    new.close()
    again = kept_with(monkeypatch, supplied)
    assert again.news == ""
    again.close()


def test_a_store_without_the_record_gets_what_it_lacks_with_its_offers_and_kit(monkeypatch: pytest.MonkeyPatch) -> None:
    supplied = supplied_book()
    kit = next(iter(supplied.kits))
    store = kept_with(monkeypatch, without(supplied, BOSS, kit))
    gone = removable(store)
    assert remove_item(store, gone) == ""
    store.close()
    forget_record()
    store = kept_with(monkeypatch, supplied)
    book = store.book()
    assert book.items[BOSS] == supplied.items[BOSS]
    assert set(book.offers[BOSS]) == set(supplied.offers[BOSS])
    assert set(book.kits[kit]) == set(supplied.kits[kit])
    assert "taken out again, it stays out" in store.news
    assert gone in book.items, "nothing says that it was taken out"
    assert remove_item(store, gone) == ""
    store.close()
    store = kept_with(monkeypatch, supplied)
    assert (store.news, gone in store.book().items) == ("", False)
    store.close()


def test_a_store_without_the_record_keeps_its_own_offers_and_kits(monkeypatch: pytest.MonkeyPatch) -> None:
    supplied = supplied_book()
    store = kept_with(monkeypatch, supplied)
    code, kit = next(code for code, few in supplied.offers.items() if len(few) > 1), next(iter(supplied.kits))
    rows = rows_of(store.book(), code)
    assert keep_item(store, replace(rows, offers=rows.offers[:1]), code) == ()
    rows = rows_of(store.book(), kit)
    assert keep_item(store, replace(rows, kit=rows.kit[:1]), kit) == ()
    store.close()
    forget_record()
    store = kept_with(monkeypatch, supplied)
    assert (store.news, len(store.book().offers[code]), len(store.book().kits[kit])) == ("", 1, 1)
    store.close()


def removable(store: Store) -> str:
    """An item that nothing rests on."""
    book = store.book()
    held = {*book.roles.values(), *(part.item for parts in book.kits.values() for part in parts), *book.stock, *STAY}
    held |= {piece.item for piece in book.rack}
    return next(code for code in book.items if code not in held and book.offers.get(code))


def test_what_the_user_took_out_or_changed_stays_so(monkeypatch: pytest.MonkeyPatch) -> None:
    supplied = supplied_book()
    store = kept_with(monkeypatch, without(supplied, BOSS))
    gone = removable(store)
    assert remove_item(store, gone) == ""
    rows = rows_of(store.book(), "sound-pad")
    mine = replace(rows, item={**rows.item, "name": "Pad of mine"}, offers=())
    assert keep_item(store, mine, "sound-pad") == ()
    store.close()

    store = kept_with(monkeypatch, supplied)
    book = store.book()
    assert BOSS in book.items
    assert gone not in book.items
    assert gone not in book.offers
    assert (book.items["sound-pad"].name, book.offers.get("sound-pad")) == ("Pad of mine", None)
    store.close()


def test_an_item_of_the_users_own_under_a_new_code_is_left_as_it_is(monkeypatch: pytest.MonkeyPatch) -> None:
    supplied = supplied_book()
    store = kept_with(monkeypatch, without(supplied, BOSS))
    rows = rows_of(supplied, BOSS)
    offer = {**rows.offers[0], "price": "1.00"}
    assert keep_item(store, ItemRows({**rows.item, "name": "Boss of mine"}, rows.ends, rows.kit, (offer,))) == ()
    store.close()
    store = kept_with(monkeypatch, supplied)
    (only,) = store.book().offers[BOSS]
    assert (store.book().items[BOSS].name, str(only.price)) == ("Boss of mine", "1.00")
    store.close()


def test_an_offer_whose_supplier_was_taken_out_waits_until_it_is_back(monkeypatch: pytest.MonkeyPatch) -> None:
    supplied = supplied_book()
    store = kept_with(monkeypatch, without(supplied, BOSS))
    whole = sheets_of(store)
    seller = supplied.offers[BOSS][0].supplier
    place = {name: lines[0].index("supplier" if name == "offers" else "key") for name, lines in whole.items() if name in SELLERS}
    fewer = {name: [line for line in lines if name not in place or line[place[name]] != seller] for name, lines in whole.items()}
    assert replace_all(store, fewer) == ()
    store.close()
    store = kept_with(monkeypatch, supplied)
    assert seller not in store.book().suppliers
    assert BOSS in store.book().items
    assert seller not in {one.supplier for one in store.book().offers.get(BOSS, ())}
    assert replace_all(store, {**sheets_of(store), "suppliers": whole["suppliers"]}) == ()
    store.close()
    store = kept_with(monkeypatch, supplied)
    assert seller in {one.supplier for one in store.book().offers[BOSS]}
    store.close()


SELLERS = ("suppliers", "offers")


def test_the_catalogue_is_still_sound_after_it_was_topped_up(monkeypatch: pytest.MonkeyPatch) -> None:
    supplied = supplied_book()
    store = kept_with(monkeypatch, without(supplied, BOSS))
    rows = rows_of(store.book(), "sound-pad")
    mine = replace(rows, offers=tuple({**one, "code": f"MINE-{place}"} for place, one in enumerate(rows.offers)))
    assert keep_item(store, mine, "sound-pad") == ()
    store.close()
    forget_record()
    store = kept_with(monkeypatch, supplied)
    assert replace_all(store, sheets_of(store)) == ()
    assert {one.code for one in store.book().offers["sound-pad"]} == {one["code"] for one in mine.offers}
    store.close()


def test_the_command_line_says_what_was_added(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    supplied = supplied_book()
    kept_with(monkeypatch, without(supplied, BOSS)).close()
    monkeypatch.setattr(keep, "supplied_book", lambda: supplied)
    said = []
    for _ in range(2):
        assert main(["show", "no such job"]) == 2
        said.append("Added to your catalogue" in capsys.readouterr().err)
    assert said == [True, False]


def test_a_sheet_that_gained_sizes_and_ends_gives_them_to_the_item_that_is_here(monkeypatch: pytest.MonkeyPatch) -> None:
    supplied = supplied_book()
    strap, bend = supplied.items["boss-strap-110"], supplied.items["waste-bend-32"]
    before = {strap.code: replace(strap, ends=strap.ends[:1]), bend.code: replace(bend, sizes={})}
    store = kept_with(monkeypatch, replace(supplied, items={**supplied.items, **before}))
    assert store.book().items[bend.code].sizes == {}
    store.close()
    store = kept_with(monkeypatch, supplied)
    same(store.book(), supplied)
    assert (
        store.news == "Added to your catalogue from this version's: 2 makers' sheets with what they lacked. Nothing of yours was changed."
    )
    store.close()
    store = kept_with(monkeypatch, supplied)
    assert store.news == ""
    store.close()


def test_an_item_of_other_ends_keeps_them(monkeypatch: pytest.MonkeyPatch) -> None:
    supplied = supplied_book()
    strap = supplied.items["boss-strap-110"]
    mine = replace(strap, ends=(replace(strap.ends[0], nominal="50", diameter=54.0),))
    store = kept_with(monkeypatch, replace(supplied, items={**supplied.items, strap.code: mine}))
    store.close()
    store = kept_with(monkeypatch, supplied)
    assert store.book().items[strap.code].ends == mine.ends
    store.close()


def test_an_item_whose_kind_has_changed_with_its_sizes_is_of_that_kind_and_its_catalogue_can_be_opened(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The sound pad was a frame part without sizes; it gained a thickness, which no frame part has, and so the file was refused."""
    supplied = supplied_book()
    pad = supplied.items["sound-pad"]
    before = replace(pad, kind="frame part", sizes={})
    store = kept_with(monkeypatch, replace(supplied, items={**supplied.items, pad.code: before}))
    store.close()
    store = kept_with(monkeypatch, supplied)
    now = store.book().items[pad.code]
    assert (now.kind, now.sizes) == (pad.kind, pad.sizes)
    assert replace_all(store, sheets_of(store)) == ()
    store.close()
