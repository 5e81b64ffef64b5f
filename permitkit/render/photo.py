"""Site photographs made fit to print: upright, no larger than the paper shows, nothing but pixels.

A photograph carries more than it shows: where and when it was taken, by which telephone, often a
small copy of itself. All of that stays behind; what is embedded is drawn anew from the pixels.
"""

from __future__ import annotations

import math
import warnings
from io import BytesIO
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from PIL import Image, UnidentifiedImageError
from PIL.Image import Resampling, Transpose

from permitkit.drawing.shapes import Box, Picture
from permitkit.errors import Fault, InputError

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["LARGEST_FILE", "PRINT_DPI", "printed_picture"]

PRINT_DPI = 200
"""Pixels to the inch at the size a photograph is placed: what a copier still shows."""

LARGEST_FILE = 50_000_000
"""No picture file may be larger. [bytes]"""

_FORMATS = ("JPEG", "PNG", "TIFF")
_WANTED = "a JPEG, PNG or TIFF picture"
_BUDGET = 110_000_000
_PROGRESSIVE_BYTES = 6
_OTHER_BYTES = 10
_BYTES: Mapping[str, int] = MappingProxyType({"L": 2, "RGB": 4, "CMYK": 4, "YCbCr": 4, "RGBA": 8})
_RESIZED_AS_THEY_ARE = frozenset(_BYTES)
_DEEP = ("I", "F")
_TELEPHONE_BRANDS = (b"heic", b"heix", b"hevc", b"heim", b"heis", b"mif1", b"msf1")
_INCH_MM = 25.4
_QUALITY = 85
_ORIENTATION = 0x0112
_TURNS: Mapping[int, Transpose] = MappingProxyType(
    {
        2: Transpose.FLIP_LEFT_RIGHT,
        3: Transpose.ROTATE_180,
        4: Transpose.FLIP_TOP_BOTTOM,
        5: Transpose.TRANSPOSE,
        6: Transpose.ROTATE_270,
        7: Transpose.TRANSVERSE,
        8: Transpose.ROTATE_90,
    }
)
_LYING = (5, 6, 7, 8)


class _Size(NamedTuple):
    """How large a photograph is placed, in mm, and in pixels as its file stores it."""

    width_mm: float
    height_mm: float
    stored: tuple[int, int]


def printed_picture(content: bytes, room_mm: tuple[float, float], where: str) -> Picture:
    """Return a photograph as large as a room takes, its bottom left corner at the origin.

    Parameters
    ----------
    content
        The bytes of the file: JPEG, PNG or TIFF.
    room_mm
        The widest and the highest it may stand. [mm]
    where
        The place that names the file, for faults.

    Returns
    -------
    Picture
        Upright, at most `PRINT_DPI` pixels to the inch, without any of the file's other data.

    Raises
    ------
    InputError
        If it is no picture, breaks off, or is too large to be opened within the memory allowed.
    """
    if len(content) > LARGEST_FILE:
        raise _fault(where, "a file larger than 50 MB", _WANTED, "save it smaller")
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            with Image.open(BytesIO(content), formats=_FORMATS) as opened:
                return _printed(opened, room_mm, where)
        except Image.DecompressionBombError as error:
            most = f"{2 * _guarded() / 1e6:.0f} megapixels"
            found = f"a picture of more than {most}"
            raise _fault(where, found, f"at most {most}", "save it smaller") from error
        except UnidentifiedImageError as error:
            raise _no_picture(content, where) from error
        except (OSError, SyntaxError, ValueError, EOFError) as error:
            found = "a picture that breaks off or is damaged"
            raise _fault(where, found, "a whole one", "copy it from the camera again") from error


def _guarded() -> int:
    """Return the number of pixels from which the library is on its guard."""
    return Image.MAX_IMAGE_PIXELS or 0


def _fault(where: str, found: str, expected: str, fix: str) -> InputError:
    return InputError((Fault(where, found, expected, fix),))


def _no_picture(content: bytes, where: str) -> InputError:
    """Return the fault of a file that is no picture known here."""
    if content[4:8] == b"ftyp" and content[8:12] in _TELEPHONE_BRANDS:
        return _fault(where, "a HEIC picture", _WANTED, "export it as JPEG")
    return _fault(where, "not a picture that can be read", _WANTED, "name another file")


def _printed(opened: Image.Image, room_mm: tuple[float, float], where: str) -> Picture:
    """Return an opened photograph at print size."""
    _check_size(opened, where)
    turn = _orientation(opened)
    size = _size(opened, room_mm, lying=turn in _LYING)
    opened.draft(None, size.stored)
    small = _reduced(opened, size.stored)
    upright = small.transpose(_TURNS[turn]) if turn in _TURNS else small
    upright.info.clear()
    target = BytesIO()
    upright.save(target, "JPEG", quality=_QUALITY, optimize=True)
    return Picture(target.getvalue(), Box(0.0, 0.0, size.width_mm, size.height_mm))


def _check_size(opened: Image.Image, where: str) -> None:
    """Refuse a picture whose opening would take more memory than is allowed.

    An ordinary JPEG is reduced while it is read, so that its size does not matter.
    """
    jpeg = opened.format in ("JPEG", "MPO")
    if jpeg and not opened.info.get("progressive"):
        return
    each = _PROGRESSIVE_BYTES if jpeg else _BYTES.get(opened.mode, _OTHER_BYTES)
    pixels, most = opened.width * opened.height, _BUDGET // each
    if pixels > most:
        kind = "progressive JPEG" if jpeg else opened.format
        found = f"a {kind} picture of {opened.width} by {opened.height} pixels"
        expected = f"at most {most / 1e6:.0f} megapixels in such a file, or an ordinary JPEG"
        raise _fault(where, found, expected, "save it smaller, or as an ordinary JPEG")


def _orientation(opened: Image.Image) -> int:
    """Return how a camera said the picture lies; upright where it said nothing that can be read."""
    try:
        return int(opened.getexif().get(_ORIENTATION, 1))
    except Exception:  # noqa: BLE001 -- a picture is no worse for data that are thrown away
        return 1


def _size(opened: Image.Image, room_mm: tuple[float, float], *, lying: bool) -> _Size:
    """Return how large a picture stands in a room, and how many of its pixels that takes."""
    across, up = (opened.height, opened.width) if lying else opened.size
    each_mm = min(room_mm[0] / across, room_mm[1] / up)
    share = min(1.0, each_mm / _INCH_MM * PRINT_DPI)
    width, height = (max(1, math.ceil(side * share - 1e-9)) for side in opened.size)
    return _Size(across * each_mm, up * each_mm, (width, height))


def _reduced(opened: Image.Image, size: tuple[int, int]) -> Image.Image:
    """Return a picture in fewer pixels, in plain colours on white."""
    if opened.mode in _RESIZED_AS_THEY_ARE:
        return _plain(opened.resize(size, Resampling.LANCZOS, reducing_gap=2.0))
    return _plain(opened).resize(size, Resampling.LANCZOS, reducing_gap=2.0)


def _plain(image: Image.Image) -> Image.Image:
    """Return a picture in grey or in colours; what shows through becomes white."""
    if image.mode in ("L", "RGB"):
        return image
    if image.mode.startswith(_DEEP):
        return image.convert("I").point(lambda value: value * (1 / 256)).convert("L")
    if not image.has_transparency_data:
        return image.convert("RGB")
    seen = image.convert("RGBA")
    white = Image.new("RGB", seen.size, "white")
    white.paste(seen, mask=seen.getchannel("A"))
    return white
