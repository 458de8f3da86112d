"""What is worked out once for all that ask for it of the same room."""

from __future__ import annotations

from tundish.layout.once import once


def test_the_very_same_thing_is_worked_out_once() -> None:
    asked: list[tuple[int, ...]] = []

    @once
    def length(of: tuple[int, ...]) -> int:
        asked.append(of)
        return len(of)

    given = tuple(range(3))
    assert (length(given), length(given)) == (3, 3)
    assert len(asked) == 1


def test_something_else_is_worked_out_for_itself_even_when_it_is_equal() -> None:
    asked: list[list[int]] = []

    @once
    def first(of: list[int]) -> int:
        asked.append(of)
        return of[0]

    assert first([1]) == 1
    assert first([1]) == 1
    assert first([2]) == 2
    assert len(asked) == 3


def test_the_oldest_answers_are_let_go_and_worked_out_again() -> None:
    asked: list[int] = []

    @once
    def first(of: list[int]) -> int:
        asked.append(of[0])
        return of[0]

    rooms = [[number] for number in range(100)]
    assert [first(each) for each in rooms] == list(range(100))
    assert first(rooms[99]) == 99
    assert len(asked) == 100
    assert first(rooms[0]) == 0
    assert len(asked) == 101
