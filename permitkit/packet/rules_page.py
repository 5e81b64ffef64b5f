"""Rule by rule: what the town asks, what is proposed, in the town's own section order."""

from __future__ import annotations

import re
from itertools import groupby
from typing import TYPE_CHECKING

from permitkit.checks.catalogue import CHECKS
from permitkit.model.verdict import Outcome
from permitkit.packet.parts import Part, table
from permitkit.render.blocks import Heading, Paragraph, escape

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from permitkit.checks.judge import Judged
    from permitkit.model.verdict import Verdict
    from permitkit.render.blocks import Block

__all__ = ["assumptions", "rules_page"]

_SAID = {
    Outcome.FAILS: "NOT MET",
    Outcome.ASK: "please set",
    Outcome.WAIVER: "waiver asked",
    Outcome.MEETS: "met",
}
_RANK = {outcome: rank for rank, outcome in enumerate(_SAID)}
_NUMBER = re.compile(r"\d+|\D+")
_PHYSICS = "By the nature of the thing"
_ELSEWHERE = frozenset(check.slug for check in CHECKS if check.family in {"documents", "money"})


def _worth_showing(verdict: Verdict) -> bool:
    """Tell whether a row says what no other sheet does; papers and sums have their own."""
    if verdict.outcome is not Outcome.MEETS:
        return True
    return bool(verdict.book) and verdict.check not in _ELSEWHERE


def _natural(text: str) -> list[tuple[int, int, str]]:
    """Sort 4.10 after 4.9."""
    pieces = _NUMBER.findall(text)
    return [(0, int(p), "") if p.isdigit() else (1, 0, p) for p in pieces]


def _one_line(found: Sequence[Verdict]) -> tuple[str, str, str, str, str]:
    """Return one row for all the items a rule was held against: the worst stands for them."""
    worst = min(found, key=lambda v: _RANK[v.outcome])
    others = len(found) - 1
    item = f" ({worst.item})" if worst.item and others else ""
    more = f"; {others} more" if others else ""
    proposed = worst.proposed or worst.why
    return (
        worst.section,
        worst.asks,
        worst.limit,
        f"{proposed}{item}{more}",
        _SAID[worst.outcome],
    )


def _rows(verdicts: Iterable[Verdict], own: Sequence[str]) -> list[tuple[str, ...]]:
    """Return the rows, book by book: the town's own first, then the wider ones, then physics."""

    def book_of(verdict: Verdict) -> tuple[int, str]:
        if not verdict.book:
            return (len(own) + 1, _PHYSICS)
        return (own.index(verdict.book) if verdict.book in own else len(own), verdict.book)

    rows: list[tuple[str, ...]] = []
    for (_, book), found in groupby(sorted(verdicts, key=book_of), key=book_of):
        rows.append((book,))
        by_check: dict[tuple[str, str, str], list[Verdict]] = {}
        for verdict in found:
            key = (verdict.section, verdict.check, verdict.limit)
            by_check.setdefault(key, []).append(verdict)
        lines = [_one_line(group) for group in by_check.values()]
        rows += sorted(lines, key=lambda line: _natural(line[0]))
    return rows


def assumptions(judged: Judged) -> list[Block]:
    """Return the table of what was assumed; nothing where everything was measured."""
    if not judged.job.assumed:
        return []
    rows = [
        (
            f"{assumed.field.replace('.', ' ').replace('_', ' ')}: {assumed.note}",
            assumed.value.shown(),
            "as drawn"
            if assumed.low == assumed.high
            else f"{assumed.low.shown()} to {assumed.high.shown()}",
        )
        for assumed in judged.job.assumed
    ]
    return [
        Heading("Assumed, not measured (starred on the sheets)", level=2),
        table(("What", "Taken as", "Might be"), rows, (100, 35, 35), dense=True),
    ]


def rules_page(judged: Judged) -> Part:
    """Return the rule-by-rule page of what this permit enforces, with the files' digests."""
    sheet = judged.rules.sheets[0]
    own = sorted(source.title for source in sheet.sources.values())
    shown = [v for v in judged.verdicts if v.outcome in _SAID and _worth_showing(v)]
    digest = ", ".join(f"{layer.title} {layer.digest[:12]}" for layer in judged.rules.sheets)
    said = (
        f"Rules of {sheet.title} ({sheet.standing}), in force on the dates of this job. Where a "
        "rule was held against several items, the worst is printed. Papers and sums are shown on "
        "their own sheets."
    )
    widths = (13, 68, 42, 40, 13)
    columns = ("Section", "Question", "Limit", "Proposed", "Answer")
    blocks: list[Block] = [
        Paragraph(escape(said)),
        table(columns, _rows(shown, own), widths, dense=True),
        *assumptions(judged),
        Paragraph(escape(f"Rule sheets used, by their digests: {digest}.")),
    ]
    return Part("rules", "Rule by rule", tuple(blocks))
