"""Rule by rule: what the town asks, what is proposed, in the town's own section order."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from permitkit.model.verdict import Outcome
from permitkit.packet.parts import Part, table
from permitkit.render.blocks import Heading, Paragraph, escape

if TYPE_CHECKING:
    from permitkit.checks.judge import Judged
    from permitkit.model.verdict import Verdict
    from permitkit.render.blocks import Block

__all__ = ["rules_page"]

_SAID = {
    Outcome.MEETS: "met",
    Outcome.FAILS: "NOT MET",
    Outcome.ASK: "please set",
    Outcome.WAIVER: "waiver asked",
}
_NUMBER = re.compile(r"\d+|\D+")


def _section_order(verdict: Verdict) -> list[tuple[int, int, str]]:
    """Sort 4.10 after 4.9, and sources by their title."""
    pieces = _NUMBER.findall(verdict.source)
    return [(0, int(p), "") if p.isdigit() else (1, 0, p) for p in pieces]


def _rows(verdicts: list[Verdict]) -> list[tuple[str, str, str, str, str]]:
    rows = []
    last = ""
    for v in sorted(verdicts, key=_section_order):
        source = "" if v.source == last else v.source
        last = v.source
        what = v.title
        rows.append(
            (
                source,
                f"{what}: {v.item}" if v.item else what,
                v.limit,
                v.proposed or v.why,
                _SAID[v.outcome],
            )
        )
    return rows


def _assumptions(judged: Judged) -> list[Block]:
    if not judged.job.assumed:
        return []
    rows = [
        (a.note, a.value.shown(), f"{a.low.shown()} to {a.high.shown()}")
        for a in judged.job.assumed
    ]
    return [
        Heading("Assumed, not measured (starred on the sheets)", level=2),
        table(("What", "Taken as", "Might be"), rows, (100, 35, 35)),
    ]


def rules_page(judged: Judged) -> Part:
    """Return the rule-by-rule page of what this permit enforces, with a short digest of the files."""
    shown = [v for v in judged.verdicts if v.outcome in _SAID and v.source]
    own = [v for v in judged.verdicts if v.outcome in _SAID and not v.source]
    sheet = judged.rules.sheets[0]
    blocks: list[Block] = [
        Paragraph(
            escape(f"Rules of {sheet.title} ({sheet.standing}), in force on the dates of this job.")
        ),
        table(
            ("Section", "Rule", "Limit", "Proposed", "Answer"), _rows(shown), (40, 50, 34, 32, 18)
        ),
    ]
    if own:
        blocks += [
            Heading("By the nature of the thing", level=2),
            table(("", "Rule", "Limit", "Proposed", "Answer"), _rows(own), (4, 74, 40, 38, 18)),
        ]
    blocks += _assumptions(judged)
    digest = ", ".join(f"{layer.place} {layer.digest[:12]}" for layer in judged.rules.sheets)
    blocks.append(Paragraph(escape(f"Rule sheets used: {digest}.")))
    return Part("rules", "Rule by rule", tuple(blocks))
