"""A longer run, a thicker wall, one more appliance: nothing is then asked for less, and nothing passes that failed before."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

import hypothesis
from hypothesis import strategies as st

from tests.published.asking import found, needed, room_of, wc_at
from tests.rules.test_cases import given
from tundish.rules.drainage.branch_length import branch_length
from tundish.rules.drainage.sleeves import sleeves
from tundish.rules.drainage.soil_clips import soil_clips
from tundish.rules.drainage.waste_length import waste_length
from tundish.rules.noise.strip import strip
from tundish.rules.rule import Finding
from tundish.rules.water.air_gap import air_gap
from tundish.rules.water.insulation import insulation
from tundish.rules.water.loading import loading

FEW = hypothesis.settings(max_examples=12, deadline=None)
WORSE = {"passes": 0, "look": 1, "fails": 2}


@hypothesis.given(st.integers(200, 5_000), st.integers(0, 4_000))
@FEW
def test_a_longer_branch_never_needs_fewer_clips_nor_passes_where_a_shorter_one_failed(run: int, more: int) -> None:
    near, far = room_of(wc_at(run)), room_of({**wc_at(run + more), "survey.room.width": 12_000})
    assert needed(soil_clips, "soil clip 110", near) <= needed(soil_clips, "soil clip 110", far)
    one, other = (found(branch_length, "Length of WC branch", each).state for each in (near, far))
    assert WORSE[one] <= WORSE[other]


@hypothesis.given(st.integers(300, 2_500), st.integers(0, 2_500))
@FEW
def test_a_longer_waste_of_one_size_never_passes_where_a_shorter_one_failed(run: int, more: int) -> None:
    rooms = [room_of({"survey.room.width": 8_000, "design.appliances.1.centre": 150 + each}) for each in (run, run + more)]
    sizes = [room.pipes_of("waste")[0].size for room, _ in rooms]
    near, far = (found(waste_length, "Length of waste", each).state for each in rooms)
    if sizes[0] == sizes[1]:
        assert WORSE[near] <= WORSE[far]


@hypothesis.given(st.integers(60, 600), st.integers(0, 200))
@FEW
def test_a_thicker_wall_never_takes_a_shorter_sleeve(thick: int, more: int) -> None:
    def asked(wall: int) -> float:
        return needed(sleeves, "wall sleeve 110", room_of({"survey.stack.behind": True, "survey.wall.thickness": wall}))

    assert asked(thick) <= asked(thick + more)


@hypothesis.given(st.integers(2_400, 5_000), st.integers(0, 3_000))
@FEW
def test_a_longer_pre_wall_never_takes_less_strip_nor_insulation(wide: int, more: int) -> None:
    near, far = (room_of({"survey.room.width": each}) for each in (wide, wide + more))
    assert needed(strip, "sound strip", near) <= needed(strip, "sound strip", far)
    assert needed(insulation, "pipe insulation 15", near) == needed(insulation, "pipe insulation 15", far)


@hypothesis.given(st.integers(0, 6))
@FEW
def test_one_more_appliance_never_loads_the_cold_less(count: int) -> None:
    def loads(urinals: int) -> float:
        more = {
            f"design.appliances.{4 + place}": {"kind": "urinal", "name": f"More {place}", "on": "2", "centre": 700 + 700 * place,
                                               "top": 610, "ware": "urinal-brodwel-330", "frame": "frame-urinal-1310"}
            for place in range(urinals)
        }  # fmt: skip
        has = found(loading, "Size of the cold pipe, 15", room_of({"design.further": [{"wall": "B"}], **more}, room="row")).has
        assert has is not None
        return has.value

    assert loads(count) <= loads(count + 1)


def test_a_sheet_without_an_air_gap_is_told() -> None:
    room, book = given({"room": "plain"})
    (one, *_) = room.of_kind("wc")
    sizes = {name: size for name, size in one.frame.sizes.items() if name != "air_gap"}
    bare = replace(one, frame=replace(one.frame, sizes=MappingProxyType(sizes)))
    (said,) = air_gap.says(replace(room, placed=(bare,)), book)
    assert isinstance(said, Finding)
    assert said.state == "cannot tell"
    assert "enter it in the catalogue" in said.message
