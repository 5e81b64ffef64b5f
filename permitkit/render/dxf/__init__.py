"""A sheet as DXF, in feet or metres on the ground, for the town engineer who asks for it.

The plan lies in model space on layers named in words, each with the pen of its role. What stands
round the plan, its legend too, lies on a layer of its own, so that a length summed over a layer is
a length on the ground. A layout named `Sheet` prints the whole at its scale.
"""

from __future__ import annotations

from contextlib import contextmanager
from importlib import import_module
from importlib.util import find_spec
from io import StringIO
from typing import TYPE_CHECKING, Any

from permitkit.errors import Fault, OutputError
from permitkit.render.dxf.layers import LAYERS, SHEET_LAYER, layer_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.drawing.scale import Scale
    from permitkit.drawing.sheet import Sheet

__all__ = ["LAYERS", "SHEET_LAYER", "can_write", "layer_of", "render_dxf"]

_VERSION = "R2010"


def can_write() -> bool:
    """Tell whether the library that writes DXF is installed."""
    return find_spec("ezdxf") is not None


def render_dxf(sheet: Sheet, scale: Scale) -> bytes:
    """Return a sheet as a DXF document, the same bytes for the same shapes.

    Parameters
    ----------
    sheet
        A plan drawn at one scale. Photographs on it are left out.
    scale
        The sheet's scale; its system says whether the drawing is in feet or in metres.

    Raises
    ------
    OutputError
        If the library that writes DXF is not installed.
    """
    try:
        library = import_module("ezdxf")
    except ImportError as error:
        fault = Fault(
            where=f"DXF of the {sheet.title.lower()}",
            found="the library ezdxf is not installed",
            expected="the extra that writes DXF",
            fix="pip install 'permitkit[dxf]', or ask for the other kinds",
        )
        raise OutputError((fault,)) from error
    from permitkit.render.dxf.model import Model  # noqa: PLC0415 -- it needs the library

    with _without_clock(library.options):
        document = library.new(_VERSION)
        Model(document, sheet, scale).draw()
        for kind in sorted(document.entitydb.dxf_types_in_use()):
            document.classes.add_class(kind)  # else in the order of a set, which no two runs share
        text = StringIO()
        document.write(text)
    return bytes(document.encode(text.getvalue()))


@contextmanager
def _without_clock(options: Any) -> Iterator[None]:  # noqa: ANN401 -- the library's own settings
    """Have the library write neither the hour nor a random number."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before
