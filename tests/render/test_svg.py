"""What is drawn is what stands in the SVG: to a hundredth of a millimetre, texts as texts."""

from __future__ import annotations

import base64
import re
import subprocess
import sys
from itertools import pairwise
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest

from permitkit.drawing.lettering import text_width_mm
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
from permitkit.render.pens import PENS
from permitkit.render.svg import render_svg

if TYPE_CHECKING:
    from collections.abc import Iterable
    from xml.etree.ElementTree import Element

    from permitkit.drawing.shapes import Shape

SVG = "{http://www.w3.org/2000/svg}"
HREF = "{http://www.w3.org/1999/xlink}href"
HEIGHT = 215.9


def sheet_of(*shapes: Shape, number: str = "1 of 2") -> Sheet:
    return Sheet(279.4, HEIGHT, "Site sketch", shapes, "1 in = 10 ft", number)


def read(*shapes: Shape) -> Element:
    return ET.fromstring(render_svg(sheet_of(*shapes)))  # noqa: S314 -- our own output


def one(root: Element, name: str) -> Element:
    (found,) = root.iter(f"{SVG}{name}")
    return found


def numbers(text: str) -> list[float]:
    return [float(word) for word in re.findall(r"-?\d+(?:\.\d+)?", text)]


def points_of(text: str) -> list[tuple[float, float]]:
    """Return points as they were recorded: y up from the foot of the sheet, to 0.001 mm."""
    flat = numbers(text)
    return [(x, round(HEIGHT - y, 3)) for x, y in zip(flat[::2], flat[1::2], strict=True)]


def rounded(points: Iterable[tuple[float, float]]) -> list[tuple[float, float]]:
    return [(round(x, 3), round(y, 3)) for x, y in points]


def test_the_document_is_the_sheet_in_millimetres_with_its_title_and_language() -> None:
    root = read()

    assert (root.attrib["width"], root.attrib["height"]) == ("279.4mm", "215.9mm")
    assert root.attrib["viewBox"] == "0 0 279.4 215.9"
    assert root.attrib["lang"] == "en-US"
    assert one(root, "title").text == "Site sketch"
    assert one(root, "desc").text == "1 of 2 1 in = 10 ft"


@pytest.mark.parametrize("role", Role)
def test_a_line_lies_where_it_was_drawn_with_the_pen_of_its_role(role: Role) -> None:
    root = read(Line((20.123, 30.456), (200.789, 99.001), role))
    line, (group,) = one(root, "line"), root.findall(f"{SVG}g")

    ends = [float(line.attrib[name]) for name in ("x1", "y1", "x2", "y2")]
    assert ends == pytest.approx([20.123, HEIGHT - 30.456, 200.789, HEIGHT - 99.001], abs=0.001)
    assert group.attrib["class"] == role.value
    assert float(group.attrib["stroke-width"]) == PENS[role].width_mm
    assert tuple(numbers(group.get("stroke-dasharray", ""))) == PENS[role].dashes_mm
    assert group.attrib["stroke-linecap"] == ("round" if PENS[role].round_ends else "butt")


def test_a_colour_is_written_as_a_browser_reads_it() -> None:
    (group,) = read(Line((0, 0), (9, 9), Role.UTILITY_GAS)).findall(f"{SVG}g")

    assert group.attrib["stroke"] == "#8c6900"


def test_open_and_closed_runs_keep_their_points() -> None:
    run = ((10.0, 10.0), (20.0, 15.5), (30.25, 10.0))
    root = read(Polyline(run, Role.PIPE), Polyline(run, Role.PIPE, closed=True))

    assert points_of(one(root, "polyline").attrib["points"]) == rounded(run)
    assert points_of(one(root, "polygon").attrib["points"]) == rounded(run)


@pytest.mark.parametrize(
    ("fill", "painted"),
    [(Fill.NONE, None), (Fill.WHITE, "#ffffff"), (Fill.TONE, "#e0e0e0"), (Fill.SOLID, "#000000")],
)
def test_a_closed_shape_is_covered_as_it_says(fill: Fill, painted: str | None) -> None:
    shape = Polygon(((10, 10), (20, 10), (15, 20)), Role.FRAME, fill, outlined=False)
    ring = Circle((50, 50), 4.5, Role.FRAME, fill)
    root = read(shape, ring)
    polygon, circle = one(root, "polygon"), one(root, "circle")

    assert (polygon.get("fill"), polygon.get("stroke")) == (painted, "none")
    assert (circle.get("fill"), circle.get("stroke")) == (painted, None)
    assert [float(circle.attrib[n]) for n in ("cx", "cy", "r")] == [50.0, HEIGHT - 50, 4.5]


@pytest.mark.parametrize(
    ("start", "end", "path"),
    [
        (0.0, 90.0, "M110,115.9 A10 10 0 0 0 100,105.9"),
        (90.0, 0.0, "M100,105.9 A10 10 0 0 1 110,115.9"),
        (0.0, 270.0, "M110,115.9 A10 10 0 1 0 100,125.9"),
        (-90.0, 90.0, "M100,125.9 A10 10 0 0 0 100,105.9"),
    ],
)
def test_an_arc_runs_anticlockwise_or_back(start: float, end: float, path: str) -> None:
    root = read(Arc((100.0, 100.0), 10.0, start, end, Role.EXISTING))

    assert one(root, "path").attrib["d"] == path


def test_a_whole_turn_is_a_circle() -> None:
    assert one(read(Arc((9, 9), 5.0, 0.0, 360.0, Role.PLANT)), "circle").attrib["r"] == "5"


def test_each_line_of_a_text_is_text_set_to_the_width_it_was_measured_at() -> None:
    label = Label('3 1/2″ <B&B> "x"\nsecond', (100.0, 80.0), Anchor.C, 3.0, bold=True)
    first, second = read(label).iter(f"{SVG}text")

    assert (first.text, second.text) == label.lines
    assert float(first.attrib["x"]) == pytest.approx(label.upright.left, abs=0.001)
    assert float(first.attrib["y"]) == pytest.approx(HEIGHT - label.first_baseline, abs=0.001)
    width = text_width_mm("second", 3.0, bold=True)
    assert float(second.attrib["textLength"]) == pytest.approx(width, abs=0.001)
    assert second.attrib["lengthAdjust"] == "spacingAndGlyphs"
    assert second.attrib["font-weight"] == "bold"


def test_a_slanting_text_is_turned_about_the_foot_of_its_first_letter() -> None:
    root = read(Label("14 ft", (100.0, 80.0), Anchor.SW, angle_deg=90.0))
    text = one(root, "text")
    turn, x, y = numbers(text.attrib["transform"])

    assert turn == -90
    assert (x, y) == (float(text.attrib["x"]), float(text.attrib["y"]))
    assert x < 100.0
    assert y == pytest.approx(HEIGHT - 80.0)


def test_white_stands_behind_a_text_that_asks_for_it() -> None:
    label = Label("5 ft", (100.0, 80.0), backing=True)
    behind = one(read(label), "polygon")

    assert behind.attrib["fill"] == "#fff"
    backing = Box.around(points_of(behind.attrib["points"]))
    assert backing.grown(0.001).holds(label.box)


def test_a_letter_that_xml_cannot_carry_becomes_a_space() -> None:
    assert one(read(Label("a\x07b", (9.0, 9.0))), "text").text == "a b"


@pytest.mark.parametrize("pattern", Pattern)
def test_a_hatch_is_cut_off_at_its_edge_and_at_its_holes(pattern: Pattern) -> None:
    region, hole = ((40, 40), (90, 40), (90, 70), (40, 70)), circle_points((60, 55), 6, 12)
    root = read(Hatch(region, pattern, (hole,)))
    clip = one(one(root, "clipPath"), "path")
    outer, inner = clip.attrib["d"].split(" M")

    assert clip.attrib["clip-rule"] == "evenodd"
    assert points_of(outer) == rounded(region)
    assert points_of(inner) == rounded(hole)


@pytest.mark.parametrize("pattern", Pattern)
def test_the_tiles_of_a_hatch_cover_its_region_without_a_gap(pattern: Pattern) -> None:
    region = ((40, 40), (90, 40), (90, 70), (40, 70))
    root = read(Hatch(region, pattern, density=1.4))
    corners = [
        (float(u.attrib["x"]), HEIGHT - float(u.attrib["y"])) for u in root.iter(f"{SVG}use")
    ]
    columns = sorted({x for x, _ in corners})
    size = columns[1] - columns[0]
    covered = Box.around(corners)._replace(right=columns[-1] + size)

    assert all(b - a == pytest.approx(size, abs=0.002) for a, b in pairwise(columns))
    assert covered._replace(top=covered.top + size).holds(Box.around(region))


def test_every_name_that_is_used_is_there_and_a_tile_is_written_once() -> None:
    square = ((10, 10), (30, 10), (30, 30), (10, 30))
    shapes = [Hatch(square, pattern) for pattern in (*Pattern, *Pattern)]
    root = read(*shapes)
    names = [element.attrib["id"] for element in root.iter() if "id" in element.attrib]
    used = {element.attrib[HREF].removeprefix("#") for element in root.iter(f"{SVG}use")}
    clips = {g.attrib["clip-path"][5:-1] for g in root.iter(f"{SVG}g") if "clip-path" in g.attrib}

    assert len(names) == len(set(names)) == len(Pattern) + len(shapes)
    assert used | clips == set(names)


def test_two_sheets_on_one_web_page_share_no_name() -> None:
    hatch = Hatch(((10, 10), (30, 10), (30, 30)), Pattern.SAND)
    first, second = (
        set(re.findall(r'id="([^"]+)"', render_svg(sheet_of(hatch, number=number)).decode()))
        for number in ("1 of 2", "2 of 2")
    )

    assert first
    assert not first & second


def test_a_photograph_is_carried_whole() -> None:
    image = one(read(Picture(b"\xff\xd8 jpeg", Box(20, 30, 80, 70))), "image")
    kind, data = image.attrib[HREF].split(",")

    assert kind == "data:image/jpeg;base64"
    assert base64.b64decode(data) == b"\xff\xd8 jpeg"
    place = [float(image.attrib[name]) for name in ("x", "y", "width", "height")]
    assert place == pytest.approx([20, HEIGHT - 70, 60, 40])


def test_marks_keep_their_order_so_that_later_ones_cover_earlier_ones() -> None:
    line = Line((0, 0), (9, 9), Role.PIPE)
    cover = Polygon(((0, 0), (9, 0), (9, 9)), Role.NOTE, Fill.WHITE)
    drawn = [g[0].tag.removeprefix(SVG) for g in read(line, cover, line).findall(f"{SVG}g")]

    assert drawn == ["line", "polygon", "line"]


def test_the_same_sheet_gives_the_same_bytes_in_another_process() -> None:
    code = (
        "import sys; from permitkit.drawing.shapes import *; from permitkit.drawing.sheet import *;"
        "from permitkit.render.svg import render_svg;"
        "h = Hatch(((1, 1), (9, 1), (9, 9)), Pattern.SAND);"
        "sys.stdout.buffer.write(render_svg(Sheet(99, 99, 'T', (Label('a', (9, 9)), h))))"
    )
    runs = [
        subprocess.run(
            [sys.executable, "-c", code], capture_output=True, check=True, env={"PYTHONHASHSEED": n}
        ).stdout
        for n in ("1", "2")
    ]

    assert runs[0].startswith(b"<?xml")
    assert runs[0] == runs[1]
