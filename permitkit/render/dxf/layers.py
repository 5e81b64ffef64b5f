"""The layers of a DXF drawing, named in words, and the hatch of every material."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from permitkit.drawing.dimensions import Arrow
from permitkit.drawing.shapes import Hatch, Label, Pattern, Role

if TYPE_CHECKING:
    from collections.abc import Mapping

    from permitkit.drawing.shapes import Primitive, Shape

__all__ = ["HATCHES", "LAYERS", "SHEET_LAYER", "layer_of"]

SHEET_LAYER = "sheet"
"""Border, title block, legend and notes: everything that does not lie on the ground."""

LAYERS: Mapping[Role, str] = MappingProxyType(
    {
        Role.EXISTING: "existing",
        Role.PROPOSED: "proposed",
        Role.REMOVED: "to be removed",
        Role.HIDDEN: "below ground",
        Role.CENTRE: "center line",
        Role.BOUNDARY: "property line",
        Role.RIGHT_OF_WAY: "right-of-way line",
        Role.DIMENSION: "dimensions",
        Role.TEXT: "text",
        Role.WATER: "water",
        Role.GRADE_LINE: "water line at design flow",
        Role.GROUND: "ground",
        Role.PIPE: "drain pipe",
        Role.SAW_CUT: "saw cut",
        Role.PLANT: "trees and shrubs",
        Role.UTILITY_ELECTRIC: "utility electric",
        Role.UTILITY_GAS: "utility gas",
        Role.UTILITY_COMMUNICATION: "utility communication",
        Role.UTILITY_WATER: "utility water",
        Role.UTILITY_RECLAIMED: "utility reclaimed water",
        Role.UTILITY_SEWER: "utility sewer",
        Role.UTILITY_DRAIN: "utility storm drain",
        Role.SURVEY: "survey marks",
        Role.PROPOSED_DIG: "limit of digging",
        Role.HATCH: "hatch",
        Role.FRAME: "frame",
        Role.ASSUMED: "assumed line",
        Role.NOTE: "notes",
    }
)
"""The layer of every role; hatches have one for each material, arrows and texts one beside it."""

HATCHES: Mapping[Pattern, tuple[str, str, float]] = MappingProxyType(
    {
        Pattern.CONCRETE: ("concrete", "AR-CONC", 0.04),
        Pattern.EARTH: ("soil", "EARTH", 0.8),
        Pattern.GRAVEL: ("gravel", "GRAVEL", 0.25),
        Pattern.ASPHALT: ("asphalt", "ANSI33", 0.8),
        Pattern.GROUT: ("grout", "AR-SAND", 0.03),
        Pattern.WATER: ("standing water", "DASH", 1.0),
        Pattern.SAND: ("sand", "AR-SAND", 0.045),
        Pattern.REMOVED: ("taken out", "ANSI37", 1.0),
        Pattern.STEEL: ("steel", "ANSI32", 0.5),
    }
)
"""The material in words, the usual hatch of drafting programs, and its size on paper."""


def layer_of(mark: Primitive, shape: Shape) -> str:
    """Return the layer of a mark of the plan, which is drawn as part of a shape.

    Arrows and texts lie beside what they speak of, so that a layer holds one run of lines once.
    """
    if isinstance(mark, Hatch):
        return f"{LAYERS[Role.HATCH]} {HATCHES[mark.pattern][0]}"
    layer = LAYERS[mark.role]
    if isinstance(mark, Label) and mark.role not in (Role.TEXT, Role.NOTE):
        return f"{layer} text"
    return f"{layer} arrows" if isinstance(shape, Arrow) else layer
