"""The outlet window: the heights of a hole in the curb that satisfy every rule and fact at once.

Every limit is turned into the height of the hole's lowest point above the gutter flow line,
whatever part it speaks of and whatever it is measured from.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING

from permitkit.model.keys.outlet import CORE_BIT, CORE_GAP, CORE_HEIGHT, CORE_STRIP
from permitkit.model.values import Limit
from permitkit.study.results import Bound, Window
from permitkit.units import Kind, Measure, measure, same

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.model.rules import RuleKey
    from permitkit.study.in_force import RulesInForce

__all__ = ["HoleLimits", "HoleSize", "hole_limits", "sold_bits_m"]

_Height = tuple[float, tuple[str, str]]

CURB_TOP = "curb top"
PAVEMENT = "pavement"
FLOW_LINE = ("the gutter flow line", "")
CURB_ITSELF = ("the curb top", "")
SLACK_M = 1e-9
SOLD_HALF_INCHES = (4, 5, 6, 7, 8, 9, 10, 12, 14, 16)


@cache
def sold_bits_m() -> tuple[float, ...]:
    """Return the diameters core bits are commonly sold in, 2 to 8 in, in m."""
    half_inch = measure(1, "in", Kind.LENGTH) / 2
    return tuple(float(half_inch * n) for n in SOLD_HALF_INCHES)


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
        return (self.bit_m - self.bore_m) / 2.0

    def up_m(self, part: str) -> float:
        """Return how far a part that a rule may name stands over the hole's lowest point."""
        if part == "invert":
            return self.invert_up_m
        shares = {"hole centre": self.bit_m / 2.0, "hole top": self.bit_m}
        return self.gap_m if part == "pipe outside" else shares.get(part, 0.0)


@dataclass(frozen=True, slots=True)
class _Ends:
    """A limit as floats, with the part and datum it speaks of and where it stands."""

    least_m: float | None = None
    most_m: float | None = None
    sizes_m: tuple[float, ...] = ()
    of: str = ""
    origin: str = ""
    why: tuple[str, str] = ("", "")

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
        lows = tuple(Bound(height, *why) for height, why in self._lows(size))
        highs = tuple(Bound(height, *why) for height, why in self._highs(size))
        low = max(lows, key=lambda bound: bound.height_m)
        return Window(lows, highs, low, min(highs, key=lambda bound: bound.height_m))

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
        low = max(height for height, _ in self._lows(size))
        return low <= min(height for height, _ in self._highs(size)) + SLACK_M

    def fitting_bits_m(self, outside_m: float, bore_m: float) -> tuple[float, ...]:
        """Return the bits sold that fit the pipe and the curb at once."""
        sizes = (HoleSize(bit, outside_m, bore_m) for bit in sold_bits_m())
        return tuple(size.bit_m for size in sizes if self.fits(size))

    def largest_bit_m(self) -> float | None:
        """Return the largest bit sold that the curb has room for, whatever pipe goes in."""
        of_pipe = self.height.of in {"invert", "pipe outside"}
        limits = replace(self, height=_Ends()) if of_pipe else self
        sizes = (HoleSize(bit, bit, bit) for bit in reversed(sold_bits_m()))
        open_to = (
            size.bit_m for size in sizes if self.bit.allows(size.bit_m) and limits.has_room(size)
        )
        return next(open_to, None)

    def _lows(self, size: HoleSize) -> Iterator[_Height]:
        """Yield the heights the hole's bottom may not lie below, and why."""
        yield 0.0, FLOW_LINE
        yield from self._by_rule(size, self._from_top(self.height.most_m, self.height.least_m))

    def _highs(self, size: HoleSize) -> Iterator[_Height]:
        """Yield the heights the hole's bottom may not lie above, and why."""
        yield from self._by_rule(size, self._from_top(self.height.least_m, self.height.most_m))
        if self.strip.least_m is not None:
            outside = self.strip.of == "pipe outside"
            top = size.bit_m - size.gap_m if outside else size.bit_m
            yield self.reveal_m - self.strip.least_m - top, self.strip.why
        yield self.reveal_m - size.bit_m, CURB_ITSELF

    def _from_top(self, down_m: float | None, up_m: float | None) -> float | None:
        """Return the end that bounds from one side: limits from the curb top count downward."""
        return down_m if self.height.origin == CURB_TOP else up_m

    def _by_rule(self, size: HoleSize, value_m: float | None) -> Iterator[_Height]:
        """Yield the town's limit on height turned into the height of the hole's bottom."""
        if value_m is None:
            return
        rule = self.height
        if rule.origin == CURB_TOP:
            part = self.reveal_m - value_m
        else:
            part = value_m + (self.pavement_m if rule.origin == PAVEMENT else 0.0)
        yield part - size.up_m(rule.of), rule.why


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
        (name, found.source),
    )


def _metres(value: Measure | int | None) -> float | None:
    return float(value) if isinstance(value, Measure) else None
