"""How far adhesive, grout, sealant and tiles go, and hours."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.published.asking import needed, room_of
from tundish.catalogue.book import Book
from tundish.catalogue.item import Offer
from tundish.layout.room import Room
from tundish.procurement.purchase import Want
from tundish.procurement.split import cheapest
from tundish.rules.labour.second_fix import second_fix
from tundish.rules.rule import LABOUR
from tundish.rules.tiling.bed import bed
from tundish.rules.tiling.grout import grout
from tundish.rules.tiling.sealant import sealant
from tundish.rules.tiling.spacers import spacers
from tundish.rules.tiling.tiles import wall_tiles


@pytest.mark.parametrize(
    ("side", "thickness", "kg_per_m2", "within"),
    [(50, 6, 1.157, 0.09), (100, 10, 0.900, 0.03), (150, 10, 0.606, 0.03), (300, 10, 0.309, 0.03)],
)
def test_grout_agrees_with_a_makers_coverage_table(side: float, thickness: float, kg_per_m2: float, within: float) -> None:
    """11.34 kg cover 9.8, 12.6, 18.7 and 36.7 m² with 3 mm joints (V2): by the module formula and 1.6 kg a litre, within 3 %.

    The mosaic row asks for 1.75 kg a litre by that formula, and so is 9 % off.
    """
    tile = "tile-300x300-sand"
    sizes = {f"{tile}.width": side, f"{tile}.height": side, f"{tile}.thickness": thickness}
    worked = room_of({"design.finish.tile": tile, "design.finish.joint": 3}, sizes)
    assert needed(grout, "grout", worked) / tiled_m2(worked) == pytest.approx(kg_per_m2, rel=within)


@pytest.mark.parametrize(("tile", "kg_per_m2", "m2_a_bag"), [("tile-150x150-white", 3, 6.67), ("tile-600x300-white", 6, 3.33)])
def test_a_bag_of_adhesive_covers_what_is_published(tile: str, kg_per_m2: float, m2_a_bag: float) -> None:
    """About 3 kg/m² under small wall tiles, 6 under large ones, 20 kg bags: a tiling association's table after SANS 10107 (V2)."""
    worked = room_of({"design.finish.tile": tile})
    each = needed(bed, "tile adhesive", worked) / tiled_m2(worked)
    assert each == pytest.approx(kg_per_m2)
    assert 20 / each == pytest.approx(m2_a_bag, abs=0.01)


@pytest.mark.parametrize(("section_mm2", "metres"), [(50, 6.2), (25, 12.4), (39.3, 7.88), (36, 8.61)])
def test_a_cartridge_of_sealant_goes_as_far_as_its_bead_is_thin(section_mm2: float, metres: float) -> None:
    """A sealant maker's guide: millilitres a metre are mm² of section (V2); a cartridge of 310 ml gives 6.2 m of 10 x 5 (C) and so on."""
    offer = Offer("sealant-white", "one", "1", 310, Decimal(6), "2026-11-01")
    enough, over = (cheapest(Want(length * section_mm2, (offer,))) for length in (metres, metres + 0.02))
    assert enough is not None
    assert over is not None
    assert (enough.packs, over.packs) == (1, 2)


def test_a_bead_of_6_by_6_takes_36_ml_a_metre() -> None:
    """The same guide (V2), the section by arithmetic (C): twice the section, twice the sealant."""
    beads_m = needed(sealant, "sealant", room_of(None, {"tiling.sealant_ml_m": 1}))
    assert needed(sealant, "sealant", room_of()) == pytest.approx(beads_m * 6 * 6)


def test_a_tenth_is_added_for_breakage() -> None:
    """10 % for straight laying. From memory (M)."""
    worked = room_of()
    whole = needed(spacers, "spacer-2", worked) / 4
    assert whole * 1.1 <= needed(wall_tiles, worked[0].tile.code, worked) < whole * 1.1 + 1


@pytest.mark.parametrize(("kind", "hours"), [("basin", 1.75), ("bidet", 2.0)])
def test_basins_and_bidets_take_the_hours_of_a_published_norm(kind: str, hours: float) -> None:
    """A published table of man-hour norms: wall basin 1.75, bidet 2.00 (V2). What one room takes for sealing is left out."""
    ware = {"basin": "basin-fethan-500", "bidet": "bidet-ondel-530"}[kind]
    one = {"kind": kind, "centre": 700, "ware": ware, "frame": f"frame-{kind}-1120"}
    worked = room_of({"design.appliances": [one]}, {"labour.seal": 0})
    assert needed(second_fix, LABOUR, worked) == hours


def tiled_m2(worked: tuple[Room, Book]) -> float:
    """The area of all faces as tiled."""
    return sum(face.tiled_area.value for face in worked[0].faces)
