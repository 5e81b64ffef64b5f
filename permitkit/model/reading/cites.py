"""Citations: a source named once in the sheet, and the place in it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.reading.written import Written, quoted
from permitkit.model.rules import Cite

if TYPE_CHECKING:
    from collections.abc import Mapping

    from permitkit.model.rules import Source

__all__ = ["read_cite"]


def read_cite(table: Written, sources: Mapping[str, Source], name: str = "cite") -> Cite | None:
    """Return a citation: `code 12.08`, `code 12.08 page 14`, or a table of its three parts."""
    value = table.take(name)
    if isinstance(value, dict):
        row = Written(value, table.at(name), table.faults)
        words = (row.text("source", needed=True), row.text("section"), row.text("page"))
        row.close()
    elif isinstance(value, str) and value.strip():
        source, _, rest = value.strip().partition(" ")
        section, _, page = rest.partition("page ")
        words = (source, section.strip().rstrip(","), page.strip())
    else:
        if value is not None:
            table.fault(name, quoted(value), 'a source and its section, such as "code 12.08"')
        return None
    known = table.known((words[0],), name, sources) if words[0] else ()
    return Cite(sources[known[0]], words[1], words[2]) if known else None
