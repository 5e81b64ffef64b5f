"""The pages of photographs: two to a page, captions, arrows that cover nothing, faults at once."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from packets import judged
from PIL import Image
from pypdf import PdfReader

from permitkit.drawing.placing import overlaps
from permitkit.drawing.scale import A4, LETTER, Paper
from permitkit.drawing.shapes import Box, Circle, Fill, Label, Picture, Polygon
from permitkit.drawing.sheet import labels_of, outside
from permitkit.errors import InputError
from permitkit.load.faults import read_model
from permitkit.model.papers import Papers, Photo, PhotoArrow
from permitkit.packet.photos import photo_part
from permitkit.packet.photos.arrows import pointed
from permitkit.packet.photos.pages import photo_blocks
from permitkit.render.blocks import Drawing, PageBreak
from permitkit.render.flow import render_flow

if TYPE_CHECKING:
    from pathlib import Path

TAKEN = date(2027, 2, 22)
ON = Box(0.0, 0.0, 120.0, 90.0)


def photo(**fields: Any) -> Photo:  # noqa: ANN401 -- as a job file would hold them
    return Photo.model_validate({"shows": "curb face with tape", "taken": TAKEN, **fields})


def arrow(across: int, down: int, says: str | None = None) -> PhotoArrow:
    return PhotoArrow.model_validate({"across": f"{across} %", "down": f"{down} %", "says": says})


def take(folder: Path, name: str = "curb.jpg", size: tuple[int, int] = (800, 600)) -> str:
    exif = Image.Exif()
    exif[0x0110] = "Pocket 9"
    exif.get_ifd(0x8825).update({1: "N", 2: (12.0, 34.0, 56.0), 18: "WGS-84"})
    Image.new("RGB", size, (120, 130, 140)).save(folder / name, exif=exif)
    return name


def drawings(photos: list[Photo], folder: Path, paper: Paper = LETTER) -> list[Drawing]:
    return [b for b in photo_blocks(photos, folder, paper) if isinstance(b, Drawing)]


def printed(photos: list[Photo], folder: Path, paper: Paper = LETTER) -> PdfReader:
    blocks = photo_blocks(photos, folder, paper)
    return PdfReader(io.BytesIO(render_flow(blocks, paper, "31 Tern Lane", "revision B")))


def test_a_job_without_picture_files_has_no_page_of_them(tmp_path: Path) -> None:
    assert judged("millrace-clean").job.papers.photo
    assert photo_part(judged("millrace-clean"), tmp_path) == ()


def test_the_pages_go_in_with_the_enclosures_and_tell_no_place(tmp_path: Path) -> None:
    clean = judged("millrace-clean")
    photos = tuple(p.model_copy(update={"file": take(tmp_path)}) for p in clean.job.papers.photo)
    papers = clean.job.papers.model_copy(update={"photo": photos})
    given_files = replace(clean, job=clean.job.model_copy(update={"papers": papers}))

    (part,) = photo_part(given_files, tmp_path)
    reader = PdfReader(io.BytesIO(part.file))
    assert (part.key, part.title) == ("enclosures", "Photographs")
    assert len(reader.pages) == 3
    assert "14 Tern Lane" in reader.pages[0].extract_text()
    assert not [secret for secret in (b"Exif", b"WGS-84", b"Pocket 9") if secret in part.file]
    assert photo_part(given_files, tmp_path) == (part,)


@pytest.mark.parametrize("paper", [LETTER, A4])
@pytest.mark.parametrize("size", [(800, 600), (600, 800), (1600, 300), (60, 900)])
@pytest.mark.parametrize("caption", [None, "One line.", "A long one. " * 40, "words " * 330])
def test_two_stand_on_a_page_whatever_their_shape_and_their_captions(
    tmp_path: Path, paper: Paper, size: tuple[int, int], caption: str | None
) -> None:
    name = take(tmp_path, size=size)
    reader = printed([photo(file=name, caption=caption)] * 3, tmp_path, paper)

    captions = [page.extract_text().count("Taken") for page in reader.pages]
    assert captions == [2, 1]


def test_a_caption_says_what_is_shown_and_when_it_was_taken(tmp_path: Path) -> None:
    name = take(tmp_path)
    photos = [photo(), photo(shows="walk & <joints>", file=name, caption="The two panels.")]
    text = " ".join(printed(photos, tmp_path).pages[0].extract_text().split())

    assert "2. walk & <joints>. The two panels. Taken Mon Feb 22, 2027." in text


def test_pages_break_after_every_second_picture_only(tmp_path: Path) -> None:
    name = take(tmp_path)
    kinds = [type(block) for block in photo_blocks([photo(file=name)] * 4, tmp_path, LETTER)]

    assert kinds[1:] == [Drawing, Drawing, PageBreak, Drawing, Drawing]


def test_a_picture_is_framed_and_its_arrows_lie_on_it(tmp_path: Path) -> None:
    name = take(tmp_path)
    (drawing,) = drawings([photo(file=name, arrow=(arrow(50, 50, "hole"),))], tmp_path)
    picture, edge, *rest = drawing.shapes

    assert isinstance(picture, Picture)
    assert picture.box.corners == edge.points  # type: ignore[union-attr]
    assert (drawing.width_mm, drawing.height_mm) == (picture.box.width, picture.box.height)
    assert [label.text for label in labels_of(rest)] == ["hole"]
    assert outside(rest, picture.box) == ()


def tips(shapes: tuple[Any, ...]) -> list[tuple[float, float]]:
    """Return the tips of the black heads."""
    heads = (s for s in shapes if isinstance(s, Polygon) and s.fill is Fill.SOLID)
    return [head.points[0] for head in heads]


def test_an_arrow_points_where_it_says_counted_from_the_upper_left() -> None:
    shapes, _ = pointed([arrow(25, 10, "joint"), arrow(80, 100)], ON)

    joint, other = sorted(tips(shapes))
    assert joint == pytest.approx((30.0, 81.0))
    assert other == pytest.approx((96.0, 0.0))


def test_words_without_room_are_numbered_and_told_in_the_caption(tmp_path: Path) -> None:
    name = take(tmp_path, size=(2000, 190))
    long = "a crack from the curb to the walk, open by a quarter of an inch, " * 2 + "as found"
    shot = photo(file=name, arrow=(arrow(30, 50, long), arrow(70, 50, "drive")))
    (drawing,) = drawings([shot], tmp_path)

    assert sorted(label.text for label in labels_of(drawing.shapes)) == ["1", "drive"]
    assert f"1: {long}." in drawing.caption


def test_where_not_even_a_number_has_room_the_arrow_stands_alone() -> None:
    shapes, key = pointed([arrow(50, 50, "hole")], Box(0.0, 0.0, 6.0, 6.0))

    assert key == ("1: hole",)
    assert len(tips(shapes)) == 1
    assert not [shape for shape in shapes if isinstance(shape, Label | Circle)]


SHARES = st.integers(0, 100)
WORDS = st.sampled_from((None, "hole", "the joint that is open", "a long remark " * 6))


@settings(max_examples=60)
@given(st.lists(st.builds(arrow, SHARES, SHARES, WORDS), max_size=7), st.floats(20.0, 100.0))
def test_words_cover_neither_each_other_nor_a_tip_and_nothing_is_lost(
    arrows: list[PhotoArrow], height: float
) -> None:
    on = Box(0.0, 0.0, 120.0, height)
    shapes, key = pointed(arrows, on)
    labels = labels_of(shapes)
    boxes = [label.box for label in labels]

    assert overlaps(boxes) == []
    assert outside(labels, on) == ()
    assert len(tips(shapes)) == len(arrows)
    assert not [tip for tip in tips(shapes) for box in boxes if box.touches(Box(*tip, *tip))]
    said = [a.says for a in arrows if a.says]
    written = [label.text for label in labels if not label.text.isdigit()]
    assert len(written) + len(key) == len(said)


def test_every_fault_is_told_at_once(tmp_path: Path) -> None:
    (tmp_path / "notes.jpg").write_text("hello")
    (tmp_path / "folder.jpg").mkdir()
    photos = [
        photo(file="missing.jpg"),
        photo(file="notes.jpg", caption="\N{CJK UNIFIED IDEOGRAPH-6C34}"),
        photo(file=take(tmp_path)),
        photo(file="folder.jpg"),
    ]

    with pytest.raises(InputError) as caught:
        photo_blocks(photos, tmp_path, LETTER)
    assert [(f.where, f.found) for f in caught.value.faults] == [
        ("papers.photo[1].file", "'missing.jpg': no such file or directory"),
        ("papers.photo[2]", "'水' with 水 (U+6C34)"),
        ("papers.photo[2].file", "not a picture that can be read"),
        ("papers.photo[4].file", "'folder.jpg': is a directory"),
    ]


def test_a_file_too_large_is_refused_before_it_is_read(tmp_path: Path) -> None:
    with (tmp_path / "large.jpg").open("wb") as file:
        file.truncate(50_000_001)

    with pytest.raises(InputError, match=r"'large\.jpg', a larger file"):
        photo_blocks([photo(file="large.jpg")], tmp_path, LETTER)


@pytest.mark.parametrize(
    ("share", "expected"),
    [("0 %", ""), ("100 %", ""), ("100.1 %", "a share of the upright picture, from 0 % to 100 %")],
)
def test_an_arrow_lies_on_the_picture(share: str, expected: str) -> None:
    pointer = {"across": share, "down": "50 %"}
    shot = {"shows": "curb", "taken": TAKEN, "arrow": [pointer]}
    _, faults = read_model(Papers, {"photo": [shot]}, "job.toml")

    assert [fault.expected for fault in faults] == ([expected] if expected else [])
    assert [fault.where for fault in faults] == (
        ["job.toml: photo[1].arrow[1].across"] if expected else []
    )
