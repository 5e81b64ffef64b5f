"""What a condition may call a fact by, beside the words a job has for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.vocabulary.outlets import ANY_WAY, WAYS
from permitkit.model.vocabulary.trade import CROSSINGS, CURBS, PARTIES
from permitkit.model.words import Applicant, choices

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["CALLED", "meant"]


def _words(**groups: str) -> dict[str, tuple[str, ...]]:
    """Return for each word the one it stands for; several, parted by commas, stand for one."""
    return {
        word: (name.replace("_", " "),) for name, words in groups.items() for word in _split(words)
    }


def _split(words: str) -> tuple[str, ...]:
    return tuple(word.strip() for word in words.split(","))


_RESTORES = {
    "applicant": "applicant",
    "contractor": "applicant",
    "owner": "applicant",
    "town": "town",
    "county": "town",
}

CALLED: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    "applicant": {
        word: names for word, names in PARTIES.items() if names[-1] in choices(Applicant)
    },
    "restored_by": {
        word: (_RESTORES[names[-1]],) for word, names in PARTIES.items() if names[-1] in _RESTORES
    },
    "street_class": _words(
        local="residential, minor, subdivision, cul-de-sac, residential local",
        collector="minor collector, major collector, secondary",
        arterial="minor arterial, major arterial, principal arterial, primary, major, thoroughfare",
        state_road="state highway, state route, highway",
    ),
    "pavement_surface": {
        **_words(
            asphalt="bituminous, blacktop, hot mix, macadam, bituminous concrete",
            concrete="portland cement concrete, rigid",
            brick="pavers, cobble, block",
            gravel="aggregate, crushed stone, earth, dirt, unimproved, unpaved",
        ),
        **dict.fromkeys(
            ("chip seal", "slurry seal", "fog seal", "seal coat", "seal coated", "oil and chip"),
            ("surface treated",),
        ),
    },
    "walk_surface": _words(
        concrete="cement",
        asphalt="bituminous, blacktop",
        brick="pavers",
        stone="flagstone, bluestone, slate, granite",
    ),
    "building_use": {
        "residential": ("house", "multi-family"),
        **_words(
            house="single-family, one-family, dwelling, residence",
            commercial="business, retail, office, institutional",
        ),
        **dict.fromkeys(("two-family", "duplex", "apartment"), ("multi-family",)),
        **dict.fromkeys(("garage", "outbuilding", "shed"), ("detached garage",)),
    },
    "surface": _words(
        walk="sidewalk",
        verge="tree lawn, parkway, boulevard, terrace, tree strip",
        drive="driveway, apron",
        curb="curb and gutter, gutter",
        pavement="street, roadway, travelled way, traveled way",
        lawn="yard, grass",
    ),
    "closed_part": {
        "parking": ("parking lane",),
        "lane": ("travel lane",),
        "traffic lane": ("travel lane",),
    },
    "water": _words(
        roof="downspout, downspouts, roof drain, gutter, rain",
        footing="foundation drain, foundation, footer, footer drain, groundwater",
        sump="sump pump",
        yard="surface, surface water",
        pool="swimming pool",
        softener="water softener",
        sanitary="sewage, wastewater",
    ),
    "curb": CURBS,
    "crossing": CROSSINGS,
    "outlet": {
        word: way.kinds
        for word, way in WAYS.items()
        if way.kinds and not way.yards and word != ANY_WAY
    },
    "yard": _words(rear="back"),
    "falls_to": _words(rear="back"),
    "walk_use": _words(driveway="drive, apron, driveway crossing", ramp="curb ramp"),
}
"""For each fact other words, each with those a job has for the same."""


def meant(fact: str, words: tuple[str, ...]) -> tuple[str, ...]:
    """Return the words of a job that a condition means; a word that is not known stays as it is.

    Examples
    --------
    >>> meant("street_class", ("residential", "collector"))
    ('local', 'collector')
    """
    called = CALLED.get(fact, {})
    found = [called.get(word.casefold()) or (word,) for word in words]
    return tuple(dict.fromkeys(one for group in found for one in group))
