"""Words of a sheet that no job can meet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.errors import Fault
from permitkit.hydraulics.materials import PIPES
from permitkit.model.telling import value_text
from permitkit.model.values import Words
from permitkit.model.vocabulary.pipes import pipe_fits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.model.rules import Edition, RuleKey

__all__ = ["pipes_not_sold"]


def pipes_not_sold(where: str, key: RuleKey, edition: Edition) -> Iterator[Fault]:
    """Yield kinds of pipe of which a job can name none, so that every pipe fails."""
    for n, case in enumerate(edition.cases if key.pipes else (), 1):
        value = case.value
        if isinstance(value, Words) and not any(
            pipe_fits(word, pipe.name) for word in value.words for pipe in PIPES.values()
        ):
            names = ", ".join(pipe.name for pipe in PIPES.values())
            yield Fault(
                f"{where}: case {n}",
                f"{value_text(value)}: no pipe that a job can name",
                f"to know that every pipe fails it: a job names one of {names}",
            )
