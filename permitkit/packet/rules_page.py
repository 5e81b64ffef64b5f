"""Rule by rule: what the town asks, what is proposed, in the town's own section order."""

from __future__ import annotations

import re
from itertools import groupby
from typing import TYPE_CHECKING

from permitkit.checks.catalogue import CHECKS
from permitkit.model.keys import KEYS
from permitkit.model.keys.papers import PACKET_ORDER, SAY_CAUTIONS, SAY_CONDITIONS
from permitkit.model.keys.run import WATER_DECLARATION
from permitkit.model.verdict import Outcome
from permitkit.packet.parts import Part, table
from permitkit.render.blocks import Heading, Paragraph, escape

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from permitkit.checks.judge import Judged
    from permitkit.model.verdict import Verdict
    from permitkit.render.blocks import Block
    from permitkit.study.in_force import RulesInForce

__all__ = ["assumptions", "noted", "rules_page"]

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
_HELD = frozenset(name for check in CHECKS for name in check.names)
_PRINTED = (SAY_CONDITIONS, SAY_CAUTIONS, WATER_DECLARATION, PACKET_ORDER)
"""What no check reads, but a page of the packet prints whole or goes by."""


def _worth_a_row(verdict: Verdict, own: Sequence[str]) -> bool:
    """Tell whether a row is needed: what is not met, and the town's own rules.

    Papers and sums have sheets of their own; the wider books are summed up below the table.
    """
    if verdict.outcome is not Outcome.MEETS:
        return True
    return verdict.book in own and verdict.check not in _ELSEWHERE


def _wider(verdicts: Iterable[Verdict], own: Sequence[str]) -> str:
    """Return the wider books and their sections that were held against, and are met."""
    met: dict[str, dict[str, None]] = {}
    for verdict in verdicts:
        if verdict.outcome is Outcome.MEETS and verdict.book and verdict.book not in own:
            met.setdefault(verdict.book, {})[verdict.section] = None
    said = (f"{book}: {', '.join(sorted(found, key=_natural))}" for book, found in met.items())
    return "; ".join(said)


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
    """Return the table of what was assumed and might be otherwise; nothing if there is none."""
    in_doubt = [assumed for assumed in judged.job.assumed if assumed.low != assumed.high]
    rows = [
        (
            f"{assumed.field.replace('.', ' ').replace('_', ' ')}: {assumed.note}",
            assumed.value.shown(),
            f"{assumed.low.shown()} to {assumed.high.shown()}",
        )
        for assumed in in_doubt
    ]
    if not rows:
        return []
    return [
        Heading("Assumed, not measured (starred on the sheets)", level=2),
        table(("What", "Taken as", "Might be"), rows, (100, 35, 35), dense=True),
    ]


def _noted(rules: RulesInForce) -> list[tuple[str, str, str]]:
    """Return what else the town's own sheet says: rules that no check holds the job against."""
    rows = [
        (word.section, key.question, f"{word.text} ({found.applies})" if split else word.text)
        for key in KEYS.values()
        if key.name not in _HELD and key not in _PRINTED
        for found in rules.each(key)
        for split in (found.applies not in {"", "in every case"},)
        for word in found.all
        if word.known and word.sheet is rules.sheets[0]
    ]
    return sorted(rows, key=lambda row: _natural(row[0]))


def noted(rules: RulesInForce) -> list[Block]:
    """Return the table of the town's rules that no check reads; nothing if there are none."""
    rows = _noted(rules)
    if not rows:
        return []
    return [
        Heading("Other rules of the town, noted and not judged", level=2),
        table(("Section", "Question", "The town says"), rows, (11, 64, 105), dense=True),
    ]


def rules_page(judged: Judged) -> Part:
    """Return the rule-by-rule page of what this permit enforces, with the files' digests."""
    sheet = judged.rules.sheets[0]
    own = sorted(source.title for source in sheet.sources.values())
    held = [verdict for verdict in judged.verdicts if verdict.outcome in _SAID]
    shown = [verdict for verdict in held if _worth_a_row(verdict, own)]
    digest = ", ".join(f"{layer.title} {layer.digest[:12]}" for layer in judged.rules.sheets)
    said = (
        f"Rules of {sheet.title} ({sheet.standing}), in force on the dates of this job. Where a "
        "rule was held against several items, the worst is printed."
    )
    rows = [("Also met", _wider(held, own)), ("Rule sheets, by digest", digest)]
    widths = (11, 76, 45, 38, 10)
    columns = ("Section", "Question", "Limit", "Proposed", "Answer")
    blocks: list[Block] = [
        Paragraph(escape(said)),
        table(columns, _rows(shown, own), widths, dense=True),
        *noted(judged.rules),
        *assumptions(judged),
        table(("Beside these", ""), rows, (24, 156), dense=True),
    ]
    return Part("rules", "Rule by rule", tuple(blocks))
