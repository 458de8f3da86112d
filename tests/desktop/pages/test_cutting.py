"""Cutting: plans to scale, pieces that say where their length is from, and better plans on offer."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from tests.desktop.fitter import WAIT_MS, Fitter
from tests.desktop.hands import click
from tests.desktop.spoken_names import nameless
from tundish.cutting.plan import BarPlan
from tundish.desktop.canvas.cut_view import CutView
from tundish.desktop.chips import Chip
from tundish.desktop.pages.cutting import CuttingPage, summary, too_long
from tundish.desktop.tile_view import StartCard
from tundish.documents.tile_lines import columns
from tundish.estimate import Estimate
from tundish.field import put


@pytest.fixture(autouse=True)
def no_proof() -> None:
    """Here the search for a proof goes on: it is what is tried."""


def opened(fitter: Fitter, number: str = "102") -> tuple[CuttingPage, Estimate]:
    fitter.open(number)
    fitter.settled()
    page = fitter.page("Alt+5")
    assert isinstance(page, CuttingPage)
    return page, fitter.settled()


def left_off(fitter: Fitter) -> Estimate:
    """Stop the search for better plans, and wait until it has ended."""
    fitter.workspace.leave_off()
    fitter.qtbot.waitUntil(lambda: not fitter.workspace.proving)
    return fitter.settled()


def said(part: QWidget) -> list[str]:
    return [each.text() for each in part.findChildren(QLabel) if each.isVisible()]


def views(page: CuttingPage) -> list[CutView]:
    return [each for each in page.findChildren(CutView) if each.isVisible()]


def test_every_material_that_is_cut_from_bars_has_its_plan_and_its_count(fitter: Fitter) -> None:
    page, estimate = opened(fitter)
    bars = [plan for plan in estimate.cuts if isinstance(plan.plan, BarPlan)]
    for plan in bars:
        assert plan.item.name in said(page)
        assert summary(plan) in said(page)
    assert f"{sum(len(plan.cuts) for plan in bars)} pieces to cut" in said(page)


def test_boards_are_on_a_view_of_their_own(fitter: Fitter) -> None:
    page, estimate = opened(fitter)
    click(next(each for each in page.findChildren(Chip) if each.text() == "Board sheets"))
    boards = [plan for plan in estimate.cuts if not isinstance(plan.plan, BarPlan)]
    fitter.qtbot.waitUntil(
        lambda: [each.accessibleName() for each in views(page)] == [f"{plan.item.name}: {summary(plan)}" for plan in boards]
    )


def test_a_piece_that_is_pressed_says_where_its_length_is_from(fitter: Fitter) -> None:
    page, estimate = opened(fitter)
    plan = next(plan for plan in estimate.cuts if plan.item.kind == "strut")
    cut = plan.cuts[0]
    view = next(each for each in views(page) if each.accessibleName().startswith(plan.item.name))
    click(view, view.place_of(cut.mark).center())
    assert view.piece() == cut.mark
    fitter.qtbot.waitUntil(lambda: f"{cut.what} {cut.mark}" in said(fitter.window.where_from))


def test_another_view_leaves_nothing_beside_it_of_what_was_chosen_in_the_last(fitter: Fitter) -> None:
    """What is chosen stays chosen while the plans are made anew, and is told no more where it cannot be seen."""
    page, estimate = opened(fitter)
    plan = next(plan for plan in estimate.cuts if plan.item.kind == "strut")
    view = next(each for each in views(page) if each.accessibleName().startswith(plan.item.name))
    click(view, view.place_of(plan.cuts[0].mark).center())
    told = f"{plan.cuts[0].what} {plan.cuts[0].mark}"
    fitter.qtbot.waitUntil(lambda: told in said(fitter.window.where_from))
    for name in ("Tile set-out", "Board sheets", "Bars"):
        click(next(each for each in page.findChildren(Chip) if each.text() == name))
        assert told not in said(fitter.window.where_from)
        assert page.help_sentences[0] in said(fitter.window.where_from), "the help of the page is there again"


def test_the_arrows_go_from_piece_to_piece_and_tell_each(fitter: Fitter) -> None:
    page, _ = opened(fitter)
    view = next(each for each in views(page) if "Strut" in each.accessibleName())
    view.setFocus(Qt.FocusReason.TabFocusReason)
    first = view.piece()
    QTest.keyClick(view, Qt.Key.Key_Right)
    assert view.piece() != first
    assert view.accessibleDescription().startswith(view.piece())
    QTest.keyClick(view, Qt.Key.Key_Left)
    assert view.piece() == first


def test_a_piece_to_be_confirmed_is_told_not_to_be_cut_yet(fitter: Fitter) -> None:
    page, estimate = opened(fitter)
    waiting = {cut.mark for plan in estimate.cuts if isinstance(plan.plan, BarPlan) for cut in plan.cuts if cut.length.tbc}
    names = [each.accessibleName() for view in views(page) for each in view.findChildren(QWidget) if each.accessibleName()]
    assert waiting
    assert {name.partition(",")[0] for name in names if "do not cut yet" in name} == waiting
    assert f"{sum('do not cut yet' in name for name in names)} not to be cut yet" in said(page)


def test_pieces_too_long_for_anything_say_what_to_do(fitter: Fitter) -> None:
    _, estimate = opened(fitter)
    plan = next(plan for plan in estimate.cuts if isinstance(plan.plan, BarPlan))
    beyond = replace(plan, plan=replace(plan.plan, unplaced=(0,)))
    assert too_long(beyond).startswith(f"Longer than anything on offer: {plan.cuts[0].mark} of")
    assert "order a longer length" in too_long(beyond)
    assert isinstance(plan.plan, BarPlan)
    nothing = replace(plan, plan=replace(plan.plan, unplaced=(0,), stock=()))
    assert "no supplier offers it" in too_long(nothing)


def test_a_better_plan_is_offered_and_taken_only_when_asked(fitter: Fitter) -> None:
    page, _ = opened(fitter)
    estimate = left_off(fitter)
    cheaper = replace(estimate, price=replace(estimate.price, total=estimate.price.total - Decimal("11.80")))
    fitter.workspace.better_offered.emit(cheaper)
    assert any("saves £11.80" in words for words in said(page))
    assert fitter.workspace.estimate is estimate
    fitter.press("Use it", page)
    assert fitter.workspace.estimate is cheaper
    assert not any("better plan" in words for words in said(page))


def test_print_cut_list_goes_to_the_cut_list_on_paper(fitter: Fitter) -> None:
    page, _ = opened(fitter)
    fitter.press("Print cut list", page)
    assert fitter.window.current == "paper"
    assert fitter.workspace.paper == "cut-list"


def test_every_control_has_a_name(fitter: Fitter) -> None:
    page, _ = opened(fitter)
    assert nameless(page) == []


def test_the_best_starts_for_the_tiles_stand_side_by_side_and_one_is_chosen(fitter: Fitter) -> None:
    page, _ = opened(fitter, "101")
    click(next(each for each in page.findChildren(Chip) if each.text() == "Tile set-out"))
    cards = [each for each in page._tiles.findChildren(StartCard) if each.isVisible()]
    assert len(cards) == 3
    assert [card.choose.isEnabled() for card in cards] == [False, True, True]
    wanted = cards[1].start
    fitter.press("Start so", cards[1])
    room = fitter.settled().rooms[0]
    assert room.plan.design.finish.tile_start == wanted
    assert columns(room) != ()
    taken = [card for card in page._tiles.findChildren(StartCard) if card.isVisible() and not card.choose.isEnabled()]
    assert [card.start for card in taken] == [wanted]
    fitter.undo()
    assert fitter.settled().rooms[0].plan.design.finish.tile_start == ""
    assert nameless(page) == []


def test_a_tiled_floor_is_set_out_under_the_walls_and_starts_as_chosen(fitter: Fitter) -> None:
    page, _ = opened(fitter, "104")
    click(next(each for each in page.findChildren(Chip) if each.text() == "Tile set-out"))
    walls = [each for each in page.findChildren(StartCard) if each.isVisible()]
    path = "rooms.0.design.floor.tile"
    fitter.workspace.edit("tile the floor", put(fitter.workspace.job, path, "tile-600x600-slate"), path)
    assert fitter.settled().rooms[0].floor is not None
    cards = [each for each in page.findChildren(StartCard) if each.isVisible()][len(walls) :]
    assert len(cards) == 3
    assert any(words.endswith(", floor: Tile 600 × 600, slate look") for words in said(page))
    fitter.press("Start so", cards[1])
    assert fitter.settled().rooms[0].plan.design.floor.tile_start == cards[1].start != ""
    assert nameless(page) == []


def test_a_proof_is_looked_for_beside_the_window_and_stop_ends_it_at_once(fitter: Fitter) -> None:
    page, before = opened(fitter, "103")
    fitter.qtbot.waitUntil(lambda: fitter.workspace.proving or all(each.plan.proven for each in fitter.settled().cuts), timeout=WAIT_MS)
    assert fitter.window.tally.isVisible()
    if fitter.workspace.proving:
        fitter.press("Stop")
    after = left_off(fitter)
    assert [len(each.plan.cuts) for each in after.cuts] == [len(each.plan.cuts) for each in before.cuts]
    assert page.isVisible()
    assert not [each for each in fitter.window.findChildren(QPushButton) if each.text() == "Stop" and each.isVisible()]


def test_the_same_plan_with_a_better_bound_is_shown_without_asking(fitter: Fitter) -> None:
    page, _ = opened(fitter)
    estimate = left_off(fitter)
    proven = replace(estimate, cuts=tuple(replace(each, plan=replace(each.plan, proven=True)) for each in estimate.cuts))
    fitter.workspace._show_better(proven)
    assert fitter.workspace.estimate is proven
    assert not any("better plan" in words for words in said(page))
