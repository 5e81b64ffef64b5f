"""The closed vocabularies that job files and rule sheets share."""

from __future__ import annotations

from typing import Literal, get_args

__all__ = [
    "PARTS",
    "STATED",
    "Applicant",
    "Crossing",
    "CurbShape",
    "DocumentKind",
    "DrawingPaper",
    "FeatureKind",
    "InflowKind",
    "OutletKind",
    "Place",
    "PolicyKind",
    "RunoffSurface",
    "SlabAtPipe",
    "StreetClass",
    "Surface",
    "UtilityKind",
    "YesNoUnknown",
    "choices",
]

DrawingPaper = Literal["letter", "tabloid", "A4", "A3"]

OutletKind = Literal[
    "core",
    "notch",
    "existing hole",
    "culvert under walk",
    "emitter",
    "dry well",
    "storm lateral",
]
CurbShape = Literal["vertical", "sloping", "rolled", "half-round", "granite", "none"]
InflowKind = Literal["roof", "footing", "sump", "yard", "pool", "softener", "sanitary", "other"]
Surface = Literal["walk", "verge", "drive", "curb", "pavement", "lawn", "planting"]
Place = Literal["right-of-way", "private"]
RunoffSurface = Literal[
    "asphalt",
    "concrete",
    "brick",
    "lawn, sandy soil, flat",
    "lawn, sandy soil, average",
    "lawn, sandy soil, steep",
    "lawn, heavy soil, flat",
    "lawn, heavy soil, average",
    "lawn, heavy soil, steep",
]
StreetClass = Literal["local", "collector", "arterial", "alley", "state road"]
Applicant = Literal["owner", "contractor", "utility"]
FeatureKind = Literal[
    "drive",
    "ramp",
    "inlet",
    "hydrant",
    "pole",
    "tree",
    "crosswalk",
    "bus stop",
    "cabinet",
    "meter box",
    "curb joint",
]
PolicyKind = Literal[
    "general liability",
    "bodily injury",
    "property damage",
    "personal injury",
    "owners and contractors protective",
    "automobile",
    "employers liability",
    "workers compensation",
    "umbrella",
    "professional",
    "pollution",
    "builders risk",
    "underground and collapse",
    "products and completed operations",
    "contractual liability",
    "bond",
]
UtilityKind = Literal[
    "electric",
    "gas",
    "communication",
    "water",
    "reclaimed water",
    "sewer",
]
Crossing = Literal["cut", "bored", "existing sleeve", "none"]
SlabAtPipe = Literal["plain", "encased", "thickened", "thinned", "plate"]
YesNoUnknown = Literal["yes", "no", "unknown"]
DocumentKind = Literal[
    "application form",
    "sketch",
    "certificate of insurance",
    "additional insured endorsement",
    "bond",
    "owner consent",
    "hold harmless",
    "traffic plan",
    "photos",
    "calculation",
    "licence",
    "product sheet",
    "town detail",
    "tree statement",
    "certificate of another office",
    "other",
]

PARTS = (
    "transmittal",
    "application",
    "scope",
    "site sketch",
    "curb section",
    "profile",
    "walk cut",
    "traffic",
    "notes",
    "calculation",
    "rules",
    "fees",
    "enclosures",
)
"""The parts of a packet, in their usual order, by the names a town's own order uses."""

STATED = (
    "thickness",
    "base",
    "base material",
    "strength",
    "strength days",
    "finish",
    "score pattern",
    "cross slope",
    "running slope",
    "lip",
    "joint",
    "grout",
    "backfill",
    "lift",
    "density",
    "soil",
    "seed",
    "hours to feet",
    "days to wheels",
)
"""The parts of the restoration that a job may state or leave to the town."""


def choices(literal: object) -> tuple[str, ...]:
    """Return the words of a literal type, in the order they are declared."""
    return tuple(str(word) for word in get_args(literal))
