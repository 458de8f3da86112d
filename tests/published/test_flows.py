"""What appliances discharge together, what a stack carries, and where published rule sets differ."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.published.asking import found, needed, room_of, wc_at
from tundish.catalogue.load import supplied_book
from tundish.rules.drainage.branch import branch
from tundish.rules.drainage.branch_length import branch_length
from tundish.rules.drainage.stack_flow import stack_flow
from tundish.rules.drainage.vents import vents

SYSTEMS = ("I", "II", "III", "IV")
DWELLING = 5.5
"""WC 1.7, bath 1.3, two basins 0.6, sink 1.3, washing machine 0.6: units of system III (V2, their sum D)."""
OURS = 2.0
"""Of that, the WC and the basin of the room."""


def of(dwellings: int, by: str = "EN 12056-2, system III", **more: Any) -> dict[str, Any]:
    """A room whose stack takes so many dwellings, its own WC and basin among them."""
    return {"design.piping": {"drains_by": by, **more}, "survey.stack.others": dwellings * DWELLING - OURS}


@pytest.mark.parametrize(
    ("name", "units"), [("basin", (0.5, 0.3, 0.3, 0.3)), ("wc", (2.0, 1.8, 1.7, 2.0)), ("wc_large", (2.5, 2.0, 2.0, 2.5))]
)
def test_discharge_units(name: str, units: tuple[float, ...]) -> None:
    """EN 12056-2:2000, table 2 (V2): basin and bidet; WC of 6 l, for system III the more of 1.2 to 1.7; of 9 l, the more of 1.6 to 2.0."""
    book = supplied_book()
    assert tuple(book.figure(f"discharge.{name}_{place}").value for place in range(1, 5)) == units


@pytest.mark.parametrize(("system", "units"), [(1, 0.5), (2, 0.3), (3, 0.4), (4, 0.3)])
def test_discharge_units_of_a_urinal(system: int, units: float) -> None:
    """The same (V2): with a flushing valve 0.5, 0.3, 0.3; system III gives none, and 0.4 with a cistern."""
    assert supplied_book().figure(f"discharge.urinal_{system}").value == units


@pytest.mark.parametrize(("use", "k"), [("now and then", 0.5), ("often", 0.7), ("by many at once", 1.0), ("special", 1.2)])
def test_how_often_it_is_used(use: str, k: float) -> None:
    """EN 12056-2, table 3 (V2): K 0.5, 0.7, 1.0, 1.2. A hundred units: ten times K."""
    one = found(stack_flow, "Flow in the stack", room_of({"survey.stack.others": 100 - OURS, "design.piping": {"use": use}}))
    assert one.has is not None
    assert one.has.value == pytest.approx(10 * k)


@pytest.mark.parametrize(("dwellings", "flow"), [(1, 1.7), (2, 1.7), (5, 2.622), (10, 3.708), (20, 5.244)])
def test_flow_of_so_many_dwellings(dwellings: int, flow: float) -> None:
    """K √ΣDU (V2), the largest unit governing where that is less (V2, a pump maker's encyclopaedia); the answers are D."""
    one = found(stack_flow, "Flow in the stack", room_of(of(dwellings)))
    assert one.has is not None
    assert one.has.value == pytest.approx(flow, abs=5e-4)


@pytest.mark.parametrize(("dwellings", "state"), [(11, "passes"), (12, "fails")])
def test_a_stack_of_100_with_square_entries_takes_eleven_dwellings(dwellings: int, state: str) -> None:
    """EN 12056-2, table 11: 4.0 l/s (V2); how many dwellings that is, D. A branch with bosses comes in square."""
    square = {**of(dwellings), "design.appliances.0.branch": "with bosses"}
    assert found(stack_flow, "Flow in the stack", room_of(square)).state == state


@pytest.mark.parametrize(
    ("dwellings", "state", "entry"), [(11, "passes", ""), (12, "passes", "swept "), (19, "passes", "swept "), (20, "fails", "")]
)
def test_swept_entries_take_nineteen_and_are_then_on_the_list(dwellings: int, state: str, entry: str) -> None:
    """EN 12056-2, table 11: 5.2 l/s (V2); how many dwellings that is, D."""
    worked = room_of(of(dwellings))
    assert found(stack_flow, "Flow in the stack", worked).state == state
    assert needed(branch, f"soil branch {entry}110", worked) == 1


@pytest.mark.parametrize(("dwellings", "state"), [(37, "passes"), (38, "fails")])
def test_approved_document_h_lets_it_take_more_and_the_difference_is_told(dwellings: int, state: str) -> None:
    """Approved Document H, table 3: 7.2 l/s. From memory (M). 0.5 √(5.5 × 37) = 7.13, × 38 = 7.23. EN 12056-2 has 4.0 (V2), a conflict."""
    one = found(stack_flow, "Flow in the stack", room_of(of(dwellings, "Approved Document H")))
    assert one.state == state
    assert one.message.startswith("Rule sets differ") == (state == "passes")


def test_swept_entries_carry_more() -> None:
    """Table 11: 5.2 with swept entries (V2), as a trade magazine says too (V2)."""
    book = supplied_book()
    assert (book.figure("discharge.stack_square").value, book.figure("discharge.stack_swept").value) == (4.0, 5.2)


@pytest.mark.parametrize("system", ["I", "III", "IV"])
def test_a_flush_of_4_l_is_not_permitted(system: str) -> None:
    """EN 12056-2, table 2 (V2): not in systems I, III and IV."""
    worked = room_of({"design.piping": {"drains_by": f"EN 12056-2, system {system}"}}, {"pan-ondel-530.flush": 4})
    one = found(stack_flow, "Flow in the stack", worked)
    assert one.state == "fails"
    assert "not permitted" in one.message


def test_a_flush_of_4_l_is_permitted_by_system_ii() -> None:
    """The same (V2): 1.8 in system II."""
    worked = room_of({"design.piping": {"drains_by": "EN 12056-2, system II"}}, {"pan-ondel-530.flush": 4})
    one = found(stack_flow, "Flow in the stack", worked)
    assert one.has is not None
    assert (one.state, one.has.value) == ("passes", 1.8)


@pytest.mark.parametrize(("run", "state"), [(10_000, "passes"), (10_001, "fails")])
def test_a_branch_by_system_ii_may_be_10_m(run: float, state: str) -> None:
    """EN 12056-2 system II: 10 m (V2, a pipe catalogue)."""
    worked = room_of({**wc_at(run), "survey.room.width": 12_000, "design.piping": {"drains_by": "EN 12056-2, system II"}})
    assert found(branch_length, "Length of WC branch", worked).state == state


@pytest.mark.parametrize(("air", "state"), [(13.6, "passes"), (13.5, "fails")])
def test_a_valve_on_a_stack_lets_in_eight_times_its_flow(air: float, state: str) -> None:
    """A building regulation's digest of EN 12056-2 (V2): 8 × Qtot; 8 × 1.7 is D."""
    worked = room_of({"survey.stack.vent": "by a valve inside", "survey.stack.valve_air": air})
    assert found(vents, "Air for the stack", worked).state == state


@given(st.floats(0, 500), st.floats(0, 500))
@settings(max_examples=15, deadline=None)
def test_more_on_the_stack_never_passes_where_less_failed(others: float, more: float) -> None:
    less, greater = (found(stack_flow, "Flow in the stack", room_of({"survey.stack.others": each})) for each in (others, others + more))
    assert not (less.state == "fails" and greater.state == "passes")
    assert less.has is not None
    assert greater.has is not None
    assert greater.has.value >= less.has.value
