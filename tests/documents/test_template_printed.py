"""The drilling template as a ruler finds it on the printed pages, and as another program reads its DXF."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.writers.reading import corners
from tundish.documents import drilling_template
from tundish.estimate import Estimate
from tundish.layout.room import Placed
from tundish.writers.index import write
from tundish.writers.pdf import pdf_bytes
from tundish.writers.pdf_true_size import CELL

BOLT = 12.0


def circles(pdf: bytes, page: int, across: float) -> list[tuple[float, float]]:
    """The centres of circles of that size on a page, in its own millimetres, from the left; also where the page's edge hides them."""
    found = []
    for points in corners(pdf, page):
        xs, ys = zip(*points, strict=True)
        wide, high = max(xs) - min(xs), max(ys) - min(ys)
        if wide == pytest.approx(across, abs=0.02) and high == pytest.approx(across, abs=0.02):
            found.append(((max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2))
    return sorted(found)


def first(one: Estimate) -> Placed:
    return next(placed for room in one.rooms for placed in room.framed)


@pytest.mark.parametrize("number", ["101", "102", "103", "104"])
def test_studs_and_outlet_are_on_paper_as_far_apart_as_on_the_wall(number: str, worked: dict[str, Estimate]) -> None:
    one = worked[number]
    placed = first(one)
    pdf = pdf_bytes(drilling_template.build(one), "")
    (left, low), (right, high) = circles(pdf, 1, BOLT)
    assert right - left == pytest.approx(placed.ware.sizes["stud_spacing"][0], abs=0.02)
    assert low == pytest.approx(high, abs=0.01)
    if "outlet" in placed.figures:
        ((middle, drain),) = circles(pdf, 1, 110)
        assert middle == pytest.approx((left + right) / 2, abs=0.02)
        assert low - drain == pytest.approx(placed.figures["studs"].value - placed.figures["outlet"].value, abs=0.02)


def test_pages_laid_cross_on_cross_go_on_where_the_one_before_ended(worked: dict[str, Estimate]) -> None:
    pdf = pdf_bytes(drilling_template.build(worked["102"]), "")
    beside, below = circles(pdf, 2, BOLT), circles(pdf, 3, BOLT)
    for (x, y), right, under in zip(circles(pdf, 1, BOLT), beside, below, strict=True):
        assert right == pytest.approx((x - CELL[0], y), abs=0.02)
        assert under == pytest.approx((x, y + CELL[1]), abs=0.02)


def test_a_drawing_program_finds_the_same_holes(worked: dict[str, Estimate], tmp_path: Path) -> None:
    import ezdxf

    one = worked["102"]
    placed = first(one)
    (file,) = write(drilling_template.build(one), tmp_path, ("dxf",), "")
    read = ezdxf.readfile(file)  # type: ignore[attr-defined]
    assert read.units == 4, "millimetres"
    assert not read.audit().errors
    bolts = {
        (round(circle.dxf.center.x, 3), round(circle.dxf.center.y, 3))
        for circle in read.modelspace().query("CIRCLE")
        if circle.dxf.radius == BOLT / 2
    }
    half, studs = placed.ware.sizes["stud_spacing"][0] / 2, placed.figures["studs"].value
    assert {(-half, round(studs, 3)), (half, round(studs, 3))} <= bolts
