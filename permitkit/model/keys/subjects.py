"""The subjects a rule sheet is read by: one for each family of keys, in the order of the work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.keys import KEYS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.model.rules import RuleKey

__all__ = ["SUBJECTS", "by_subject"]

SUBJECTS = {
    "water": "Water",
    "outlet": "Outlet",
    "core": "Hole cored in the curb",
    "notch": "Notch sawn in the curb",
    "emitter": "Emitter in the lawn",
    "pipe": "Pipe",
    "gutter": "Gutter",
    "utility": "Utilities in the ground",
    "walk": "Walk",
    "access": "People on foot",
    "traffic": "Traffic",
    "restore": "Restoration",
    "dates": "Dates",
    "docs": "Papers",
    "fees": "Fees, deposit and bond",
    "packet": "The packet",
    "say": "Sentences to print",
}


def by_subject() -> Iterator[tuple[str, tuple[RuleKey, ...]]]:
    """Yield each subject with its keys, as declared."""
    for family, title in SUBJECTS.items():
        yield title, tuple(key for key in KEYS.values() if key.family == family)
