"""The ends a quantity is held between, and how the two are told side by side."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from math import ceil
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from permitkit.study.in_force import InForce
from permitkit.units import Kind, Measure, apart, from_si, measure, same
from permitkit.units.table import unit_named

if TYPE_CHECKING:
    from collections.abc import Callable

    from permitkit.model.rules import RuleKey
    from permitkit.model.values import Limit

__all__ = [
    "Comparison",
    "Ends",
    "Lazy",
    "Quantity",
    "Yardstick",
    "above",
    "below",
    "ends_of",
    "rounded_up",
]

Quantity: TypeAlias = "Measure | float"
Lazy: TypeAlias = "str | Callable[[], str]"

NOISE = Fraction(1, 10**9)
UPRIGHT = {"flow line", "pavement", "ground"}


@dataclass(frozen=True, slots=True)
class Yardstick:
    """A limit that no sheet sets: the physics', or one that the job's own numbers give.

    Parameters
    ----------
    kind
        What is measured; nothing for a count.
    unit
        The unit it is told in.
    least, most
        The ends, in SI; either may be left open.
    name
        What the limit is, in words.
    rule
        The rule it was reckoned from, if one stands behind it.
    """

    kind: Kind | None
    unit: str = ""
    least: Quantity | None = None
    most: Quantity | None = None
    name: Lazy = ""
    rule: InForce | None = None


class Ends(NamedTuple):
    """A least, a greatest, or a set of sizes, with what is measured and from where."""

    kind: Kind | None
    unit: str
    low: Quantity | None
    high: Quantity | None
    sizes: tuple[Measure, ...] = ()
    name: Lazy = ""

    def every(self) -> list[Quantity]:
        """Return the ends there are."""
        return [end for end in (self.low, self.high, *self.sizes) if end is not None]


class Comparison(NamedTuple):
    """A quantity and the ends it was held between."""

    proposed: Quantity
    ends: Ends

    def nearest(self) -> Quantity:
        """Return the end that the quantity breaks or comes nearest to."""
        value = float(self.proposed)
        return min(self.ends.every(), key=lambda end: abs(float(end) - value))

    def side_by_side(self) -> tuple[str, str]:
        """Return the quantity and the end nearest to it in print, which says which is more."""
        return _apart(self.proposed, self.nearest(), self.ends)

    def proposed_text(self) -> str:
        """Return what is proposed in the limit's unit, and in its own where that is another."""
        text, _ = self.side_by_side()
        value = self.proposed
        if not isinstance(value, Measure) or value.unit == self.ends.unit:
            return text
        return text if value.shown() == text else f"{text} ({value.shown()})"

    def limit_text(self) -> str:
        """Return the limit, told finely enough that the print tells the same story."""
        _, fine = self.side_by_side()
        words = _in_words(self.ends, {id(self.nearest()): fine})
        name = told(self.ends.name)
        return f"{words} ({name})" if name else words

    def short_by(self) -> str:
        """Return how much is missing, rounded up so that making it good is enough."""
        missing = abs(float(self.proposed) - float(self.nearest()))
        return rounded_up(missing, self.ends.kind, self.ends.unit)


def told(text: Lazy) -> str:
    """Return a text, worked out now if it waited to be asked for."""
    return text if isinstance(text, str) else text()


def below(value: float, limit: float) -> bool:
    """Tell whether a value is under a limit by more than the noise of computing."""
    return value < limit and not same(value, limit)


def above(value: float, limit: float) -> bool:
    """Tell whether a value is over a limit by more than the noise of computing."""
    return value > limit and not same(value, limit)


def rounded_up(si: float, kind: Kind | None, unit: str) -> str:
    """Return an amount in a unit, rounded up to the unit's own step; a count is whole."""
    if kind is None:
        return f"{ceil(si)}"
    style = unit_named("%" if unit == "1:n" else unit, kind)
    number = from_si(si, kind, style.name).in_(style.name)
    steps = ceil(number / style.step - NOISE)
    return measure(steps * style.step, style.name, kind).shown(style.step)


def ends_of(key: RuleKey, limit: Limit, *, low: bool, high: bool) -> Ends:
    """Return the ends of a rule's limit that are asked about."""
    least = limit.at_least if low else None
    most = limit.at_most if high else None
    sizes = limit.sizes if low or high else ()
    first = least if least is not None else most if most is not None else next(iter(sizes), None)
    unit = first.unit if isinstance(first, Measure) else ""
    return Ends(key.quantity, unit, least, most, sizes, partial(_datum, limit, key))


def _datum(limit: Limit, key: RuleKey) -> str:
    """Return what is measured and from where, in words."""
    of = limit.of or (key.of[0] if key.of else "")
    origin = limit.origin or (key.origin[0] if key.origin else "")
    if not origin:
        return of
    return f"{of} above {origin}" if origin in UPRIGHT else f"{of} from {origin}"


def _in_words(ends: Ends, fine: dict[int, str]) -> str:
    def shown(end: Quantity) -> str:
        return fine.get(id(end)) or _shown(end, ends)

    if ends.sizes:
        return f"one of {', '.join(shown(size) for size in ends.sizes)}"
    if ends.low is not None and ends.high is not None:
        low, high = shown(ends.low), shown(ends.high)
        return f"exactly {low}" if float(ends.low) == float(ends.high) else f"{low} to {high}"
    if ends.low is not None:
        return f"at least {shown(ends.low)}"
    return "".join(f"at most {shown(end)}" for end in ends.every())


def _apart(one: Quantity, two: Quantity, ends: Ends) -> tuple[str, str]:
    """Return two quantities in print, finely enough to say which is more."""
    if ends.kind is None:
        return f"{one}", f"{two}"
    step = unit_named(ends.unit, ends.kind).step
    return apart(
        _measure(one, ends.kind, ends.unit), _measure(two, ends.kind, ends.unit), ends.unit, step
    )


def _measure(value: Quantity, kind: Kind, unit: str) -> Measure:
    return value if isinstance(value, Measure) else from_si(float(value), kind, unit)


def _shown(end: Quantity, ends: Ends) -> str:
    return f"{end}" if ends.kind is None else _measure(end, ends.kind, ends.unit).shown()
