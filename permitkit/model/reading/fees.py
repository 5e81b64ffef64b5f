"""Lines of money, read from what a sheet writes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.money import FeeLine, Unknown
from permitkit.model.reading.cites import read_cite
from permitkit.model.reading.conditions import read_when
from permitkit.model.reading.terms import TERM_WORDS, read_term
from permitkit.model.rules import Stage
from permitkit.model.values import Fees

if TYPE_CHECKING:
    from collections.abc import Mapping

    from permitkit.model.reading.written import Written
    from permitkit.model.rules import Source

__all__ = ["LINE_WORDS", "read_fees"]

LINE_WORDS = (
    "name",
    "when",
    "least",
    "most",
    "begun_times",
    "permit",
    "payee",
    "refundable",
    "kept",
    "returned_when",
    "cap",
    "floor",
    "in_place_of",
    "true_up",
    "cite",
    "note",
)


_RESERVED = ("cost", "fees")


def read_fees(table: Written, sources: Mapping[str, Source]) -> Fees:
    """Return the lines of money, each a named term with its bounds and condition."""
    lines: list[FeeLine] = []
    for row in table.tables("line"):
        line = _read_line(row, sources)
        if line is None:
            continue
        if line.name in _RESERVED:
            row.fault("name", repr(line.name), "a name that does not mean something else")
        if line.when is None and any(line.name == other.name for other in lines):
            row.fault("name", repr(line.name), "a name no other line has, or a condition")
        lines.append(line)
    return Fees(tuple(lines))


def _read_line(row: Written, sources: Mapping[str, Source]) -> FeeLine | None:
    """Return one line, or nothing where its term could not be read."""
    known = any(row.has(name) for name in TERM_WORDS)
    bounded = not known and (row.has("least") or row.has("most"))
    term = Unknown("") if bounded else read_term(row)
    cite = read_cite(row, sources)
    least, most = row.money("least"), row.money("most")
    if least is not None and most is not None and least > most:
        row.fault("least", f"a least of {least}", f"no more than {most}")
    line = FeeLine(
        row.text("name", needed=True),
        term if term is not None else Unknown(""),
        when=read_when(row, Stage.SIZE),
        least=least,
        most=most,
        begun_times=row.number("begun_times"),
        permit=row.text("permit"),
        payee=row.text("payee"),
        refundable=row.flag("refundable"),
        kept=row.money("kept"),
        returned_when=row.text("returned_when"),
        cap=row.flag("cap"),
        floor=row.flag("floor"),
        in_place_of=row.text("in_place_of"),
        true_up=row.flag("true_up"),
        cite_text=cite.text if cite else "",
        note=row.text("note"),
    )
    row.close(also=LINE_WORDS, elsewhere=TERM_WORDS)
    return None if term is None else line
