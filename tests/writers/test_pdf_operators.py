"""What is drawn on a page, as a reader of its operators finds it: marks and text objects closed within one another, words where asked."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfgen.canvas import Canvas

from tundish.writers.pdf_operators import Operators, Setting
from tundish.writers.pdf_type import face

Step = tuple[str, float, float]
steps = st.lists(st.tuples(st.sampled_from(["words", "bold", "line", "begin", "end", "part"]), st.floats(0, 600), st.floats(0, 800)))


class Heard(Canvas):
    """A canvas that keeps what is put on its page."""

    def __init__(self) -> None:
        super().__init__("never written.pdf")
        self.put: list[str] = []

    def addLiteral(self, s: object, escaped: int = 1) -> None:  # noqa: N802 - the library's own name
        self.put.append(str(s))


def written(made: list[Step]) -> list[str]:
    """The operators, one a string, each with what it is of."""
    canvas = Heard()
    operators, number, marked = Operators(canvas), 0, False

    def again(_: str) -> str:
        nonlocal number
        number += 1
        return f"/P<</MCID {number}>>BDC"

    for what, x, y in made:
        match what:
            case "words" | "bold":
                operators.words(Setting(x, y, face("Bold" if what == "bold" else "Regular"), 9), "Pan")
            case "line":
                operators.line(x, y, x + 1, y)
            case "begin" if not marked:
                operators.begin(again(""), again)
                marked = True
            case "end" if marked:
                operators.end()
                marked = False
            case "part":
                operators.part()
    if marked:
        operators.end()
    operators.page_ends()
    return "\n".join(canvas.put).replace("BDC EMC", "BDC\nEMC").splitlines()


@given(steps)
def test_marks_and_text_objects_lie_within_one_another_and_words_in_text_alone(made: list[Step]) -> None:
    inside: list[str] = []
    for each in written(made):
        match each.rsplit(maxsplit=1)[-1]:
            case "BT":
                assert "text" not in inside
                inside.append("text")
            case "ET":
                assert inside.pop() == "text"
            case "EMC":
                assert inside.pop() == "mark"
            case operator:
                if operator.endswith("BDC"):
                    assert "mark" not in inside
                    inside.append("mark")
                elif each.endswith("Tj"):
                    assert "text" in inside
                else:
                    assert "text" not in inside
    assert inside == []


@given(steps)
def test_every_piece_of_a_mark_has_its_own_number_and_all_that_is_asked_for_is_drawn(made: list[Step]) -> None:
    found = written(made)
    numbers = [int(number[1]) for each in found if (number := re.search(r"MCID (\d+)", each))]
    assert all(before < after for before, after in pairwise(numbers))
    assert sum(each.endswith("Tj") for each in found) == sum(what in {"words", "bold"} for what, _, _ in made)
    assert sum(each.endswith(" S") for each in found) == sum(what == "line" for what, _, _ in made)


@given(steps)
def test_words_stand_where_they_are_asked_for_to_a_tenth_of_a_point(made: list[Step]) -> None:
    asked = [(x, y) for what, x, y in made if what in {"words", "bold"}]
    across = up = 0.0
    places = []
    for each in written(made):
        if each == "BT":
            across = up = 0.0
        elif found := re.search(r"(\S+) (\S+) Td", each):
            across, up = across + float(found[1]), up + float(found[2])
            places.append((across, up))
    assert len(places) == len(asked)
    assert all(place == pytest.approx(wanted, abs=0.051) for place, wanted in zip(places, asked, strict=True))


def test_a_type_that_goes_on_is_named_once_and_again_after_the_state_was_put_back() -> None:
    canvas = Heard()
    operators = Operators(canvas)
    for x in (10, 20, 30):
        operators.words(Setting(x, 100, face("Regular"), 9), "Pan")
    assert sum("Tf" in each for each in canvas.put) == 1
    operators.part()
    operators.forget()
    operators.words(Setting(40, 100, face("Regular"), 9), "Pan")
    assert sum("Tf" in each for each in canvas.put) == 2


def test_letters_that_end_a_string_are_spelt() -> None:
    canvas = Heard()
    Operators(canvas).words(Setting(0, 0, face("Regular"), 9), "(a) \\ b")
    assert canvas.put[-1].endswith(r"(\(a\) \\ b)Tj")
