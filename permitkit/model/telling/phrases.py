"""How each fact reads in a condition: `the pipe lies in the right-of-way`."""

from __future__ import annotations

from typing import NamedTuple

__all__ = ["DATED", "EITHER", "WORDED", "Phrase"]


class Phrase(NamedTuple):
    """A sentence with a gap for words, and what stands in the gap for those that need more."""

    sentence: str
    words: dict[str, str] = {}  # noqa: RUF012 - never changed


EITHER = {
    "new_outlet": ("the outlet is new", "the outlet is not new"),
    "existing_in_use": (
        "a hole that is there stays in use",
        "no hole that is there stays in use",
    ),
    "other_outlet": (
        "the water has another acceptable outlet",
        "the water has no other acceptable outlet",
    ),
    "harm": (
        "the water ices the walk or harms a neighbor",
        "the water neither ices the walk nor harms a neighbor",
    ),
    "owner_occupier": ("the owner lives there", "the owner does not live there"),
    "begun": ("work began before the permit", "work did not begin before the permit"),
    "dowels": ("dowels are set", "no dowels are set"),
    "bevelled": ("the step is beveled", "the step is not beveled"),
    "walk_closed": ("the walk is closed", "the walk stays open"),
    "pavement_cut": ("pavement is cut", "no pavement is cut"),
    "emergency": ("it is an emergency", "it is no emergency"),
    "hurry": ("a quick review is asked for", "no quick review is asked for"),
}
"""What is said where a fact is so, and where it is not."""

WORDED = {
    "outlet": Phrase(
        "the water is let go by {}",
        {
            "core": "a core",
            "notch": "a notch",
            "existing hole": "a hole that is there",
            "culvert under walk": "a culvert under the walk",
            "emitter": "an emitter",
            "dry well": "a dry well",
            "storm lateral": "a storm lateral",
        },
    ),
    "water": Phrase(
        "the water comes from {}",
        {
            "roof": "the roof",
            "footing": "a footing drain",
            "sump": "a sump pump",
            "yard": "the yard",
            "pool": "a pool",
            "softener": "a softener",
            "sanitary": "sanitary plumbing",
            "other": "elsewhere",
        },
    ),
    "curb": Phrase("the curb is {}", {"none": "not there"}),
    "street_class": Phrase(
        "the street is {}",
        {
            "local": "a local street",
            "collector": "a collector",
            "arterial": "an arterial",
            "alley": "an alley",
            "state road": "a state road",
        },
    ),
    "street": Phrase("the street is {}"),
    "authority": Phrase("the street belongs to {}", {"town": "the town"}),
    "pavement_surface": Phrase("the pavement is {}"),
    "building_use": Phrase(
        "the building is {}",
        {
            "house": "a house",
            "multi-family": "for several families",
            "commercial": "commercial",
            "industrial": "industrial",
            "detached garage": "a detached garage",
        },
    ),
    "zone": Phrase("the lot lies in zone {}"),
    "falls_to": Phrase("the ground falls to the {}"),
    "yard": Phrase("it stands in the {} yard"),
    "place": Phrase(
        "the pipe lies {}",
        {"right-of-way": "in the right-of-way", "private": "on private ground"},
    ),
    "surface": Phrase(
        "it lies under {}",
        {"walk": "the walk", "verge": "the verge", "drive": "a drive", "curb": "the curb"},
    ),
    "applicant": Phrase("the {} applies"),
    "walk_surface": Phrase("the walk is of {}"),
    "walk_use": Phrase(
        "the walk is {}", {"plain": "a plain one", "driveway": "at a driveway", "ramp": "a ramp"}
    ),
    "crossing": Phrase(
        "the walk is {}",
        {
            "cut": "cut",
            "bored": "bored under",
            "existing sleeve": "crossed by a sleeve that is there",
            "none": "not crossed",
        },
    ),
    "trench_runs": Phrase("the trench runs {}"),
    "closed_part": Phrase(
        "{} of the street is taken",
        {
            "none": "nothing",
            "parking lane": "a parking lane",
            "travel lane": "a travel lane",
            "shoulder": "a shoulder",
        },
    ),
    "restored_by": Phrase("the {} restores"),
    "extension": Phrase(
        "{} is asked for",
        {"none": "no more time", "in time": "more time, in time,", "late": "more time, late,"},
    ),
    "permit": Phrase("it is the permit {}"),
}
"""How the words of a fact are told."""

DATED = {
    "built": "the building or outlet was built or altered {}",
    "street_paved": "the street was last paved {}",
}
"""How the days of a fact are told."""
