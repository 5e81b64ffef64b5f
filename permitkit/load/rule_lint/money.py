"""Tables of money with a row missing, and lines for a permit nobody lists."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

from permitkit.errors import Fault
from permitkit.model.facts import FACTS, FactKind
from permitkit.model.money import Share, Table, each_term
from permitkit.model.reading import nearest
from permitkit.model.reading.spelling import misspelt
from permitkit.model.telling import threshold_text
from permitkit.model.values import Fees
from permitkit.units import Measure

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from permitkit.model.money import FeeLine
    from permitkit.model.rules import Edition, Sheet, Threshold

__all__ = ["foreign_shares", "holes", "strange_places", "strange_shares", "unlisted_permits"]


def _lines(edition: Edition) -> Iterator[FeeLine]:
    """Yield every line of money in an edition."""
    for case in edition.cases:
        if isinstance(case.value, Fees):
            yield from case.value.lines


def holes(where: str, edition: Edition) -> Iterator[Fault]:
    """Yield tables that have no row for some job."""
    for line in _lines(edition):
        for table in each_term(line.term):
            if not isinstance(table, Table) or table.otherwise is not None:
                continue
            lacking = _lacking(table)
            if lacking:
                yield Fault(
                    f"{where}: line {line.name!r}",
                    f"a table by {table.by} without a row for {lacking}",
                    "a row for every job",
                    "add the rows, or otherwise = { … }",
                )


def _lacking(table: Table) -> str:
    """Return what a table has no row for."""
    fact = FACTS[table.by]
    if fact.kind is FactKind.NAME:
        return "any other name"
    if table.bands:
        return _gap([ends for ends, _ in table.bands], fact.kind)
    words = fact.words or ("yes", "no")
    return ", ".join(word for word in words if word not in table.rows)


def _gap(bands: list[Threshold], kind: FactKind) -> str:
    """Return where bands leave a gap: below the first, between two, above the last."""
    ordered = sorted((_ends(band, kind), threshold_text(band)) for band in bands)
    (lowest, _), first = ordered[0][0], ordered[0][1]
    if lowest > _NOTHING:
        return f"less than {first}"
    for ((_, high), told), ((low, _), after) in pairwise(ordered):
        if low > high:
            return f"what lies between {told} and {after}"
    (_, highest), last = ordered[-1]
    return "" if highest == _ALL else f"more than {last}"


_NOTHING = (Fraction(0), 1)
_ALL = (Fraction(10**18), 0)


def _ends(band: Threshold, kind: FactKind) -> tuple[tuple[Fraction, int], tuple[Fraction, int]]:
    """Return a band's ends as places on a line: just past a number is after the number itself.

    The lower end is the first place within, the upper end the last place within plus one, so that
    two bands that touch share a place.
    """
    step = Fraction(1) if kind in {FactKind.COUNT, FactKind.DAY} else None
    low, high = (-_ALL[0], 0), _ALL
    if band.over is not None:
        low = _past(band.over, step)
    if band.at_least is not None:
        low = (_number(band.at_least), 0)
    if band.up_to is not None:
        high = _past(band.up_to, step)
    if band.under is not None:
        high = (_number(band.under), 0)
    return low, high


def _past(end: object, step: Fraction | None) -> tuple[Fraction, int]:
    """Return the place just past a number: the next whole one where it is counted."""
    return (_number(end), 1) if step is None else (_number(end) + step, 0)


def _number(end: object) -> Fraction:
    """Return a quantity, a number or a day as a number."""
    if isinstance(end, Measure):
        return end.si
    return Fraction(end.toordinal() if isinstance(end, date) else str(end))


def unlisted_permits(where: str, edition: Edition, permits: Collection[str]) -> Iterator[Fault]:
    """Yield lines for a permit that no sheet lists."""
    for line in _lines(edition):
        if line.permit and line.permit not in permits:
            yield Fault(
                f"{where}: line {line.name!r}, permit",
                repr(line.permit),
                f"a permit that a sheet lists: {', '.join(sorted(permits)) or 'none is listed'}",
            )


def strange_shares(sheet: Sheet) -> Iterator[Fault]:
    """Yield shares of a line that the sheet has under a name that is nearly the same."""
    for place, share, known in _shares_of_none(sheet):
        slip = misspelt(share.of, known)
        if slip:
            yield Fault(place, repr(share.of), f"cost, fees{_lines_among(known)}", slip)


def foreign_shares(sheet: Sheet) -> Iterator[Fault]:
    """Yield shares of what no line of the sheet is, such as an estimate of the town's own."""
    for place, share, known in _shares_of_none(sheet):
        if not misspelt(share.of, known):
            told = f"to know that the sum stays open: no line is so called{_lines_among(known)}"
            yield Fault(place, repr(share.of), told, "for the cost of the work, write of = cost")


def _shares_of_none(sheet: Sheet) -> Iterator[tuple[str, Share, set[str]]]:
    """Yield each share of something that is no line, with its place and what it may be of."""
    editions = [(rule, edition) for rule in sheet.rules.values() for edition in rule.editions]
    known = {"cost", "fees"} | {line.name for _, edition in editions for line in _lines(edition)}
    for rule, edition in editions:
        for line in _lines(edition):
            for share in each_term(line.term):
                if isinstance(share, Share) and share.of not in known:
                    place = f"{sheet.path}: {rule.key.name}: line {line.name!r}, of"
                    yield place, share, known - {line.name}


def _lines_among(known: set[str]) -> str:
    others = sorted(known - {"cost", "fees"})
    return f" or another line: {', '.join(others)}" if others else ""


def strange_places(sheet: Sheet) -> Iterator[Fault]:
    """Yield lines in place of a line that the sheet does not have."""
    editions = [(rule, edition) for rule in sheet.rules.values() for edition in rule.editions]
    known = {line.name for _, edition in editions for line in _lines(edition)}
    for rule, edition in editions:
        for line in _lines(edition):
            if line.in_place_of and line.in_place_of not in known - {line.name}:
                others = ", ".join(sorted(known - {line.name})) or "there is none"
                yield Fault(
                    f"{sheet.path}: {rule.key.name}: line {line.name!r}, in_place_of",
                    repr(line.in_place_of),
                    f"another line: {others}",
                    nearest(line.in_place_of, known - {line.name}),
                )
