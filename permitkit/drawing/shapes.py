"""Shapes on paper: frozen data in millimetres, each with a role and never a pen.

The origin is the bottom left corner of the sheet, y points up, angles run anticlockwise in degrees.
What a view returns is the record that tests read and that every renderer draws from.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import StrEnum
from functools import lru_cache
from typing import Protocol, TypeAlias

from permitkit.drawing.lettering import LINE_PITCH, ink_span_mm, text_width_mm
from permitkit.drawing.plane import Box, Point, arc_points, circle_points, turned

__all__ = [
    "LEAST_LETTERING_MM",
    "Anchor",
    "Arc",
    "Box",
    "Circle",
    "Compound",
    "Fill",
    "Hatch",
    "Label",
    "Line",
    "Pattern",
    "Picture",
    "Point",
    "Polygon",
    "Polyline",
    "Primitive",
    "Role",
    "Shape",
    "arc_points",
    "circle_points",
    "turned",
]

LEAST_LETTERING_MM = 2.5
"""Capitals are never lower than this, so that a copied or faxed sheet can still be read."""


class Role(StrEnum):
    """What a mark stands for; the renderer chooses its width, dashes and colour."""

    EXISTING = "existing"
    PROPOSED = "proposed"
    REMOVED = "removed"
    HIDDEN = "hidden"
    CENTRE = "centre"
    BOUNDARY = "boundary"
    RIGHT_OF_WAY = "right_of_way"
    DIMENSION = "dimension"
    TEXT = "text"
    WATER = "water"
    GRADE_LINE = "grade_line"
    GROUND = "ground"
    PIPE = "pipe"
    SAW_CUT = "saw_cut"
    PLANT = "plant"
    UTILITY_ELECTRIC = "utility_electric"
    UTILITY_GAS = "utility_gas"
    UTILITY_COMMUNICATION = "utility_communication"
    UTILITY_WATER = "utility_water"
    UTILITY_RECLAIMED = "utility_reclaimed"
    UTILITY_SEWER = "utility_sewer"
    UTILITY_DRAIN = "utility_drain"
    SURVEY = "survey"
    PROPOSED_DIG = "proposed_dig"
    HATCH = "hatch"
    FRAME = "frame"
    ASSUMED = "assumed"
    NOTE = "note"


class Fill(StrEnum):
    """How the inside of a closed shape is covered."""

    NONE = "none"
    WHITE = "white"
    TONE = "tone"
    SOLID = "solid"


class Pattern(StrEnum):
    """Drafting patterns for materials cut through, and for what is taken out.

    No pattern shares a value with a role, so that both can stand in one legend.
    """

    CONCRETE = "concrete"
    EARTH = "earth"
    GRAVEL = "gravel"
    ASPHALT = "asphalt"
    GROUT = "grout"
    WATER = "standing_water"
    SAND = "sand"
    REMOVED = "taken_out"
    STEEL = "steel"


class Anchor(StrEnum):
    """The point of a text that lies at its given place, as on a compass; C is the middle."""

    SW = "sw"
    S = "s"
    SE = "se"
    W = "w"
    C = "c"
    E = "e"
    NW = "nw"
    N = "n"
    NE = "ne"


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    start: Point
    end: Point
    role: Role


@dataclass(frozen=True, slots=True)
class Polyline:
    """Straight lines from point to point."""

    points: tuple[Point, ...]
    role: Role
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Polygon:
    """A closed shape, outlined, filled or both."""

    points: tuple[Point, ...]
    role: Role
    fill: Fill = Fill.NONE
    outlined: bool = True


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle, outlined, filled or both."""

    centre: Point
    radius_mm: float
    role: Role
    fill: Fill = Fill.NONE
    outlined: bool = True


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle, anticlockwise from start to end."""

    centre: Point
    radius_mm: float
    start_deg: float
    end_deg: float
    role: Role


@dataclass(frozen=True, slots=True)
class Hatch:
    """A region covered by a drafting pattern, less its holes; the outline itself is not drawn.

    `density` above 1 packs the pattern closer, for thin slabs.
    """

    region: tuple[Point, ...]
    pattern: Pattern
    holes: tuple[tuple[Point, ...], ...] = ()
    density: float = 1.0
    role: Role = Role.HATCH


@lru_cache(maxsize=4096)
def _extents(text: str, size_mm: float, bold: bool) -> tuple[float, float, float]:  # noqa: FBT001 -- a cache key
    """Return the width of a text, its ink below its last baseline and above its first."""
    lines = text.split("\n")
    low, _ = ink_span_mm(lines[-1], size_mm, bold=bold)
    _, high = ink_span_mm(lines[0], size_mm, bold=bold)
    return text_width_mm(text, size_mm, bold=bold), low, high


@dataclass(frozen=True, slots=True)
class Label:
    """Text on paper.

    Parameters
    ----------
    text
        One or more lines, parted by line feeds.
    at
        Where the anchor point of the text lies. [mm]
    anchor
        Which point of the text that is; the middle row is the middle of the capitals.
    size_mm
        Height of capitals, at least `LEAST_LETTERING_MM`. [mm]
    angle_deg
        How the text is turned about `at`. [degrees]
    bold, backing
        The bold face; white behind the letters.
    role
        What the text speaks of.
    """

    text: str
    at: Point
    anchor: Anchor = Anchor.SW
    size_mm: float = LEAST_LETTERING_MM
    angle_deg: float = 0.0
    bold: bool = False
    backing: bool = False
    role: Role = Role.TEXT

    def __post_init__(self) -> None:
        """Refuse lettering too small to survive a copier."""
        if self.size_mm < LEAST_LETTERING_MM:
            raise ValueError(
                f"lettering of {self.size_mm} mm is under {LEAST_LETTERING_MM} mm: {self.text!r}"
            )

    @property
    def lines(self) -> tuple[str, ...]:
        """Return the lines, top first."""
        return tuple(self.text.split("\n"))

    @property
    def width_mm(self) -> float:
        """Return the width of the widest line, unturned."""
        return text_width_mm(self.text, self.size_mm, bold=self.bold)

    @property
    def upright(self) -> Box:
        """Return the box of the text before it is turned."""
        across, low, high = _extents(self.text, self.size_mm, self.bold)
        left = self.at[0] - across * _SHARE[self.anchor][0]
        first = self.first_baseline
        last = first - self.text.count("\n") * LINE_PITCH * self.size_mm
        return Box(left, last + low, left + across, first + high)

    @property
    def first_baseline(self) -> float:
        """Return the height of the first line's baseline, before the text is turned."""
        drop = self.text.count("\n") * LINE_PITCH * self.size_mm
        share = _SHARE[self.anchor][1]
        if share == _MIDDLE:
            return self.at[1] + (drop - self.size_mm) / 2
        low, high = ink_span_mm("", self.size_mm)
        return self.at[1] - high if share else self.at[1] - low + drop

    @property
    def corners(self) -> tuple[Point, ...]:
        """Return the four corners of the text as it lies."""
        if not self.angle_deg:
            return self.upright.corners
        return tuple(turned(corner, self.at, self.angle_deg) for corner in self.upright.corners)

    @property
    def box(self) -> Box:
        """Return the upright box around the text as it lies."""
        return Box.around(self.corners) if self.angle_deg else self.upright

    @property
    def boxes(self) -> tuple[Box, ...]:
        """Return upright boxes that cover the text: one, or a chain of small ones if it slants."""
        if self.angle_deg % 90 == 0:
            return (self.box,)
        whole = self.upright
        count = max(1, math.ceil(whole.width / whole.height))
        step = whole.width / count
        slices = (
            whole._replace(left=whole.left + i * step, right=whole.left + (i + 1) * step)
            for i in range(count)
        )
        return tuple(
            Box.around(turned(corner, self.at, self.angle_deg) for corner in piece.corners)
            for piece in slices
        )


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph, upright and reduced to print size, filling a box.

    Parameters
    ----------
    jpeg
        The picture as it is embedded, with nothing in it but the picture.
    box
        Where it lies; the box has the picture's own proportions. [mm]
    role
        What it belongs to; no pen draws it.
    """

    jpeg: bytes = field(repr=False)
    box: Box
    role: Role = Role.FRAME

    @property
    def corners(self) -> tuple[Point, ...]:
        """Return the four corners, anticlockwise from the bottom left."""
        return self.box.corners


_MIDDLE = 0.5
_SHARE: dict[Anchor, tuple[float, float]] = {
    Anchor.SW: (0.0, 0.0),
    Anchor.S: (0.5, 0.0),
    Anchor.SE: (1.0, 0.0),
    Anchor.W: (0.0, 0.5),
    Anchor.C: (0.5, 0.5),
    Anchor.E: (1.0, 0.5),
    Anchor.NW: (0.0, 1.0),
    Anchor.N: (0.5, 1.0),
    Anchor.NE: (1.0, 1.0),
}

Primitive: TypeAlias = Line | Polyline | Polygon | Circle | Arc | Hatch | Label | Picture


class Compound(Protocol):
    """A shape made of simpler ones, such as a dimension."""

    def parts(self) -> tuple[Primitive, ...]:
        """Return the marks it is drawn with."""
        ...


Shape: TypeAlias = Primitive | Compound
