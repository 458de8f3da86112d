"""The scale a drawing is set at."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.writers import sample_papers as samples
from tests.writers.reading import texts
from tundish.documents.block import Sketch
from tundish.documents.drawing import SCALES, Box, Dimension, Drawing, Words
from tundish.writers.pdf import pdf_bytes
from tundish.writers.pdf_flow import ROOM, WIDTH
from tundish.writers.pdf_sketch import scale_of, sketch_strip


def _drawing(width: float, height: float, *marks: Words | Dimension) -> Drawing:
    return Drawing("Wall", marks, (0, 0, width, height))


@pytest.mark.parametrize(
    ("width", "scale"), [(1000, 10), (1860, 10), (1861, 12.5), (2380, 15), (2900, 16), (3700, 20), (9000, 50), (9400, 100)]
)
def test_the_largest_round_scale_that_fits_is_taken(width: float, scale: float) -> None:
    assert scale_of(_drawing(width, 500), 0, WIDTH) == scale


def test_a_tall_drawing_is_held_to_the_page() -> None:
    assert scale_of(_drawing(500, 2400), 0, WIDTH) == 16


def test_a_wanted_scale_is_kept_if_it_fits() -> None:
    assert scale_of(_drawing(180, 200), 1, WIDTH) == 1
    assert scale_of(_drawing(2380, 500), 20, WIDTH) == 20
    assert scale_of(_drawing(2380, 500), 10, WIDTH) == 15


def test_words_that_stand_out_are_given_room() -> None:
    bare = _drawing(1850, 500)
    labelled = _drawing(1850, 500, Words(1850, 100, "1,228 above the floor", anchor="start"))
    measured = _drawing(1850, 500, Dimension(0, 0, 0, 500, "500"))
    assert scale_of(bare, 0, WIDTH) == 10
    assert scale_of(labelled, 0, WIDTH) > 10
    assert scale_of(measured, 0, WIDTH) > 10


@given(st.floats(1, 100_000), st.floats(1, 100_000), st.integers(0, 60), st.floats(0.1, 1))
def test_a_drawing_always_fits_the_page(width: float, height: float, wanted: int, share: float) -> None:
    strip = sketch_strip(Sketch(_drawing(width, height), "Caption", wanted, share), WIDTH)
    assert strip.height <= ROOM
    scale = scale_of(_drawing(width, height), wanted, WIDTH)
    assert scale in SCALES or scale % 100 == 0 or scale == wanted


def test_a_drawing_never_stands_without_its_scale() -> None:
    drawing = Drawing("Square", (Box(0, 0, 500, 500, "ink"),), (0, 0, 500, 500))
    (words,) = texts(pdf_bytes(samples.paper(Sketch(drawing, "niche " * 2_000)), ""))
    assert "scale 1:" in words
    assert "…" in words
