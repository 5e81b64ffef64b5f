"""The DXF read back by its own library: lengths on the ground, layers in words, texts as texts."""

from __future__ import annotations

import io
import math
import subprocess
import sys
from collections import Counter
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import ezdxf
import pytest
from demo_jobs import job_path

from permitkit.drawing.dimensions import Arrow
from permitkit.drawing.info import SheetInfo
from permitkit.drawing.scale import Kind, Scale, System, scales
from permitkit.drawing.shapes import (
    Anchor,
    Arc,
    Box,
    Circle,
    Fill,
    Hatch,
    Label,
    Line,
    Pattern,
    Picture,
    Polygon,
    Polyline,
    Role,
    circle_points,
)
from permitkit.drawing.sheet import Sheet
from permitkit.drawing.site_sketch import site_sketch
from permitkit.errors import Exit, OutputError
from permitkit.load.job_file import read_job
from permitkit.load.rule_sheet import load_layers
from permitkit.render.dxf import LAYERS, SHEET_LAYER, render_dxf
from permitkit.study.study import studied

if TYPE_CHECKING:
    from ezdxf.document import Drawing

    from permitkit.drawing.shapes import Shape

TEN_FEET = next(s for s in scales(Kind.PLAN, System.US) if s.text == "1 in = 10 ft")
HUNDRED = next(s for s in scales(Kind.PLAN, System.METRIC) if s.text == "1:100")
CODE = """
import sys
from permitkit.drawing.scale import *
from permitkit.drawing.shapes import *
from permitkit.drawing.sheet import *
from permitkit.render.dxf import render_dxf
square = ((40, 50), (80, 50), (80, 90), (40, 90))
shapes = (Hatch(square, Pattern.SAND), Label("a", (50, 60), backing=True), Line((40, 50), (80, 50),
          Role.CENTRE))
sheet = Sheet(279.4, 215.9, "Plan", shapes)
sys.stdout.buffer.write(render_dxf(sheet, scales(Kind.PLAN, System.US)[1]))
"""


def read(content: bytes) -> Drawing:
    return ezdxf.read(io.StringIO(content.decode("utf-8")))  # type: ignore[attr-defined]


def drawn(*shapes: Shape, scale: Scale = TEN_FEET) -> Drawing:
    """Return shapes of a lying letter sheet as the drawing they become."""
    return read(render_dxf(Sheet(279.4, 215.9, "Plan", shapes), scale))


def on(drawing: Drawing, layer: str, kind: str = "*") -> list[Any]:
    return list(drawing.modelspace().query(f'{kind}[layer=="{layer}"]'))


@cache
def plan(name: str) -> tuple[Sheet, Drawing]:
    """Return the site sketch of a demo job, and its drawing."""
    job = read_job(job_path(name))
    study = studied(job, load_layers(job.town))[0]
    sheet = site_sketch(job, study, SheetInfo(town="Millrace"))[0]
    scale = next(s for s in scales(Kind.PLAN, System.US) if s.text == sheet.scale_text)
    return sheet, read(render_dxf(sheet, scale))


def length(entity: Any) -> float:  # noqa: ANN401 -- whatever the layer holds
    if entity.dxftype() == "LINE":
        return float(entity.dxf.start.distance(entity.dxf.end))
    points = [(x, y) for x, y, *_ in entity.get_points()]
    return sum(math.dist(*leg) for leg in pairwise(points))


def test_the_run_is_as_long_on_its_layer_as_in_the_job() -> None:
    _, drawing = plan("millrace-clean")
    job = read_job(job_path("millrace-clean"))
    reaches = sum(float(reach.length.in_("ft")) for reach in job.drain.reach)

    strokes = on(drawing, "drain pipe", "LINE LWPOLYLINE")
    assert sum(map(length, strokes)) == pytest.approx(reaches, abs=0.01)
    assert reaches == 66.5


def test_the_side_lines_stand_as_far_apart_as_the_frontage_is_long() -> None:
    _, drawing = plan("millrace-clean")

    left, right = sorted(line.dxf.start.x for line in on(drawing, "property line"))
    assert right - left == pytest.approx(64.0, abs=0.001)


@pytest.mark.parametrize(
    ("scale", "unit", "millimetres"), [(TEN_FEET, 2, 304.8), (HUNDRED, 6, 1000.0)]
)
def test_a_drawing_is_in_the_units_of_its_scale(
    scale: Scale, unit: int, millimetres: float
) -> None:
    drawing = drawn(Line((40, 50), (140, 50), Role.PIPE), scale=scale)
    (line,) = on(drawing, "drain pipe")

    assert drawing.header["$INSUNITS"] == unit
    assert length(line) == pytest.approx(scale.real_m(100) * 1000 / millimetres)


def test_every_role_has_a_layer_named_in_words() -> None:
    assert set(LAYERS) == set(Role)
    assert len(set(LAYERS.values())) == len(Role)
    assert not any("_" in name or name != name.lower() for name in LAYERS.values())


def test_a_layer_carries_the_pen_of_its_role() -> None:
    drawing = drawn(
        Line((40, 50), (80, 50), Role.UTILITY_GAS), Line((40, 60), (80, 60), Role.SAW_CUT)
    )
    gas, cut = drawing.layers.get("utility gas"), drawing.layers.get("saw cut")
    dashes = drawing.linetypes.get(cut.dxf.linetype).pattern_tags.tags

    assert gas.rgb == (140, 105, 0)
    assert (gas.dxf.lineweight, cut.dxf.lineweight) == (35, 60)
    assert [tag.value for tag in dashes if tag.code == 49] == pytest.approx(
        [3.0 * 120 / 304.8, -1.2 * 120 / 304.8]
    )


def test_border_legend_and_title_lie_on_a_layer_of_their_own() -> None:
    sheet, drawing = plan("millrace-clean")
    texts = {text.dxf.text for text in on(drawing, SHEET_LAYER, "TEXT")}

    assert {"Legend", "drain pipe", "Not a survey.", "Permit no.", sheet.title} <= texts
    assert not texts & {"Tern Lane", "house", "drive"}


def test_every_text_of_the_sheet_is_text_in_the_drawing() -> None:
    sheet, drawing = plan("millrace-cured")
    lines = Counter(line for label in sheet.labels for line in label.lines if line.strip())

    assert Counter(text.dxf.text for text in drawing.modelspace().query("TEXT")) == lines


def test_a_text_is_stretched_between_the_ends_it_was_measured_at() -> None:
    label = Label("14 ft", (100, 80), Anchor.SW, 3.0, angle_deg=90.0)
    (text,) = on(drawn(label), "text")
    _, start, end = text.get_placement()

    assert text.dxf.height == pytest.approx(3.0 * 120 / 304.8)
    assert text.dxf.rotation == 90.0
    assert start.distance(end) == pytest.approx(label.width_mm * 120 / 304.8)
    assert start.x == pytest.approx(end.x)


def test_arrows_and_names_lie_beside_the_layer_of_their_line() -> None:
    drawing = drawn(
        Polyline(((40, 50), (80, 50)), Role.PIPE),
        Arrow((50, 50), (60, 50), Role.PIPE),
        Label("W", (90, 50), role=Role.UTILITY_WATER),
    )

    assert [e.dxftype() for e in on(drawing, "drain pipe")] == ["LWPOLYLINE"]
    assert [e.dxftype() for e in on(drawing, "drain pipe arrows")] == ["LINE", "HATCH"]
    assert [e.dxf.text for e in on(drawing, "utility water text")] == ["W"]


def test_an_arc_runs_anticlockwise_whichever_way_it_was_drawn() -> None:
    drawing = drawn(
        Arc((100, 100), 10, 90, 0, Role.EXISTING), Arc((150, 100), 10, 0, 360, Role.EXISTING)
    )
    arc, ring = on(drawing, "existing")

    assert (arc.dxf.start_angle, arc.dxf.end_angle) == (0, 90)
    assert (ring.dxftype(), ring.dxf.radius) == ("CIRCLE", pytest.approx(10 * 120 / 304.8))


@pytest.mark.parametrize("pattern", Pattern)
def test_a_hatch_keeps_its_region_and_its_holes(pattern: Pattern) -> None:
    region, hole = ((40, 40), (90, 40), (90, 70), (40, 70)), circle_points((60, 55), 6, 12)
    drawing = drawn(Hatch(region, pattern, (hole,), density=1.5))
    hatch: Any = drawing.modelspace().query("HATCH")[0]
    outer, inner = hatch.paths

    assert hatch.dxf.layer.startswith("hatch ")
    assert hatch.dxf.solid_fill == 0
    assert hatch.pattern is not None
    assert len(hatch.pattern.lines) > 0
    assert (len(outer.vertices), len(inner.vertices)) == (4, 12)
    assert outer.path_type_flags & 1
    assert inner.path_type_flags & 16


def test_white_hides_what_lies_under_it_on_the_layer_of_its_mark() -> None:
    drawing = drawn(
        Circle((100, 100), 5, Role.PROPOSED, Fill.WHITE),
        Label("5 ft", (60, 60), backing=True),
        Polygon(((40, 40), (50, 40), (50, 50)), Role.FRAME, Fill.TONE, outlined=False),
    )

    assert Counter(e.dxf.layer for e in drawing.modelspace().query("WIPEOUT")) == {
        "proposed": 1,
        "text": 1,
    }
    (tone,) = on(drawing, "frame")
    assert (tone.dxf.solid_fill, tone.rgb) == (1, (224, 224, 224))


def test_what_the_format_reads_as_a_command_is_printed_as_it_stands() -> None:
    (text,) = on(drawn(Label("5 %%d ^I", (60, 60))), "text")

    assert text.plain_text() == "5 % %d ^I"


def test_a_photograph_is_left_out() -> None:
    picture = Picture(b"", Box(40, 40, 80, 80))

    assert len(drawn(picture, Line((40, 50), (80, 50), Role.PIPE)).modelspace()) == 1


def test_the_layout_prints_the_sheet_at_its_scale() -> None:
    layout = drawn(Line((40, 50), (80, 50), Role.PIPE)).paperspace("Sheet")
    view = layout.query("VIEWPORT")[-1]

    assert view.dxf.view_height / view.dxf.height == pytest.approx(120 / 304.8)
    assert (view.dxf.width, view.dxf.height) == pytest.approx((279.4, 215.9))


@pytest.mark.parametrize("name", ["millrace-clean", "millrace-cured"])
def test_the_drawing_passes_the_audit_of_its_library(name: str) -> None:
    audit = plan(name)[1].audit()

    assert (audit.errors, audit.fixes) == ([], [])


def test_the_same_sheet_gives_the_same_bytes_in_another_process() -> None:
    runs = [
        subprocess.run(
            [sys.executable, "-c", CODE],
            capture_output=True,
            check=True,
            env={"PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("1", "2")
    ]

    assert len(runs[0]) > 10_000
    assert runs[0] == runs[1]


def test_the_library_is_left_with_its_own_settings() -> None:
    drawn(Line((40, 50), (80, 50), Role.PIPE))

    assert ezdxf.options.write_fixed_meta_data_for_testing is False  # type: ignore[attr-defined]


def test_without_the_library_the_message_names_the_extra(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "ezdxf", None)

    with pytest.raises(OutputError) as caught:
        render_dxf(Sheet(279.4, 215.9, "Site sketch", ()), TEN_FEET)
    assert caught.value.exit_code is Exit.OUTPUT
    assert str(caught.value).splitlines() == [
        "error: DXF of the site sketch",
        "  found     the library ezdxf is not installed",
        "  expected  the extra that writes DXF",
        "  fix       pip install 'permitkit[dxf]', or ask for the other kinds",
    ]
