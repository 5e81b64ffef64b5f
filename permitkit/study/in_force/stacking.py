"""How the layers of sheets make one answer: the nearest, the strictest, or all of them."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from permitkit.model.values import Ask, Items, Limit, NoRule, Sentences

if TYPE_CHECKING:
    from collections.abc import Iterable

    from permitkit.model.values import Item, Value
    from permitkit.study.in_force.answer import InForce

__all__ = ["all_of", "strictest"]


def strictest(found: tuple[InForce, ...]) -> InForce:
    """Return the tightest of the layers' limits, with the citation of the one that binds.

    A layer that has no limit, or leaves it open, leaves the others' in force.
    """
    limits = [word for word in found if isinstance(word.value, Limit)]
    if not limits:
        return found[0]
    nearest = limits[0]
    others = [word for word in limits[1:] if _datum(word) != _datum(nearest)]
    if others:
        told = f"{nearest.text}, and {others[0].text} by {others[0].source}"
        return replace(
            nearest, value=Ask("", f"the layers measure differently: {told}"), layers=found
        )
    value, binding = _tightest(limits)
    return replace(binding, value=value, layers=found if len(found) > 1 else ())


def _datum(word: InForce) -> tuple[str, str]:
    return (word.limit.of, word.limit.origin)


def _tightest(limits: list[InForce]) -> tuple[Limit, InForce]:
    """Return both ends at their tightest, and the layer that binds (the nearest of equals)."""
    low = _end(limits, "at_least", max)
    high = _end(limits, "at_most", min)
    sizes = limits[0].limit.sizes
    for word in limits[1:]:
        sizes = _common(sizes, word.limit.sizes)
    value = Limit(
        low.limit.at_least if low else None,
        high.limit.at_most if high else None,
        limits[0].limit.of,
        limits[0].limit.origin,
        sizes,
    )
    prefer = (low, high) if limits[0].key.ends == "at_least" else (high, low)
    return value, next((word for word in prefer if word), limits[0])


def _end(limits: list[InForce], name: str, pick: Any) -> InForce | None:  # noqa: ANN401 - min or max
    """Return the layer whose end is tightest."""
    given = [word for word in limits if getattr(word.limit, name) is not None]
    return pick(given, key=lambda word: getattr(word.limit, name)) if given else None


def _common(one: tuple[Any, ...], two: tuple[Any, ...]) -> tuple[Any, ...]:
    """Return the sizes both layers allow; a layer without sizes allows all."""
    if not one or not two:
        return one or two
    return tuple(size for size in one if size in two)


def all_of(found: tuple[InForce, ...]) -> InForce:
    """Return everything the layers ask for together, each thing once."""
    known = [word for word in found if word.known]
    if not known:
        return next((word for word in found if not isinstance(word.value, NoRule)), found[0])
    value = _joined(word.value for word in known)
    return replace(known[0], value=value, layers=found)


def _joined(values: Iterable[Value]) -> Value:
    """Return lists of one kind as one list, without doubles."""
    every = tuple(values)
    texts = [text for value in every if isinstance(value, Sentences) for text in value.texts]
    if texts:
        return Sentences(tuple(dict.fromkeys(texts)))
    items: dict[tuple[str, str], Item] = {}
    for item in (item for value in every if isinstance(value, Items) for item in value.items):
        kept = items.setdefault((item.name, item.number), item)
        if kept.only_if and not item.only_if:
            items[item.name, item.number] = item
    return Items(tuple(items.values()))
