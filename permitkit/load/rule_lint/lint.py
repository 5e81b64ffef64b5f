"""Lint: what is wrong in a sheet that reads well, and what is worth knowing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.errors import Fault
from permitkit.load.rule_lint.cases import clashes, never_fits, never_reached
from permitkit.load.rule_lint.layers import on_listed_streets, stricter_parents
from permitkit.load.rule_lint.money import (
    foreign_shares,
    holes,
    strange_places,
    strange_shares,
    unlisted_permits,
)
from permitkit.load.rule_lint.words import own_words, pipes_not_sold
from permitkit.model.rules import Stacks

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.model.rules import Edition, Rule, Sheet

__all__ = ["lint", "notes"]


def lint(sheet: Sheet, layers: tuple[Sheet, ...] = ()) -> tuple[Fault, ...]:
    """Return the faults of a sheet that loads.

    Parameters
    ----------
    sheet
        The sheet.
    layers
        The sheets it follows, whose permits its lines may name as well.
    """
    permits = {permit.id for each in (sheet, *layers) for permit in each.permits}
    found: list[Fault] = []
    for where, rule, edition in _editions(sheet):
        if rule.key.stacks is not Stacks.ALL:
            found += never_reached(where, edition)
            found += clashes(where, edition)
        found += never_fits(where, edition, permits)
        found += holes(where, edition)
        found += unlisted_permits(where, edition, permits)
    return (*found, *strange_shares(sheet), *strange_places(sheet))


def notes(sheet: Sheet, layers: tuple[Sheet, ...] = ()) -> tuple[Fault, ...]:
    """Return what is no fault but worth knowing.

    Parameters
    ----------
    sheet
        The sheet.
    layers
        The sheets it follows, nearest first.
    """
    return (
        *_idle_sources(sheet),
        *stricter_parents(sheet, layers),
        *on_listed_streets(sheet),
        *_strange_words(sheet),
        *foreign_shares(sheet),
    )


def _editions(sheet: Sheet) -> Iterator[tuple[str, Rule, Edition]]:
    """Yield every edition of a sheet with its place."""
    for name, rule in sheet.rules.items():
        for edition in rule.editions:
            begun = f" since {edition.since.isoformat()}" if edition.since else ""
            yield f"{sheet.path}: {name}{begun}", rule, edition


def _strange_words(sheet: Sheet) -> Iterator[Fault]:
    """Yield rules on pipe that no pipe of a job can meet, and words of the sheet's own."""
    for where, rule, edition in _editions(sheet):
        yield from pipes_not_sold(where, rule.key, edition)
        yield from own_words(where, rule.key, edition)


def _idle_sources(sheet: Sheet) -> Iterator[Fault]:
    """Yield sources that no rule cites."""
    cited = {
        case.cite.source.id
        for _, _, edition in _editions(sheet)
        for case in edition.cases
        if case.cite is not None
    }
    cited |= {permit.cite.source.id for permit in sheet.permits if permit.cite is not None}
    for name in sheet.sources:
        if name not in cited:
            yield Fault(
                f"{sheet.path}: source.{name}",
                "a source no case cites",
                "to know that no rule rests on it",
            )
