"""Ware typed from the maker's sheet for one job is worked with as the catalogue's own is."""

from __future__ import annotations

from dataclasses import replace

from tundish.catalogue.load import supplied_book
from tundish.catalogue.own import OwnItem, OwnSize, with_own
from tundish.estimate import Job, estimate
from tundish.field import Entry, put
from tundish.figure import Known
from tundish.if_it_were import if_it_were
from tundish.options import Option, differences
from tundish.store.codec import read_job, write_job
from tundish.store.keep import demo_jobs

SIZES = {
    "width": 355, "projection": 540, "top_to_studs": 90, "studs_to_outlet": 100, "studs_to_inlet": 35,
    "stud_spacing": 180, "ceramic": 20, "outlet_insertion": 45, "inlet_insertion": 50,
}  # fmt: skip
WARE = "rooms.0.design.appliances.0.ware"


def own(**changed: Entry | None) -> OwnItem:
    values = {name: Entry(value, Known.MAKER) for name, value in SIZES.items()} | changed
    sizes = tuple(OwnSize(name=name, value=value) for name, value in values.items())
    return OwnItem(code="own-1", kind="wc pan", name="Pan in the van", sheet="sheet 12, seen 9 Nov", sizes=sizes, weight=Entry(20))


def job(*items: OwnItem) -> Job:
    found = next(each for each in demo_jobs() if each.number == "101")
    assert found.rooms[0].design.appliances[0].kind == "wc"
    return replace(put(found, WARE, "own-1"), own_items=items)


def test_the_sizes_of_the_sheet_set_the_heights_and_say_whose_they_are() -> None:
    book = supplied_book()
    placed = next(each for each in estimate(job(own()), book).rooms[0].placed if each.kind == "wc")
    assert placed.ware.name == "Pan in the van"
    assert placed.figures["top"].value - placed.figures["studs"].value == 90
    drop = placed.figures["studs"].terms[-1].figure
    assert (drop.known, drop.note, drop.path) == (Known.MAKER, "sheet 12, seen 9 Nov", "own_items.0.sizes.2.value")


def test_a_size_that_is_only_assumed_leaves_what_rests_on_it_open() -> None:
    wc = next(
        each for each in estimate(job(own(top_to_studs=Entry(90, Known.ASSUMED))), supplied_book()).rooms[0].placed if each.kind == "wc"
    )
    assert wc.figures["studs"].tbc
    assert wc.figures["outlet"].tbc


def test_an_option_may_change_its_sizes() -> None:
    before, book = job(own()), supplied_book()
    after = put(before, "own_items.0.sizes.2.value", Entry(300, Known.MAKER))
    (priced,) = estimate(replace(before, options=(Option(name="lower studs", changes=differences(before, after)),)), book).options
    failed = {each.title for each in estimate(after, book).findings if each.state == "fails"}
    assert "Stud slider" in failed
    assert set(priced.fails) == failed


def test_an_option_beside_it_works_no_room_again_that_is_as_it_was() -> None:
    before, book = job(own()), supplied_book()
    higher = put(before, "rooms.0.design.prewall.top", Entry(1250))
    both = replace(before, options=(Option(name="higher", changes=differences(before, higher)),))
    first, again = estimate(both, book), estimate(replace(both, note="again"), book)
    assert again.rooms[0] is first.rooms[0]


def test_if_it_were_different_is_worked_out_with_it() -> None:
    (outcome,) = if_it_were(job(own()), supplied_book(), "rooms.0.design.appliances.0.top", [Entry(450)])
    assert {"wc-1.top", "wc-1.studs"} <= {each.name for each in outcome.figures}


def test_a_size_left_blank_is_asked_for() -> None:
    made = estimate(job(own(ceramic=None)), supplied_book())
    assert any("gives no ceramic for Pan in the van" in each.text for each in made.problems)
    assert not any(each.kind == "wc" for each in made.rooms[0].placed)


def test_it_is_not_priced_until_somebody_prices_it() -> None:
    assert "Pan in the van" in estimate(put(job(own()), "rooms.0.design.appliances.0.own", value=False), supplied_book()).price.not_priced


def test_the_same_book_and_ware_give_the_same_book_and_none_gives_the_book_itself() -> None:
    book, items = supplied_book(), (own(),)
    assert with_own(book, ()) is book
    assert with_own(book, items) is with_own(book, items)
    assert with_own(book, items).item("own-1").own["width"].value == 355
    for _ in range(20):
        assert with_own(book, (own(),)).item("own-1").kind == "wc pan"
    assert with_own(book, items).item("own-1").name == "Pan in the van"


def test_a_code_of_the_catalogue_stays_the_catalogues() -> None:
    book = supplied_book()
    assert with_own(book, (replace(own(), code="pan-ondel-530"),)).item("pan-ondel-530") is book.item("pan-ondel-530")


def test_ware_without_a_name_is_called_by_its_kind() -> None:
    assert with_own(supplied_book(), (replace(own(), name=" "),)).item("own-1").name == "Own wc pan"


def test_it_goes_with_the_job_file() -> None:
    opened = read_job(write_job(job(own())))
    assert opened.job is not None
    assert opened.job.own_items == (own(),)
