"""A paper's drawings as DXF, read back by a public reader."""

from __future__ import annotations

from io import StringIO
from pathlib import Path
from typing import Any

import ezdxf
import ezdxf.bbox
import pytest

from tests.writers import sample_papers as samples
from tundish.documents.block import Document, Paragraph, SideBySide, Sketch, TrueSize
from tundish.documents.drawing import Box, Dimension, Drawing, Ellipse, Line, Shape, Style, Words
from tundish.writers.dxf import BETWEEN, LAYERS, TEXT, as_dxf, write_dxf

WALL = Drawing(
    "Wall A",
    (
        Box(0, 0, 2380, 1228, "wall"),
        Box(100, 0, 41, 1203, "steel"),
        Line(0, 1028, 2380, 1028, "datum"),
        Ellipse(1180, 253, 50, 50, "hidden"),
        Ellipse(1180, 400, 30, 60, "ware"),
        Ellipse(1180, 500, 60, 30, "ware"),
        Shape(((900, 300), (1100, 300), (1000, 500)), "ware"),
        Shape((), "ware"),
        Words(1180, 600, "WC 1, £ 2½ → pan", 2.6, "ink", bold=True),
        Words(20, 95, "H", 2.6, "hot", "end", turned=True),
        Dimension(0, -60, 1180, -60, "1,180"),
        Dimension(-60, 0, -60, 1228, "1,228", tbc=True),
    ),
    (-100, -100, 2580, 1400),
)
PLAN = Drawing("Plan", (Box(0, -300, 2380, 300, "board"),), (0, -300, 2380, 300))


def read(document: Document) -> Any:
    """What a reader makes of it, sound by its own checks."""
    drawn = ezdxf.read(StringIO(as_dxf(document, "25 Nov 2026 13:00")))  # type: ignore[attr-defined]
    assert drawn.audit().errors == []
    return drawn


def on(drawn: Any, layer: str) -> list[Any]:
    return list(drawn.modelspace().query(f'*[layer=="{layer}"]'))


def test_it_is_in_millimetres_and_every_layer_has_a_name() -> None:
    drawn = read(samples.paper(Sketch(WALL)))
    assert drawn.units == ezdxf.units.MM
    assert drawn.header["$INSUNITS"] == 4
    assert {name for name, _, _ in LAYERS.values()} | {TEXT} <= {layer.dxf.name for layer in drawn.layers}
    assert set(LAYERS) == set(Style.__args__)  # type: ignore[attr-defined]
    assert drawn.layers.get("DATUM-AND-CENTRES").dxf.linetype == "CENTER"


def test_the_marks_stand_on_their_layers_where_they_were_drawn() -> None:
    drawn = read(samples.paper(Sketch(WALL)))
    (wall,) = on(drawn, "WALL")
    assert [tuple(point[:2]) for point in wall.get_points()] == [(0, 0), (2380, 0), (2380, 1228), (0, 1228)]
    assert wall.closed
    (datum,) = on(drawn, "DATUM-AND-CENTRES")
    assert (datum.dxf.start.x, datum.dxf.start.y, datum.dxf.end.x) == (0, 1028, 2380)
    (outlet,) = on(drawn, "HIDDEN")
    assert (outlet.dxf.center.x, outlet.dxf.center.y, outlet.dxf.radius) == (1180, 253, 50)
    assert sorted(each.dxftype() for each in on(drawn, "WARE")) == ["ELLIPSE", "ELLIPSE", "LWPOLYLINE"]


def test_words_are_kept_whole_and_say_what_is_to_be_confirmed() -> None:
    drawn = read(samples.paper(Sketch(WALL)))
    texts = {each.dxf.text: each for each in drawn.modelspace().query("TEXT")}
    assert {"WC 1, £ 2½ → pan", "H", "1,180", "1,228 TBC", "Wall A"} == set(texts)
    assert texts["WC 1, £ 2½ → pan"].dxf.height == pytest.approx(52)
    assert texts["H"].dxf.layer == "HOT"
    assert texts["H"].dxf.rotation == 90
    assert texts["1,180"].dxf.layer == "DIMENSIONS"
    assert texts["1,228 TBC"].dxf.layer == "TO-BE-CONFIRMED"


def test_further_drawings_stand_clear_under_the_first_which_keeps_its_origin() -> None:
    drawn = read(samples.paper(Sketch(WALL), Paragraph("between"), SideBySide((Sketch(PLAN),), ())))
    box = ezdxf.bbox.extents(on(drawn, "WALL"))
    assert (box.extmin.x, box.extmin.y, box.extmax.x, box.extmax.y) == (0, 0, 2380, 1228)
    plan = ezdxf.bbox.extents(on(drawn, "BOARD"))
    assert plan.extmax.y == -100 - BETWEEN
    assert plan.size.x == 2380
    assert plan.size.y == 300


def test_at_true_size_words_are_as_high_as_on_paper() -> None:
    drawn = read(samples.paper(TrueSize(WALL, "WC 1")))
    (name,) = drawn.modelspace().query('TEXT[text=="1,180"]')
    assert name.dxf.height == pytest.approx(2.4)


def test_a_paper_without_drawings_is_an_empty_space(tmp_path: Path) -> None:
    file = tmp_path / "words.dxf"
    write_dxf(samples.paper(Paragraph("words")), file, "")
    drawn = ezdxf.readfile(file)  # type: ignore[attr-defined]
    assert len(drawn.modelspace()) == 0
    assert drawn.header.custom_vars.get("Title")
