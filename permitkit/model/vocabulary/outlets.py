"""The ways of letting water go by the words an order of preference uses."""

from __future__ import annotations

from typing import NamedTuple

from permitkit.model.words import OutletKind, choices

__all__ = ["ANY_WAY", "NO_WAY", "WAYS", "Way", "same_way", "way_fits", "way_of"]


class Way(NamedTuple):
    """The kinds of outlet that a word stands for; of an emitter, the yards it may stand in."""

    kinds: tuple[str, ...]
    yards: tuple[str, ...] = ()


_GUTTER = Way(("core", "notch", "existing hole", "culvert under walk"))
_SEWER = Way(("storm lateral",))
NO_WAY = Way(())
"""A way that is none of a job's outlets."""

ANY_WAY = "any other way"

WAYS = {
    **{kind: Way((kind,)) for kind in choices(OutletKind)},
    ANY_WAY: Way(choices(OutletKind)),
    "gutter": _GUTTER,
    "street gutter": _GUTTER,
    "curb": _GUTTER,
    "storm sewer": _SEWER,
    "storm drain": _SEWER,
    "storm main": _SEWER,
    "storm water system": _SEWER,
    "stormwater system": _SEWER,
    "storm sewer connection": _SEWER,
    "catch basin": _SEWER,
    "street inlet": _SEWER,
    "manhole": _SEWER,
    "street": _GUTTER,
    "curb and gutter": _GUTTER,
    "through the curb": _GUTTER,
    **dict.fromkeys(("cored hole", "curb core", "drilled hole", "hole"), Way(("core",))),
    **dict.fromkeys(("curb cut", "sawn notch", "saw cut"), Way(("notch",))),
    "existing curb drain": Way(("existing hole",)),
    "weep hole": Way(("core", "existing hole")),
    "sidewalk drain": Way(("culvert under walk",)),
    "sidewalk trough": Way(("culvert under walk",)),
    **dict.fromkeys(("sidewalk culvert", "trough"), Way(("culvert under walk",))),
    "under the walk": Way(("culvert under walk",)),
    "on the lot": Way(("emitter", "dry well")),
    "lawn": Way(("emitter",)),
    "grade": Way(("emitter",)),
    "at grade": Way(("emitter",)),
    "splash on the ground": Way(("emitter",)),
    "bubbler": Way(("emitter",)),
    "pop-up emitter": Way(("emitter",)),
    "yard": Way(("emitter",)),
    "rear yard": Way(("emitter",), ("rear",)),
    "back yard": Way(("emitter",), ("rear",)),
    "front yard": Way(("emitter",), ("front",)),
    "side yard": Way(("emitter",), ("side",)),
    "front or side yard": Way(("emitter",), ("front", "side")),
    "side or rear yard": Way(("emitter",), ("side", "rear")),
    "seepage pit": Way(("dry well",)),
    "soakaway": Way(("dry well",)),
    "infiltration": Way(("dry well",)),
    **dict.fromkeys(
        (
            "ditch",
            "roadside ditch",
            "natural ditch",
            "open ditch",
            "swale",
            "roadside swale",
            "grass swale",
            "watercourse",
            "natural watercourse",
            "stream",
            "creek",
            "river",
            "lake",
            "ravine",
            "drainageway",
            "natural drainage",
            "pond",
            "detention pond",
            "retention pond",
            "detention basin",
            "retention basin",
            "rain garden",
            "rain barrel",
            "cistern",
            "infiltration trench",
            "exfiltration trench",
            "french drain",
            "leaching field",
            "drain tile",
            "field tile",
            "county drain",
            "drainage easement",
            "yard inlet",
            "yard drain",
            "area drain",
            "rear yard inlet",
            "culvert",
            "driveway culvert",
            "headwall",
            "collector extension",
            "storm sewer extension",
            "sump pump collector",
            "footing drain collector",
            "combined sewer",
            "sanitary sewer",
            "sewer",
            "alley",
            "parking lot",
        ),
        NO_WAY,
    ),
}
"""Every word an order may use: the kinds of outlet themselves, and words of the trade.

Some are none of a job's outlets: they are never what a job proposes, and it says why not.
"""


def way_of(word: str) -> Way | None:
    """Return what a word of an order stands for; nothing where it is a sheet's own word."""
    return WAYS.get(word)


def way_fits(word: str, kind: str, yard: object) -> bool | None:
    """Return whether a word of an order stands for an outlet; nothing where the yard is not known.

    Parameters
    ----------
    word
        One of the words in `WAYS`, or a sheet's own, which stands for no outlet known here.
    kind
        The kind of outlet.
    yard
        The yard it stands in, if that is known.

    Examples
    --------
    >>> way_fits("gutter", "core", None), way_fits("back yard", "emitter", None)
    (True, None)
    """
    way = way_of(word) or NO_WAY
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
    if one.casefold() == other.casefold() or ANY_WAY in {one, other}:
        return one.casefold() == other.casefold()
    first, second = way_of(one) or NO_WAY, way_of(other) or NO_WAY
    apart = first.yards and second.yards and not set(first.yards) & set(second.yards)
    return bool(set(first.kinds) & set(second.kinds)) and not apart
