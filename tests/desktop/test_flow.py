"""Widgets side by side go on in another line where there is no room."""

from __future__ import annotations

from itertools import pairwise

from pytestqt.qtbot import QtBot

from tundish.desktop.flow import Flow
from tundish.desktop.words import button


def test_what_has_no_room_goes_on_in_another_line_and_nothing_is_cut_off(qtbot: QtBot) -> None:
    parts = [button(f"Offcut {place} of the rack") for place in range(5)]
    flow = Flow(parts[:2], above=0)
    qtbot.addWidget(flow)
    flow.set_parts(parts)
    one, line = sum(part.sizeHint().width() + 40 for part in parts), parts[0].sizeHint().height()
    assert flow.heightForWidth(one) == line
    assert flow.heightForWidth(one // 2) > 2 * line
    flow.resize(one // 2, flow.heightForWidth(one // 2))
    with qtbot.waitExposed(flow):
        flow.show()
    assert all(part.isVisible() and flow.rect().contains(part.geometry()) for part in parts)
    rects = [part.geometry() for part in parts]
    assert not any(one.intersects(other) for one, other in pairwise(rects))


def test_a_flow_of_nothing_takes_no_room(qtbot: QtBot) -> None:
    flow = Flow(())
    qtbot.addWidget(flow)
    assert flow.heightForWidth(300) == 0
