"""The outlet window: the heights of a hole in the curb that satisfy every rule and fact at once.

Here the rules' limits are read, named and told where they stand; geometry turns each into the
height of the hole's lowest point, and finds what lies between them.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from permitkit.geometry import window as geometry
from permitkit.geometry.core import BITS_SOLD_M, above_bottom
from permitkit.model.keys.outlet import CORE_BIT, CORE_GAP, CORE_HEIGHT, CORE_STRIP
from permitkit.model.values import Limit
from permitkit.study.results import Bound, Window
from permitkit.units import Measure, same

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.geometry.core import Part
    from permitkit.model.rules import RuleKey
    from permitkit.study.in_force import RulesInForce

__all__ = ["HoleLimits", "HoleSize", "hole_limits"]

CURB_TOP = "curb top"
PAVEMENT = "pavement"
FLOW_LINE = "the gutter flow line"
CURB_ITSELF = "the curb top"
PARTS: dict[str, Part] = {
    "invert": "invert",
    "hole centre": "centre",
    "hole top": "hole top",
    "pipe outside": "pipe bottom",
}


@dataclass(frozen=True, slots=True)
class HoleSize:
    """A bit and the pipe that stands centred in its hole; `bore_m` is the pipe's inside height."""

    bit_m: float
    outside_m: float
    bore_m: float

    @property
    def gap_m(self) -> float:
        """The ring of grout round the pipe."""
        return (self.bit_m - self.outside_m) / 2.0

    @property
    def invert_up_m(self) -> float:
        """How far the pipe's invert stands over the hole's lowest point."""
        return above_bottom("invert", self.bit_m, self.outside_m, self.bore_m)

    def limit(self, name: str, part: Part, side: geometry.Side, height_m: float) -> geometry.Limit:
        """Return a limit on a part's height above the flow line as one on the lowest point."""
        size = (self.bit_m, self.outside_m, self.bore_m)
        return geometry.limit_on(name, part, side, height_m, *size)


@dataclass(frozen=True, slots=True)
class _Ends:
    """A limit as floats, with the part and datum it speaks of and where it stands."""

    least_m: float | None = None
    most_m: float | None = None
    sizes_m: tuple[float, ...] = ()
    of: str = ""
    origin: str = ""
    name: str = ""
    source: str = ""

    def allows(self, value_m: float) -> bool:
        """Tell whether a value meets the limit; equality meets it."""
        if self.sizes_m:
            return any(same(value_m, size) for size in self.sizes_m)
        low = self.least_m is None or value_m >= self.least_m or same(value_m, self.least_m)
        return low and (self.most_m is None or value_m <= self.most_m or same(value_m, self.most_m))


@dataclass(frozen=True, slots=True)
class HoleLimits:
    """What bounds a hole in one curb: its least reveal, the pavement's height, the town's limits.

    Heights are above the gutter flow line.
    """

    reveal_m: float
    pavement_m: float
    height: _Ends
    strip: _Ends
    bit: _Ends
    gap: _Ends

    def window(self, size: HoleSize) -> Window:
        """Return the heights of the hole's lowest point that satisfy every limit."""
        found = geometry.outlet_window(self._limits(size))
        bounds = {limit: self._told(limit) for limit in found.limits}
        lows, highs = (
            tuple(bound for limit, bound in bounds.items() if limit.side == side)
            for side in ("low", "high")
        )
        return Window(lows, highs, bounds[found.low_by], bounds[found.high_by])

    def fits(self, size: HoleSize) -> bool:
        """Tell whether the pipe goes into the hole, and the hole into the curb."""
        return (
            size.outside_m <= size.bit_m
            and self.gap.allows(size.gap_m)
            and self.bit.allows(size.bit_m)
            and self.has_room(size)
        )

    def has_room(self, size: HoleSize) -> bool:
        """Tell whether any height satisfies every limit."""
        return not geometry.outlet_window(self._limits(size)).is_empty

    def fitting_bits_m(self, outside_m: float, bore_m: float) -> tuple[float, ...]:
        """Return the bits sold that fit the pipe and the curb at once."""
        sizes = (HoleSize(bit, outside_m, bore_m) for bit in BITS_SOLD_M)
        return tuple(size.bit_m for size in sizes if self.fits(size))

    def largest_bit_m(self) -> float | None:
        """Return the largest bit sold that the curb has room for, whatever pipe goes in."""
        of_pipe = self.height.of in {"invert", "pipe outside"}
        limits = replace(self, height=_Ends()) if of_pipe else self
        sizes = (HoleSize(bit, bit, bit) for bit in reversed(BITS_SOLD_M))
        open_to = (
            size.bit_m for size in sizes if self.bit.allows(size.bit_m) and limits.has_room(size)
        )
        return next(open_to, None)

    def _limits(self, size: HoleSize) -> Iterator[geometry.Limit]:
        """Yield every limit on the hole's lowest point."""
        yield geometry.Limit(FLOW_LINE, "low", 0.0)
        yield from self._by_rule(size)
        if self.strip.least_m is not None:
            over: Part = "pipe top" if self.strip.of == "pipe outside" else "hole top"
            below = self.reveal_m - self.strip.least_m
            yield size.limit(self.strip.name, over, "high", below)
        yield size.limit(CURB_ITSELF, "hole top", "high", self.reveal_m)

    def _by_rule(self, size: HoleSize) -> Iterator[geometry.Limit]:
        """Yield the town's limits on height; those from the curb top count downward."""
        rule = self.height
        down = rule.origin == CURB_TOP
        part = PARTS.get(rule.of, "hole bottom")
        lifted = self.pavement_m if rule.origin == PAVEMENT else 0.0
        low, high = (rule.most_m, rule.least_m) if down else (rule.least_m, rule.most_m)
        sides: tuple[tuple[geometry.Side, float | None], ...] = (("low", low), ("high", high))
        for side, end in sides:
            if end is not None:
                above = self.reveal_m - end if down else end + lifted
                yield size.limit(rule.name, part, side, above)

    def _told(self, limit: geometry.Limit) -> Bound:
        """Return a limit with where it stands."""
        sources = {self.height.name: self.height.source, self.strip.name: self.strip.source}
        return Bound(limit.hole_bottom_m, limit.name, sources.get(limit.name, ""))


def hole_limits(rules: RulesInForce, reveal_m: float, pavement_m: float = 0.0) -> HoleLimits:
    """Return what bounds a hole in a curb under the rules in force.

    Parameters
    ----------
    rules
        The rules in force.
    reveal_m
        Least height of the curb top above the gutter flow line. [m]
    pavement_m
        Height of the pavement above the flow line, where an overlay has raised it. [m]
    """
    height, strip, bit, gap = (
        _ends(rules, key) for key in (CORE_HEIGHT, CORE_STRIP, CORE_BIT, CORE_GAP)
    )
    return HoleLimits(reveal_m, pavement_m, height, strip, bit, gap)


def _ends(rules: RulesInForce, key: RuleKey) -> _Ends:
    """Return a key's limit as floats; no ends where there is none or it is not known."""
    found = rules[key]
    value = found.value
    if not isinstance(value, Limit):
        return _Ends()
    of = value.of or next(iter(key.of), "")
    origin = value.origin or next(iter(key.origin), "")
    way = "below" if origin == CURB_TOP else "over"
    name = f"the strip over the {of}" if key is CORE_STRIP else f"{of} {way} the {origin}"
    return _Ends(
        _metres(value.at_least),
        _metres(value.at_most),
        tuple(float(size) for size in value.sizes),
        of,
        origin,
        name,
        found.source,
    )


def _metres(value: Measure | int | None) -> float | None:
    return float(value) if isinstance(value, Measure) else None
