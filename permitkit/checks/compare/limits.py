"""Quantities held against limits."""

from __future__ import annotations

from functools import partial
from math import inf
from typing import TYPE_CHECKING, TypedDict

from permitkit.checks.compare.answers import honest, judged, passes_over
from permitkit.checks.finding import Finding
from permitkit.checks.scale import Comparison, Ends, Yardstick, above, below, ends_of, told
from permitkit.model.values import Limit
from permitkit.model.verdict import Outcome
from permitkit.units import same

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Unpack

    from permitkit.checks.scale import Lazy, Quantity
    from permitkit.study.in_force import InForce
    from permitkit.units import Measure

__all__ = ["at_least", "at_most", "measured_from", "part_measured", "within"]

SHORT = "{short}"


class Told(TypedDict, total=False):
    """What a check adds to a comparison.

    `cure` may hold `{short}`, which becomes what is missing, rounded up; `cure_at` is called
    with the limit that is broken, in SI. `other` is the cure where the other end is broken than
    the one the check asks for, which is then judged as well. `levelled` is how many metres of
    height one unit of the quantity is, where it was read with the level: 1 for a height, the
    length for a slope.
    `missing` is said where the quantity is not known. `floor` is what physics alone asks where no
    sheet says more.
    """

    item: str
    cure: Lazy
    cure_at: Callable[[float], str]
    other: Lazy
    levelled: float
    missing: str
    advice: bool
    floor: Yardstick


def at_least(rule: InForce | Yardstick, proposed: Quantity | None, **also: Unpack[Told]) -> Finding:
    """Return whether a quantity reaches the least a rule sets; equality meets it.

    With `other`, the cure for too much, it must keep to the greatest as well where there is one.
    """
    return _weighed(rule, proposed, also, low=True, high="other" in also)


def at_most(rule: InForce | Yardstick, proposed: Quantity | None, **also: Unpack[Told]) -> Finding:
    """Return whether a quantity keeps to the greatest a rule sets, or is one of its sizes.

    With `other`, the cure for too little, it must reach the least as well where there is one.
    """
    return _weighed(rule, proposed, also, low="other" in also, high=True, most=True)


def within(rule: InForce | Yardstick, proposed: Quantity | None, **also: Unpack[Told]) -> Finding:
    """Return whether a quantity lies between both ends a rule sets; `other` cures too much."""
    return _weighed(rule, proposed, also, low=True, high=True)


def part_measured(rule: InForce) -> str:
    """Return which part a rule on a height or distance speaks of."""
    value = rule.value
    return (value.of if isinstance(value, Limit) else "") or next(iter(rule.key.of), "")


def measured_from(rule: InForce) -> str:
    """Return where a rule on a height or distance measures from."""
    value = rule.value
    return (value.origin if isinstance(value, Limit) else "") or next(iter(rule.key.origin), "")


def _weighed(
    rule: InForce | Yardstick,
    proposed: Quantity | None,
    also: Told,
    *,
    low: bool,
    high: bool,
    most: bool = False,
) -> Finding:
    item = also.get("item", "")
    if isinstance(rule, Yardstick):
        ends = Ends(rule.kind, rule.unit, rule.least, rule.most, name=rule.name)
        in_force = rule.rule
    elif isinstance(rule.value, Limit):
        ends, in_force = ends_of(rule.key, rule.value, low=low, high=high), rule
    else:
        return _unruled(rule, proposed, also, low=low, high=high)
    if proposed is None:
        return passes_over(also.get("missing", "not measured"), item=item, rule=in_force)
    if ends.low is None and ends.high is None and not ends.sizes:
        return passes_over(f"no {'least' if low else 'greatest'} is set", item=item, rule=in_force)
    return _compared(Comparison(proposed, ends), in_force, also, most=most)


def _unruled(
    rule: InForce, proposed: Quantity | None, also: Told, *, low: bool, high: bool
) -> Finding:
    """Return the honest answer; what physics asks is not open, whatever a sheet leaves open."""
    answer = honest(rule, item=also.get("item", ""))
    floor = also.get("floor")
    if floor is None:
        return answer
    physical = _weighed(floor, proposed, also, low=low, high=high)
    open_still = answer.outcome is Outcome.ASK and physical.outcome is Outcome.MEETS
    return answer if open_still else physical


def _compared(comparison: Comparison, rule: InForce | None, also: Told, *, most: bool) -> Finding:
    ends = comparison.ends
    value = float(comparison.proposed)
    low = -inf if ends.low is None else float(ends.low)
    high = inf if ends.high is None else float(ends.high)
    item = also.get("item", "")
    if below(value, low) or above(value, high) or (ends.sizes and _odd(value, ends.sizes)):
        outcome = judged(ok=False, advice=also.get("advice", False))
        over = value > float(comparison.nearest())
        beyond = "other" in also and over is not most
        cure = partial(_cure, comparison, also, beyond=beyond)
        return Finding(outcome, item, rule, comparison, cure=cure, beyond=beyond)
    levelled = also.get("levelled")
    spare = min(abs(value - low), abs(high - value)) * levelled if levelled else inf
    return Finding(Outcome.MEETS, item, rule, comparison, spare_m=spare)


def _odd(value: float, sizes: tuple[Measure, ...]) -> bool:
    """Tell whether a value is none of some sizes."""
    return not any(same(value, float(size)) for size in sizes)


def _cure(comparison: Comparison, also: Told, *, beyond: bool) -> str:
    """Return the cure with its number, where it has one."""
    if "cure_at" in also and not beyond:
        return also["cure_at"](float(comparison.nearest()))
    cure = told((also["other"] if beyond else also.get("cure")) or "")
    return cure.replace(SHORT, comparison.short_by()) if SHORT in cure else cure
