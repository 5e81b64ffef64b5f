"""What a question of the job form is, and for which outlets it is asked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from permitkit.model.words import OutletKind

__all__ = [
    "BURIED",
    "CORED",
    "CROSSING",
    "EVERY",
    "HOLES",
    "NOTCHED",
    "NOTCHES",
    "Outlets",
    "Part",
    "Question",
    "Row",
    "Step",
    "at",
]

Outlets = tuple[OutletKind, ...]

CORED: Outlets = ("core",)
HOLES: Outlets = ("core", "existing hole")
NOTCHED: Outlets = ("notch",)
NOTCHES: Outlets = ("notch", "culvert under walk")
BURIED: Outlets = ("emitter", "dry well", "storm lateral")
CROSSING: Outlets = (*HOLES, *NOTCHES, "storm lateral")
"""The outlets whose pipe crosses the walk."""
EVERY: Outlets = (*HOLES, *NOTCHES, *BURIED)


@dataclass(frozen=True, slots=True)
class Question:
    """One field of a job file, or one of its tables, as it is asked for.

    The examples of all questions together make one small job for each kind of outlet.

    Parameters
    ----------
    path
        The field by its dotted path, as `walk.thickness`.
    asks
        The question, in a contractor's words: what is measured, from where, how exactly.
    example
        An answer as a job file writes it; nothing for a table.
    left_out
        What it means to leave it out, where the model's default does not tell.
    outlets
        The kinds of outlet it is asked for.
    needed_for
        The kinds of outlet that need it though the model alone would not.
    others
        Other examples, for kinds of outlet whose job differs.
    aside
        The kinds whose small job goes without it: it is shown there, and answered otherwise.
    reads
        The facts that conditions ask for and the rule keys that are held against it.
    """

    path: str
    asks: str
    example: str = ""
    left_out: str = ""
    outlets: Outlets = EVERY
    needed_for: Outlets = ()
    others: Mapping[OutletKind, str] = field(default_factory=dict)
    aside: Outlets = ()
    reads: tuple[str, ...] = ()

    def example_for(self, outlet: OutletKind) -> str:
        """Return the example that fits the small job of a kind of outlet."""
        return self.others.get(outlet, self.example)


@dataclass(frozen=True, slots=True)
class Row:
    """One more table of a list, its answers given as examples alone.

    Parameters
    ----------
    table
        The list by its dotted path.
    asks
        What the row is.
    answers
        The example of each field.
    outlets
        The kinds of outlet whose small job has it.
    needed
        Whether these kinds of outlet need it.
    fixed
        The fields whose answer is the same for every job.
    """

    table: str
    asks: str
    answers: Mapping[str, str]
    outlets: Outlets = EVERY
    needed: bool = False
    fixed: tuple[str, ...] = ()


Step = Question | Row


@dataclass(frozen=True, slots=True)
class Part:
    """A stretch of the way from the house to the street and the counter."""

    title: str
    steps: tuple[Step, ...]


def at(outlets: Outlets, example: str) -> dict[OutletKind, str]:
    """Return an example for some kinds of outlet."""
    return dict.fromkeys(outlets, example)
