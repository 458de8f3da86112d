"""The ledger: whatever moves, what is on hand is the sum of the movements, and nothing goes below nought unsaid."""

from __future__ import annotations

from collections import defaultdict

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tundish.catalogue.item import RackPiece
from tundish.store.keep import Store
from tundish.store.ledger import PLACES, SCRAPPED, STOCK_TAKE, USED, Difference, Ledger, Reorder
from tundish.store.shelf import SET_ASIDE

ITEMS = ("sound-pad", "channel-nut-m10")
MOVES = st.lists(
    st.tuples(st.sampled_from(ITEMS), st.integers(-40, 40), st.sampled_from(PLACES), st.sampled_from(("", "101"))), min_size=1, max_size=15
)


@settings(max_examples=15, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(MOVES)
def test_on_hand_is_the_sum_of_the_movements_and_below_nought_is_said(store: Store, moves: list[tuple[str, int, str, str]]) -> None:
    ledger = Ledger(store)
    held: dict[tuple[str, str, str], float] = defaultdict(float)
    for each in ledger.movements():
        if not each.piece:
            held[each.item, each.place, each.job] += each.amount
    for item, amount, place, job in moves:
        said = ledger.move(item, amount, "goods in" if amount > 0 else USED, place=place, job=job)
        held[item, place, job] += amount
        assert bool(said) == (amount < 0 and held[item, place, job] < 0)
    assert {(each.item, each.place, each.job): each.amount for each in ledger.on_hand()} == {key: has for key, has in held.items() if has}


def test_what_is_set_aside_is_the_jobs_own_used_or_not_and_no_other_jobs(store: Store) -> None:
    ledger = Ledger(store)
    had = store.book().stock["sound-pad"]
    assert ledger.set_aside("101", {"sound-pad": 4}) == ()
    assert ledger.set_aside("101", {"sound-pad": 4}) == ()
    assert (store.book("101").stock["sound-pad"], store.book("102").stock["sound-pad"]) == (had, had - 4)
    assert ledger.move("sound-pad", -4, USED, job="101") == ""
    assert store.book("101").stock["sound-pad"] == had
    assert "is not there" in ledger.set_aside("102", {"sound-pad": 100})[0]
    assert all(each.amount >= 0 for each in ledger.on_hand())
    assert {each.what for each in ledger.movements("sound-pad")} == {STOCK_TAKE, SET_ASIDE, USED}


def test_an_offcut_put_by_is_found_by_the_next_job_and_leaves_once(store: Store) -> None:
    ledger = Ledger(store)
    key = ledger.put_by(RackPiece("", "strut-41x21", 886, place="lock-up"))
    assert key in {piece.key for piece in store.book("103").rack}
    ledger.keep_pieces("101", (key,))
    assert key in {piece.key for piece in store.book("101").rack}
    assert key not in {piece.key for piece in store.book("103").rack}
    ledger.keep_pieces("103", (key,))
    assert key not in {piece.key for piece in store.book("103").rack}, "what is kept for a job is left to it"
    ledger.keep_pieces("101", ())
    assert key in {piece.key for piece in store.book("103").rack}
    assert ledger.take_piece(key, SCRAPPED) == ""
    assert "left the rack already" in ledger.take_piece(key, SCRAPPED)
    assert "no piece" in ledger.take_piece("R999", USED)
    assert key not in {piece.key for piece, _ in ledger.pieces()}


def test_a_piece_found_after_all_is_on_the_rack_again_under_its_key(store: Store) -> None:
    ledger = Ledger(store)
    key = ledger.pieces()[0][0].key
    assert "is on the rack" in ledger.put_back(key, STOCK_TAKE)
    ledger.take_piece(key, STOCK_TAKE, note="not found")
    assert key not in {piece.key for piece, _ in ledger.pieces()}
    assert ledger.put_back(key, STOCK_TAKE, note="found after all") == ""
    assert key in {piece.key for piece, _ in ledger.pieces()}
    assert [each.note for each in ledger.movements() if each.piece == key][-2:] == ["not found", "found after all"]
    assert "no piece" in ledger.put_back("R999", STOCK_TAKE)


def test_a_stock_take_enters_the_difference_with_its_reason(store: Store) -> None:
    ledger = Ledger(store)
    (held,) = (each for each in ledger.on_hand() if each.item == "sound-pad")
    ledger.take_stock((Difference("sound-pad", held.place, held.amount, held.amount - 2, "two torn"),))
    last = ledger.movements("sound-pad")[-1]
    assert (last.amount, last.what) == (-2, STOCK_TAKE)
    assert "two torn" in last.note


def test_a_holding_is_carried_to_another_place(store: Store) -> None:
    ledger = Ledger(store)
    (held,) = (each for each in ledger.on_hand() if each.item == "sound-pad")
    assert ledger.shift(held, "lock-up") == ""
    (now,) = (each for each in ledger.on_hand() if each.item == "sound-pad")
    assert (now.place, now.amount) == ("lock-up", held.amount)


def test_an_offcut_is_carried_under_its_key(store: Store) -> None:
    ledger = Ledger(store)
    piece = ledger.pieces()[0][0]
    ledger.shift_piece(piece.key, "site")
    assert piece.key in {each.key for each, _ in ledger.pieces() if each.place == "site"}
    assert [(each.place, each.amount) for each in ledger.movements() if each.piece == piece.key][-2:] == [(piece.place, -1), ("site", 1)]
    assert ledger.take_piece(piece.key, SCRAPPED) == ""


def test_what_a_job_no_longer_needs_is_let_go(store: Store) -> None:
    ledger = Ledger(store)
    ledger.move("sound-pad", 6, "goods in", place="site")
    had = sum(each.amount for each in ledger.on_hand() if each.item == "sound-pad")
    ledger.set_aside("101", {"sound-pad": 5})
    for held in (each for each in ledger.on_hand() if each.job == "101"):
        assert ledger.let_go(held) == ""
    assert [each.job for each in ledger.on_hand() if each.item == "sound-pad"] == [""] * 2
    assert sum(each.amount for each in ledger.on_hand() if each.item == "sound-pad") == had
    assert ledger.set_aside("101", {"sound-pad": 5}) == ()
    key = ledger.pieces()[0][0].key
    ledger.keep_pieces("101", [key])
    ledger.let_go_piece(key)
    assert {each.job for each, _ in ledger.pieces() if each.key == key} == {""}


def test_reorder_levels_are_kept_and_taken_away(store: Store) -> None:
    ledger = Ledger(store)
    ledger.set_reorder(Reorder("sound-pad", 4, 10))
    assert ledger.reorders() == {"sound-pad": Reorder("sound-pad", 4, 10)}
    ledger.set_reorder(Reorder("sound-pad", 0, 0))
    assert ledger.reorders() == {}
