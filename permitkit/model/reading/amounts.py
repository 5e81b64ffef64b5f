"""Limits and the design rain, read from what a sheet writes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.values import Limit, RainRule
from permitkit.units import Kind, Measure

if TYPE_CHECKING:
    from permitkit.model.reading.written import Written
    from permitkit.model.rules import RuleKey

__all__ = ["read_limit", "read_rain"]


def read_limit(table: Written, key: RuleKey) -> Limit | None:
    """Return a least, a greatest, both, one exact value, or any of a set of sizes."""
    of = _read_datum(table, "of", key.of)
    origin = _read_datum(table, "from", key.origin)
    if table.has("sizes"):
        return Limit(of=of, origin=origin, sizes=_read_sizes(table, key))
    if table.has("exactly"):
        exact = _read_amount(table, "exactly", key)
        return Limit(exact, exact, of, origin)
    low, high = _read_amount(table, "at_least", key), _read_amount(table, "at_most", key)
    if low is not None and high is not None and low > high:  # type: ignore[operator]
        table.fault("at_least", f"a least of {_shown(low)}", f"no more than {_shown(high)}")
    _tell_other_end(table, key)
    return Limit(low, high, of, origin)


def _read_amount(table: Written, name: str, key: RuleKey) -> Measure | int | None:
    """Return one end: a quantity of the key's kind, or a whole number where it counts."""
    if key.quantity is None:
        return table.count(name)
    return table.measure(name, key.quantity)


def _read_sizes(table: Written, key: RuleKey) -> tuple[Measure, ...]:
    """Return the sizes of which any will do, smallest first."""
    if key.quantity is None:
        table.fault("sizes", "sizes", "a whole number", "use at_least, at_most or exactly")
        return ()
    sizes = [table.read_measure(text, "sizes", key.quantity) for text in table.texts("sizes")]
    return tuple(sorted(size for size in sizes if size is not None))


def _read_datum(table: Written, name: str, known: tuple[str, ...]) -> str:
    """Return what is measured, or from where; needed where the key could mean several."""
    if not known:
        if table.has(name):
            table.take(name)
            table.fault(name, "a datum", "none: this rule can mean only one thing", "leave it out")
        return ""
    if len(known) > 1 and not table.has(name):
        what = "what is measured" if name == "of" else "from where it is measured"
        table.fault("", f"no `{name}`", f"{what}: {name} = one of {', '.join(known)}")
    return table.word(name, known, known[0])


def _tell_other_end(table: Written, key: RuleKey) -> None:
    """Note a limit that gives only the end its rule does not have."""
    other = {"at_most": "at_least", "at_least": "at_most"}.get(key.ends)
    if other and table.has(other) and not table.has(key.ends):
        expected = f"{key.ends}, since {key.question[0].lower()}{key.question[1:]}"
        table.fault(other, f"only {other}", expected)


def _shown(amount: Measure | int) -> str:
    return amount.shown() if isinstance(amount, Measure) else str(amount)


def read_rain(table: Written, _key: RuleKey) -> RainRule | None:
    """Return a design rain with its return period and duration."""
    intensity = table.measure("rain", Kind.INTENSITY)
    period, duration = table.text("period"), table.text("duration")
    for name, text in (("period", period), ("duration", duration)):
        if not text:
            sample = "25-year" if name == "period" else "15 min"
            table.fault(name, "nothing", f'the basis of the rain, such as {name} = "{sample}"')
    return RainRule(intensity, period, duration) if intensity is not None else None
