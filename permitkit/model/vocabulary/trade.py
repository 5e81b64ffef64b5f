"""Words of the trade for what a job names by a word of its own: who, what curb, which security."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from permitkit.model.rules import RuleKey

__all__ = ["CROSSINGS", "CURBS", "GOVERNS", "PARTIES", "SECURITIES", "stands_for"]

_TOWN = ("town",)
_CONTRACTOR = ("contractor",)
_HOLDER = ("permit holder", "applicant")

PARTIES: Mapping[str, tuple[str, ...]] = {
    "permit holder": _HOLDER,
    "permittee": _HOLDER,
    "applicant": _HOLDER,
    **dict.fromkeys(
        (
            "town",
            "city",
            "village",
            "borough",
            "township",
            "municipality",
            "street department",
            "public works",
            "town forces",
            "city forces",
        ),
        _TOWN,
    ),
    **dict.fromkeys(
        (
            "contractor",
            "licensed contractor",
            "registered contractor",
            "bonded contractor",
            "insured contractor",
            "approved contractor",
            "general contractor",
            "concrete contractor",
            "paving contractor",
            "licensed concrete contractor",
            "sewer contractor",
        ),
        _CONTRACTOR,
    ),
    **dict.fromkeys(("licensed plumber", "plumber", "master plumber"), ("licensed plumber",)),
    **dict.fromkeys(
        ("owner", "property owner", "abutting owner", "homeowner", "lot owner", "landowner"),
        ("owner",),
    ),
    "owner or successors": ("owner",),
    **dict.fromkeys(
        ("utility", "public utility", "utility company", "public service company"), ("utility",)
    ),
    "county": ("county",),
    "state": ("state",),
    "homeowners association": ("homeowners association",),
    "drainage district": ("drainage district",),
    "sewer district": ("sewer district",),
    "tenant": ("tenant",),
}
"""Who does a thing, each with the words a job has for the same; some are nobody a job can name."""

SECURITIES: Mapping[str, tuple[str, ...]] = {
    "cash": ("cash", "cash deposit"),
    "cash deposit": ("cash", "cash deposit"),
    "cash bond": ("cash", "cash deposit"),
    "check": ("check", "company check"),
    "company check": ("company check",),
    "personal check": ("personal check",),
    **dict.fromkeys(
        ("certified cheque", "certified check"), ("certified cheque", "certified check")
    ),
    **dict.fromkeys(
        ("bank check", "cashier's check", "cashiers check"),
        ("bank check", "cashier's check", "cashiers check"),
    ),
    "money order": ("money order",),
    **dict.fromkeys(
        (
            "surety bond",
            "bond",
            "performance bond",
            "permit bond",
            "license bond",
            "street opening bond",
            "corporate surety bond",
        ),
        ("surety bond",),
    ),
    **dict.fromkeys(("annual bond", "annual surety bond"), ("annual bond", "annual surety bond")),
    "blanket bond": ("blanket bond", "annual bond"),
    "maintenance bond": ("maintenance bond",),
    **dict.fromkeys(
        ("letter of credit", "irrevocable letter of credit"),
        ("letter of credit", "irrevocable letter of credit"),
    ),
    "property bond": ("property bond",),
    "escrow": ("escrow",),
    "certificate of deposit": ("certificate of deposit",),
    "self-insurance": ("self-insurance",),
    "credit card": ("credit card",),
}
"""Kinds of security, each with the words a payment or a policy of a job may have for it."""

_ROLLS = ("sloping", "rolled")
_CAST = ("vertical", "sloping", "rolled", "half-round")

CURBS: Mapping[str, tuple[str, ...]] = {
    "vertical": ("vertical",),
    "sloping": ("sloping",),
    "rolled": ("rolled",),
    "half-round": ("half-round",),
    "granite": ("granite",),
    **dict.fromkeys(("barrier", "straight", "square", "upright", "standing"), ("vertical",)),
    "battered": ("vertical", "sloping"),
    "mountable": _ROLLS,
    "roll": ("rolled",),
    "roll-type": ("rolled",),
    "rolled back": ("rolled",),
    "lip": ("rolled",),
    "concrete": _CAST,
    "curb and gutter": _CAST,
    "stone": ("granite",),
    "bluestone": (),
    "sandstone": (),
    "asphalt": (),
    "brick": (),
    "timber": (),
}
"""Curbs by their shape or stuff, each with the shapes a job has for it."""

CROSSINGS: Mapping[str, tuple[str, ...]] = {
    "cut": ("cut",),
    "bored": ("bored",),
    "existing sleeve": ("existing sleeve",),
    "none": ("none",),
    **dict.fromkeys(("open cut", "open trench", "trenched", "panel replaced"), ("cut",)),
    **dict.fromkeys(
        (
            "jacked",
            "bored or jacked",
            "jack and bore",
            "augered",
            "pushed",
            "driven",
            "tunnelled",
            "tunneled",
            "directional drill",
            "directional bore",
            "directional drilling",
            "horizontal directional drilling",
            "hand auger",
        ),
        ("bored",),
    ),
    "sleeve": ("existing sleeve",),
}
"""Ways of passing a walk, each with the word a job has for it."""

GOVERNS: Mapping[str, tuple[str, ...]] = {
    word: (word,)
    for word in (
        "the stricter",
        "the text",
        "the drawing",
        "as the town decides",
        "the special provisions",
        "the latest edition",
        "the state's standard",
    )
}
"""Which of two documents counts."""


def stands_for(key: RuleKey, word: str, proposed: str) -> bool | None:
    """Return whether a word of a rule stands for what is proposed.

    Nothing where the word is its author's own, and only its author can tell.

    Examples
    --------
    >>> from permitkit.model.keys.duties import RESTORE_BY
    >>> stands_for(RESTORE_BY, "city", "town"), stands_for(RESTORE_BY, "the Elks", "town")
    (True, None)
    """
    if word.casefold().split() == proposed.casefold().split():
        return True
    known = key.trade.get(word)
    return None if known is None else proposed.casefold() in known
