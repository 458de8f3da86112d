"""What walls, boards, studs and people have to carry."""

from __future__ import annotations

from itertools import pairwise

import pytest

from tests.published.asking import found, needed, room_of
from tundish.catalogue.load import supplied_book
from tundish.figure import converted, number
from tundish.rules.boards.centres import centres
from tundish.rules.boards.screws import screws
from tundish.rules.fixings.timber_screws import timber_screws
from tundish.rules.loads.tiles import tiles_on_board
from tundish.rules.loads.wall_pull import wall_pull
from tundish.rules.pulls import back_share
from tundish.rules.rule import Caution
from tundish.rules.safety.asbestos import asbestos
from tundish.rules.safety.weights import weights

ON_BOARD = "Tile and bed on the board"


@pytest.mark.parametrize(("mass_kg", "load_kn"), [(400, 3.923), (150, 1.471), (100, 0.981)])
def test_a_mass_hangs_with_its_weight(mass_kg: float, load_kn: float) -> None:
    """D: exact conversion at standard gravity of a frame maker's test loads (400, 150 and 100 kg, V2)."""
    assert converted(number(mass_kg, "kg"), "kN").value == pytest.approx(load_kn, abs=5e-4)


@pytest.mark.parametrize(("place", "mass_kg"), [("WC 1", 400), ("Bidet 1", 400), ("Basin 1", 150), ("Urinal 1", 150)])
def test_the_wall_is_asked_to_hold_the_test_load_of_each_appliance(place: str, mass_kg: float) -> None:
    """A frame maker's page on statics: WC and bidet 400 kg, basin and urinal 150 kg (V2), taken as 4.0 and 1.5 kN, 2 % more."""
    room, book = room_of(room="row")
    has = found(wall_pull, "Pull on each tie rod", (room, book), place).has
    one = next(each for each in room.placed if each.name == place)
    assert has is not None
    load = has * number(2, "", "tie rods") * one.figures["bracket"] / (room.thickness + one.ware.size("projection"))
    assert load.unit == "kN"
    assert load.value == pytest.approx(converted(number(mass_kg, "kg"), "kN").value, rel=0.025)
    assert load.value >= converted(number(mass_kg, "kg"), "kN").value


@pytest.mark.parametrize("pan", ["pan-ondel-530", "pan-ondel-480"])
def test_about_35_per_cent_comes_back_from_the_wall_with_the_load_on_the_middle_of_the_seat(pan: str) -> None:
    """Common practice: for usual sizes about 65 % goes down to the floor's side and 35 % comes back from the wall.

    So it is where people sit; with the whole load at the pan's edge about half comes back, and that is what the fixings are asked to hold.
    """
    room, book = room_of({"design.appliances.0.ware": pan})
    middle, edge = back_share(room, book, room.placed[0])
    assert middle.unit == edge.unit == "%"
    assert middle.value == pytest.approx(35, abs=5)
    assert edge.value == pytest.approx(50, abs=5)


def test_a_frame_is_trusted_with_400_kg_and_the_check_says_where_it_lies() -> None:
    """Common practice, and a frame maker's page (V2): 400 kg. Both shares of the wall are said."""
    room, book = room_of()
    one = found(wall_pull, "Pull on each tie rod", (room, book), "WC 1")
    assert one.has is not None
    back = converted(one.has * number(2, "", "tie rods"), "kg").value
    assert back == pytest.approx(400 * back_share(room, book, room.placed[0])[1].value / 100, rel=0.025)
    assert "34 % with it on the middle of the seat, 50 % with it at the front edge" in one.message


@pytest.mark.parametrize(
    ("board", "limit"),
    [("board-plaster-mr-12", 32), ("board-gypsum-fibre-12", 40), ("board-cement-12", 50), ("board-foam-12", 40)],
)
def test_a_board_carries_tiles_up_to_its_published_limit(board: str, limit: float) -> None:
    """BS 5385-1:2018 as tabled by the trade: 32 plasterboard, 40 gypsum fibre, 50 glass-reinforced cement, 40 to 60 foam (V2)."""
    changes = {"design.finish.board": board}
    bare = found(tiles_on_board, ON_BOARD, room_of(changes, {"tile-600x300-white.weight": 0})).has
    assert bare is not None
    most = limit - bare.value
    assert found(tiles_on_board, ON_BOARD, room_of(changes, {"tile-600x300-white.weight": most})).state == "passes"
    assert found(tiles_on_board, ON_BOARD, room_of(changes, {"tile-600x300-white.weight": most + 0.1})).state == "fails"


@pytest.mark.parametrize(
    ("weight", "thickness", "state"),
    [(10, 6, "passes"), (17, 10, "passes"), (23, 10, "passes"), (28, 12, "fails"), (19, 7, "passes"), (27, 10, "fails"), (55, 20, "fails")],
)
def test_published_tile_weights_on_plasterboard(weight: float, thickness: float, state: str) -> None:
    """Ceramic 10 and 17, porcelain 23 and 28, stone 19, 27 and 55 kg/m², bed 5 (V2, a merchant's table); on 32 the answer is D."""
    sizes = {"tile-600x300-white.weight": weight, "tile-600x300-white.thickness": thickness}
    assert found(tiles_on_board, ON_BOARD, room_of({"design.finish.board": "board-plaster-mr-12"}, sizes)).state == state


def test_a_9_mm_porcelain_tile_is_taken_at_the_heavier_of_two_published_weights() -> None:
    """18 by one page, 20.7 by 2,300 kg/m³ of another (V2 both, in conflict): the heavier is safe."""
    tile = supplied_book().item("tile-600x300-grey")
    assert tile.size("thickness").value == 9
    assert tile.size("weight").value == pytest.approx((number(9) * number(2.3, "kg/m²·mm")).value)


@pytest.mark.parametrize("board", ["board-plaster-mr-12", "board-plaster-mr-15"])
def test_no_tiled_plasterboard_spans_more_than_450(board: str) -> None:
    """NHBC Standards, appendix 8.2-A: a lining of 12.5 or 15 mm to be tiled, studs 400 to 450 apart without more support (V)."""
    changes = {"survey.room.width": 6_000, "design.finish.board": board}
    widest = {"prewall.upright_centres": 600}
    assert found(centres, "Supports of the board", room_of(changes)).state == "passes"
    one = found(centres, "Supports of the board", room_of(changes, widest))
    assert one.has is not None
    assert one.has.value > 450
    assert one.state == "fails"


def test_a_timber_pre_wall_is_of_63_x_38_with_studs_at_most_600_apart() -> None:
    """NHBC Standards 6.3.9, table 3: plates and studs 63 x 38, at most 600 (V)."""
    room, _ = room_of({"design.prewall.built_of": "timber", "survey.room.width": 6_000})
    sizes = {tuple(sorted(each.section)) for each in room.members if each.what in {"stud", "head plate", "sole plate"}}
    assert sizes == {(38, 63)}
    places = [each.value for each in room.supports]
    assert max(b - a for a, b in pairwise(places)) <= 600


def test_a_joint_of_studwork_has_two_fixings() -> None:
    """The same: two nails a joint (V); screws are taken for nails. A stud or a noggin has a joint at each end."""
    worked = room_of({"design.prewall.built_of": "timber"})
    pieces = sum(each.what in {"stud", "noggin"} for each in worked[0].members)
    assert needed(timber_screws, "wood screw 80", worked) == pieces * 2 * 2


def test_boards_have_screws_for_300_apart_on_supports_400_apart() -> None:
    """NBS clauses 590 and 610: screws at most 300 apart (V2); so many a square metre is D."""
    worked = room_of()
    boarded = sum(face.width.value * face.height.value for face in worked[0].faces) / 1e6
    assert needed(screws, "board screw steel", worked) >= boarded / (0.3 * 0.4)


@pytest.mark.parametrize(("mass_kg", "said"), [(25, 0), (25.1, 1)])
def test_more_than_25_kg_is_warned_of(mass_kg: float, said: int) -> None:
    """HSE INDG143: 25 kg close to the waist, a guideline (V2)."""
    assert len(list(weights.says(*room_of(None, {"pan-ondel-530.weight": mass_kg})))) == said


@pytest.mark.parametrize(("built", "said"), [("2000 or later", 0), ("before 2000", 1), ("not known", 1)])
def test_only_a_house_wholly_after_1999_is_free_of_the_asbestos_caution(built: str, said: int) -> None:
    """Control of Asbestos Regulations 2012, regulation 5, with L143: presume it unless there is evidence; after 1999 is evidence (V2)."""
    cautions = list(asbestos.says(*room_of({"survey.existing.built": built})))
    assert len(cautions) == said
    assert all(isinstance(one, Caution) and "Presume" in one.words for one in cautions)


@pytest.mark.parametrize(("code", "kg_per_m"), [("strut-41x41", 2.66), ("strut-41x21", 1.24)])
def test_strut_weighs_what_makers_publish(code: str, kg_per_m: float) -> None:
    """Channel makers' engineering data: 41 x 41 x 2.5, 2.66; 41 x 21 x 1.5, 1.24 kg/m (V2)."""
    assert supplied_book().item(code).size("weight").value == kg_per_m
