"""The ways of letting water go by the words an order of preference uses."""

from __future__ import annotations

from typing import NamedTuple

from permitkit.model.words import OutletKind, choices

__all__ = ["WAYS", "Way", "same_way", "way_fits"]


class Way(NamedTuple):
    """The kinds of outlet that a word stands for; of an emitter, the yards it may stand in."""

    kinds: tuple[str, ...]
    yards: tuple[str, ...] = ()


_GUTTER = Way(("core", "notch", "existing hole", "culvert under walk"))
_SEWER = Way(("storm lateral",))

WAYS = {
    **{kind: Way((kind,)) for kind in choices(OutletKind)},
    "any other way": Way(choices(OutletKind)),
    "gutter": _GUTTER,
    "street gutter": _GUTTER,
    "curb": _GUTTER,
    "storm sewer": _SEWER,
    "storm drain": _SEWER,
    "catch basin": _SEWER,
    "yard": Way(("emitter",)),
    "back yard": Way(("emitter",), ("rear",)),
    "front yard": Way(("emitter",), ("front",)),
    "side yard": Way(("emitter",), ("side",)),
    "front or side yard": Way(("emitter",), ("front", "side")),
}
"""Every word an order may use: the kinds of outlet themselves, and words of the trade."""


def way_fits(word: str, kind: str, yard: object) -> bool | None:
    """Return whether a word of an order stands for an outlet; nothing where the yard is not known.

    Parameters
    ----------
    word
        One of the words in `WAYS`.
    kind
        The kind of outlet.
    yard
        The yard it stands in, if that is known.

    Examples
    --------
    >>> way_fits("gutter", "core", None), way_fits("back yard", "emitter", None)
    (True, None)
    """
    way = WAYS.get(word, Way((word,)))
    if kind not in way.kinds:
        return False
    if not way.yards:
        return True
    return yard in way.yards if isinstance(yard, str) else None


def same_way(one: str, other: str) -> bool:
    """Return whether two words stand for one way, or the one for a part of the other.

    Examples
    --------
    >>> same_way("storm sewer", "storm lateral"), same_way("back yard", "front yard")
    (True, False)
    """
    if one == other or "any other way" in {one, other}:
        return one == other
    first, second = (WAYS.get(word, Way((word,))) for word in (one, other))
    apart = first.yards and second.yards and not set(first.yards) & set(second.yards)
    return bool(set(first.kinds) & set(second.kinds)) and not apart
