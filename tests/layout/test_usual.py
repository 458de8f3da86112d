"""What is taken for something new on a pre-wall: as others in the job, else what is usual, so long as it fits where it goes."""

from __future__ import annotations

from typing import Any

import pytest

from tests.published.asking import room_of
from tests.rules.test_cases import the_book
from tundish.layout.appliances.kinds import KINDS
from tundish.layout.room import Room
from tundish.layout.usual import free_stretches, usual


def chosen(of: str, kind: str, used: tuple[str, ...] = (), room: Room | None = None, ware: str = "") -> str:
    book = the_book()
    return usual(of, KINDS[kind], used, (room, book.items.get(ware)), book)


def plain(**more: Any) -> Room:
    return room_of({path.replace("__", "."): value for path, value in more.items()})[0]


@pytest.mark.parametrize(
    ("of", "kind", "code"),
    [
        ("wc pan", "wc", "pan-ondel-530"),
        ("wc frame", "wc", "frame-wc-1120"),
        ("seat", "wc", "seat-ondel-plain"),
        ("flush plate", "wc", "plate-round-white"),
        ("flush plate", "urinal", "plate-urinal-push"),
        ("flush plate", "accessible wc", "plate-large-key"),
        ("wc pan", "accessible wc", "pan-tisbel-750"),
        ("tap", "basin", "tap-mixer-lever"),
        ("tap", "bidet", "tap-bidet"),
        ("support bar", "wall spout", "bar-300"),
    ],
)
def test_the_usual_one_is_not_the_first_by_name(of: str, kind: str, code: str) -> None:
    assert chosen(of, kind) == code


def test_as_others_in_the_job_comes_first_and_only_what_is_of_the_kind() -> None:
    assert chosen("wc frame", "wc", ("frame-wc-narrow", "frame-wc-bare")) == "frame-wc-narrow"
    assert chosen("wc frame", "wc", ("gone", "tap-bidet", "")) == "frame-wc-1120"


def test_a_frame_goes_under_the_rail() -> None:
    """A pre-wall of 1,000: only the low frame, 820, ends under its rail."""
    low = plain(design__prewall__top=1000)
    assert chosen("wc frame", "wc", ("frame-wc-1120",), low, "pan-ondel-530") == "frame-wc-820"
    timber = plain(design__prewall__top=1000, design__prewall__built_of="timber")
    assert chosen("wc frame", "wc", (), timber, "pan-ondel-530") == "frame-wc-820"


def test_a_frame_goes_into_a_stretch_that_is_free() -> None:
    """The plain wall with 450 left in all: 0 to 450, before the WC, and beyond it the basin and the end of a shorter room."""
    tight = plain(survey__room__width=1_850)
    assert [round(right - left) for left, right in free_stretches(tight)] == [450, 400]
    assert chosen("wc frame", "wc", (), tight, "pan-ondel-530") == "frame-wc-narrow"


def test_a_frame_is_set_to_the_depth_and_takes_the_ware_s_studs() -> None:
    deep = plain(design__prewall__depth=380, survey__room__width=3_000)
    assert chosen("wc frame", "wc", (), deep, "pan-ondel-530") == "frame-wc-corner"  # the others end at 330
    hand = "basin-sallick-400"
    assert chosen("basin frame", "basin", (), plain(), hand) == "frame-basin-1120"
    assert chosen("basin frame", "basin", (), plain(), "basin-tisbel-550")


def test_across_a_corner_the_frame_is_one_for_a_corner() -> None:
    across = plain(
        design__prewall__stands="across its left-hand corner",
        design__prewall__setback=800,
        design__prewall__top=1250,
        design__appliances=[],
    )
    assert across.corner is not None
    assert chosen("wc frame", "wc", (), across) == "frame-wc-corner"


def test_where_none_fits_the_first_of_them_is_taken_all_the_same() -> None:
    full = plain(survey__room__width=1_000, design__prewall__depth=60)
    assert chosen("wc frame", "wc", (), full, "pan-ondel-530") == "frame-wc-1120"
    assert chosen("hydrant", "wc") == ""


def test_a_plate_suits_the_boards_and_tiles() -> None:
    thick = plain(design__finish__layers=2)
    code = chosen("flush plate", "wc", (), thick)
    least, most = (the_book().items[code].sizes[name][0] for name in ("wall_least", "wall_most"))
    assert least <= thick.thickness.value <= most
