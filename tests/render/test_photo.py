"""Photographs as they are printed: upright, reduced, with nothing in them but the picture."""

from __future__ import annotations

import io
import struct
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from permitkit.drawing.sheet import Sheet, extent, outside, segments_of
from permitkit.errors import Exit, InputError
from permitkit.render.pdf import render_sheets
from permitkit.render.photo import PRINT_DPI, printed_picture

if TYPE_CHECKING:
    from permitkit.drawing.shapes import Picture

ROOM = (170.0, 90.0)
WHERE = "papers.photo[1].file"
RED, GREEN = (200, 30, 30), (30, 160, 30)
SECRETS = (b"Exif", b"WGS-84", b"Pocket 9", b"a secret remark", b"adobe:ns:meta", b"ICC_PROFILE")
TURNS = {
    1: None,
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}
MEASURED = r"""
import re, sys
from pathlib import Path
from permitkit.render.photo import printed_picture
picture = printed_picture(Path(sys.argv[1]).read_bytes(), (170.0, 90.0), "here")
peak = re.search(r"VmHWM:\s+(\d+) kB", Path("/proc/self/status").read_text())
print(len(picture.jpeg), int(peak.group(1)) // 1024)
"""


def scene(width: int = 800, height: int = 600) -> Image.Image:
    """Return a picture whose upper left quarter is red, the rest green."""
    image = Image.new("RGB", (width, height), GREEN)
    image.paste(RED, (0, 0, width // 2, height // 2))
    return image


def located(orientation: int = 1) -> Image.Exif:
    """Return what a telephone writes: how it was held, who made it, where it was."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif[0x0110] = "Pocket 9"
    exif[0x9286] = "a secret remark"
    place = exif.get_ifd(0x8825)
    place.update({1: "N", 2: (12.0, 34.0, 56.0), 3: "W", 4: (98.0, 7.0, 6.0), 18: "WGS-84"})
    return exif


def saved(image: Image.Image, kind: str = "JPEG", **options: object) -> bytes:
    target = io.BytesIO()
    image.save(target, kind, **options)  # type: ignore[arg-type]
    return target.getvalue()


def shown(picture: Picture) -> Image.Image:
    return Image.open(io.BytesIO(picture.jpeg)).convert("RGB")


def near(pixel: object, colour: tuple[int, int, int]) -> bool:
    assert isinstance(pixel, tuple)
    return all(abs(a - b) < 12 for a, b in zip(pixel, colour, strict=True))


def refused(content: bytes) -> list[str]:
    """Return the lines of the fault of a file."""
    with pytest.raises(InputError) as caught:
        printed_picture(content, ROOM, WHERE)
    assert caught.value.exit_code is Exit.INPUT
    return str(caught.value).splitlines()


@pytest.mark.parametrize("orientation", TURNS)
def test_a_picture_stands_upright_however_the_camera_was_held(orientation: int) -> None:
    turn = TURNS[orientation]
    stored = scene() if turn is None else scene().transpose(turn)
    content = saved(stored, exif=located(orientation), quality=95)

    upright = shown(printed_picture(content, ROOM, WHERE))
    width, height = upright.size
    assert width / height == pytest.approx(4 / 3, abs=0.01)
    corners = [(9, 9), (width - 9, 9), (9, height - 9), (width - 9, height - 9)]
    reds = [near(upright.getpixel(corner), RED) for corner in corners]
    assert reds == [True, False, False, False]


def test_a_picture_fills_its_room_in_one_direction_and_keeps_its_proportions() -> None:
    high = printed_picture(saved(scene(600, 800)), ROOM, WHERE)
    wide = printed_picture(saved(scene(2000, 500)), ROOM, WHERE)

    assert (high.box.width, high.box.height) == pytest.approx((67.5, 90.0))
    assert (wide.box.width, wide.box.height) == pytest.approx((170.0, 42.5))


def test_a_large_picture_is_reduced_to_print_size() -> None:
    picture = printed_picture(saved(scene(4000, 3000)), ROOM, WHERE)
    pixels = shown(picture).size

    for count, size_mm in zip(pixels, (picture.box.width, picture.box.height), strict=True):
        assert count == pytest.approx(size_mm / 25.4 * PRINT_DPI, abs=1)


def test_a_small_picture_is_not_blown_up() -> None:
    picture = printed_picture(saved(scene(320, 240)), ROOM, WHERE)

    assert shown(picture).size == (320, 240)
    assert picture.box.height == pytest.approx(90.0)


def test_the_planted_data_are_there_before() -> None:
    before = planted()
    place = Image.open(io.BytesIO(before)).getexif().get_ifd(0x8825)

    assert [secret for secret in SECRETS if secret not in before] == []
    assert place[2] == (12.0, 34.0, 56.0)


def planted() -> bytes:
    """Return a picture with a place, a maker, remarks and a small copy of itself in it."""
    return saved(
        scene(),
        exif=located(6),
        comment=b"a secret remark",
        icc_profile=b"\0" * 128,
        xmp=b"<x:xmpmeta xmlns:x='adobe:ns:meta/'>a secret remark</x:xmpmeta>",
    )


def test_nothing_but_the_picture_is_left_in_its_bytes() -> None:
    jpeg = printed_picture(planted(), ROOM, WHERE).jpeg
    bare = Image.open(io.BytesIO(jpeg))

    assert not [secret for secret in SECRETS if secret in jpeg]
    assert dict(bare.getexif()) == {}
    assert dict(bare.getexif().get_ifd(0x8825)) == {}
    assert not set(bare.info) & {"exif", "comment", "icc_profile", "xmp", "photoshop"}


def test_nothing_but_the_picture_is_left_in_the_pdf() -> None:
    picture = printed_picture(planted(), ROOM, WHERE)
    pdf = render_sheets([Sheet(279.4, 215.9, "Photographs", (picture,))])

    assert picture.jpeg in pdf
    assert not [secret for secret in SECRETS if secret in pdf]


def test_the_text_of_a_png_stays_behind() -> None:
    from PIL.PngImagePlugin import PngInfo  # noqa: PLC0415 -- only here

    told = PngInfo()
    told.add_text("Comment", "a secret remark")
    content = saved(scene(), "PNG", pnginfo=told, exif=located())

    assert b"a secret remark" in content
    assert b"a secret remark" not in printed_picture(content, ROOM, WHERE).jpeg


@pytest.mark.parametrize(
    ("mode", "colour", "expected"),
    [
        ("L", 77, (77, 77, 77)),
        ("RGBA", (*RED, 0), (255, 255, 255)),
        ("RGBA", (*RED, 255), RED),
        ("LA", (0, 0), (255, 255, 255)),
        ("P", 0, (0, 0, 0)),
        ("1", 1, (255, 255, 255)),
        ("I;16", 32768, (128, 128, 128)),
    ],
)
def test_every_kind_of_picture_is_printed_in_its_colours_on_white(
    mode: str, colour: int | tuple[int, ...], expected: tuple[int, int, int]
) -> None:
    content = saved(Image.new(mode, (300, 200), colour), "PNG")

    assert near(shown(printed_picture(content, ROOM, WHERE)).getpixel((50, 50)), expected)


@pytest.mark.parametrize(("kind", "mode"), [("TIFF", "RGB"), ("JPEG", "CMYK")])
def test_scans_and_print_colours_are_taken_too(kind: str, mode: str) -> None:
    content = saved(scene().convert(mode), kind)

    assert near(shown(printed_picture(content, ROOM, WHERE)).getpixel((5, 5)), RED)


def test_the_same_file_gives_the_same_bytes() -> None:
    content = saved(scene(1600, 1200), exif=located(8))

    assert printed_picture(content, ROOM, WHERE) == printed_picture(content, ROOM, WHERE)


@pytest.mark.parametrize("content", [b"", b"hello", b"%PDF-1.7", b"GIF89a" + b"\0" * 64])
def test_what_is_no_picture_is_refused(content: bytes) -> None:
    assert refused(content) == [
        "error: papers.photo[1].file",
        "  found     not a picture that can be read",
        "  expected  a JPEG, PNG or TIFF picture",
        "  fix       name another file",
    ]


def test_the_format_of_some_telephones_is_named() -> None:
    assert refused(b"\0\0\0\x18ftypheic\0\0\0\0mif1heic")[1:] == [
        "  found     a HEIC picture",
        "  expected  a JPEG, PNG or TIFF picture",
        "  fix       export it as JPEG",
    ]


@pytest.mark.parametrize(
    ("kind", "options"), [("JPEG", {}), ("JPEG", {"progressive": True}), ("PNG", {})]
)
def test_a_picture_that_breaks_off_is_refused(kind: str, options: dict[str, bool]) -> None:
    noise = Image.effect_noise((900, 700), 90).convert("RGB")
    content = saved(noise, kind, **options)

    for share in (0.1, 0.5, 0.9):
        assert refused(content[: int(len(content) * share)])[1:] == [
            "  found     a picture that breaks off or is damaged",
            "  expected  a whole one",
            "  fix       copy it from the camera again",
        ]


def test_a_camera_that_says_nonsense_of_how_it_was_held_is_not_believed() -> None:
    content = saved(scene(), exif=b"Exif\0\0II*\0\xff\xff\xff\xff")

    assert shown(printed_picture(content, ROOM, WHERE)).width == pytest.approx(800, abs=1)


def resized(jpeg: bytes, width: int, height: int) -> bytes:
    """Return a JPEG whose header claims another size."""
    marker = b"\xff\xc2" if b"\xff\xc2" in jpeg else b"\xff\xc0"
    at = jpeg.index(marker) + 5
    return jpeg[:at] + struct.pack(">HH", height, width) + jpeg[at + 4 :]


def test_a_picture_beyond_every_camera_is_refused_before_it_is_opened() -> None:
    assert refused(resized(saved(scene()), 20_000, 10_000))[1:] == [
        "  found     a picture of more than 179 megapixels",
        "  expected  at most 179 megapixels",
        "  fix       save it smaller",
    ]


def test_a_progressive_picture_may_not_take_more_memory_than_there_is() -> None:
    assert refused(resized(saved(scene(), progressive=True), 12_000, 9_000))[1:] == [
        "  found     a progressive JPEG picture of 12000 by 9000 pixels",
        "  expected  at most 18 megapixels in such a file, or an ordinary JPEG",
        "  fix       save it smaller, or as an ordinary JPEG",
    ]


def test_a_png_may_not_take_more_memory_than_there_is() -> None:
    content = saved(Image.new("RGB", (8, 8)), "PNG")
    header = b"IHDR" + struct.pack(">II", 10_000, 10_000) + content[24:29]
    from zlib import crc32  # noqa: PLC0415 -- only here

    claimed = content[:12] + header + struct.pack(">I", crc32(header)) + content[33:]

    assert refused(claimed)[1:3] == [
        "  found     a PNG picture of 10000 by 10000 pixels",
        "  expected  at most 28 megapixels in such a file, or an ordinary JPEG",
    ]


def test_a_file_above_fifty_megabytes_is_refused() -> None:
    assert refused(b"\0" * 50_000_001)[1] == "  found     a file larger than 50 MB"


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="the peak is read from /proc")
def test_a_hundred_megapixels_take_less_than_three_hundred_megabytes(tmp_path: Path) -> None:
    path = tmp_path / "large.jpg"
    make = "import sys; from PIL import Image; Image.new('L', (11600, 8700), 90).save(sys.argv[1])"
    subprocess.run([sys.executable, "-c", make, str(path)], check=True)

    run = subprocess.run(
        [sys.executable, "-c", MEASURED, str(path)], check=True, capture_output=True, text=True
    )
    size, peak_mb = map(int, run.stdout.split())
    assert size > 1000
    assert peak_mb < 300


def test_a_picture_is_a_mark_like_any_other() -> None:
    picture = printed_picture(saved(scene()), ROOM, WHERE)

    assert extent([picture]) == picture.box
    assert len(list(segments_of([picture]))) == 4
    assert outside([picture], picture.box) == ()
    assert outside([picture], picture.box.grown(-1)) == (picture,)
    assert "jpeg" not in repr(picture)
