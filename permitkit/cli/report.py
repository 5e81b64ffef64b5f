"""Verdicts as text for people, fitting 80 columns, and as JSON for programs."""

from __future__ import annotations

import json
from textwrap import wrap
from typing import TYPE_CHECKING

from permitkit.checks.judge import counts
from permitkit.model.verdict import Outcome

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from permitkit.checks.judge import Judged
    from permitkit.model.verdict import Verdict

__all__ = ["SCHEMA", "as_json", "as_text", "facing"]

SCHEMA = 1
WIDTH = 80
LABEL = 12

_HEADS = {
    Outcome.FAILS: "FAULTS",
    Outcome.ASK: "OPEN QUESTIONS",
    Outcome.WAIVER: "WAIVERS ASKED FOR",
    Outcome.ADVICE: "ADVICE (never stops a packet)",
}


def facing(label: str, text: str, indent: int = 4) -> list[str]:
    """Return a label with its text beside it, wrapped within the width."""
    if not text:
        return []
    head = " " * indent + label.ljust(LABEL)
    lines = wrap(text, WIDTH - len(head), break_on_hyphens=False) or [""]
    return [head + lines[0], *(" " * len(head) + line for line in lines[1:])]


def _verdict_lines(verdict: Verdict) -> list[str]:
    title = wrap(verdict.title, WIDTH - 2, initial_indent="  ", subsequent_indent="  ")
    lines = [*title, *facing("check", verdict.check)]
    for label, text in (
        ("item", verdict.item),
        ("proposed", verdict.proposed),
        ("limit", verdict.limit),
        ("source", verdict.source),
        ("cure", verdict.cure),
        ("question", verdict.why if verdict.outcome is Outcome.ASK else ""),
        ("note", verdict.why if verdict.outcome in (Outcome.WAIVER, Outcome.ADVICE) else ""),
        ("ask", verdict.ask_of),
    ):
        lines += facing(label, text)
    if verdict.outcome is Outcome.ASK:
        lines += facing(
            "then",
            "must be answered before the packet is ready"
            if verdict.blocking
            else "the packet asks the town to set it",
        )
    return [*lines, ""]


def _section(head: str, verdicts: Sequence[Verdict]) -> list[str]:
    if not verdicts:
        return []
    lines = [f"{head} ({len(verdicts)})", ""]
    for verdict in verdicts:
        lines += _verdict_lines(verdict)
    return lines


def _by(verdicts: Iterable[Verdict], outcome: Outcome) -> list[Verdict]:
    return [verdict for verdict in verdicts if verdict.outcome is outcome]


def _summary(judged: Judged, rules: str) -> list[str]:
    sheet = judged.rules.sheets[0]
    state = "READY" if judged.ready else "NOT READY"
    found = counts(judged.verdicts)
    said = ", ".join(
        f"{found[outcome]} {one if found[outcome] == 1 else many}"
        for outcome, one, many in (
            (Outcome.FAILS, "fault", "faults"),
            (Outcome.ASK, "open question", "open questions"),
            (Outcome.WAIVER, "waiver asked for", "waivers asked for"),
            (Outcome.ADVICE, "advice", "advice"),
            (Outcome.MEETS, "met", "met"),
            (Outcome.PASSES_OVER, "does not apply", "do not apply"),
        )
        if found[outcome] or outcome is Outcome.FAILS
    )
    return [
        f"{judged.job.site.address}, {sheet.title}",
        *facing("rules", f"{rules} ({sheet.digest[:12]})", 0),
        *facing("standing", sheet.standing, 0),
        "",
        *wrap(f"{state}: {said}", WIDTH),
        "",
    ]


def as_text(judged: Judged, rules: str, *, everything: bool = False) -> str:
    """Return the report for people, worst first.

    Parameters
    ----------
    judged
        The job, judged.
    rules
        The file of the town's rules, as told to the reader.
    everything
        Whether what is met and what does not apply is listed, not only counted.
    """
    lines = _summary(judged, rules)
    for outcome, head in _HEADS.items():
        lines += _section(head, _by(judged.verdicts, outcome))
    if everything:
        lines += _section("MET", _by(judged.verdicts, Outcome.MEETS))
        passed = _by(judged.verdicts, Outcome.PASSES_OVER)
        lines += ["DOES NOT APPLY", ""]
        for verdict in passed:
            lines += facing(verdict.check, "", 2) or [f"  {verdict.check}"]
            lines += facing("because", verdict.why)
    return "\n".join(lines).rstrip() + "\n"


def _row(verdict: Verdict) -> dict[str, object]:
    return {
        "check": verdict.check,
        "item": verdict.item,
        "outcome": verdict.outcome.value,
        "proposed": verdict.proposed,
        "limit": verdict.limit,
        "source": verdict.source,
        "cure": verdict.cure,
        "why": verdict.why,
        "ask_of": verdict.ask_of,
        "blocking": verdict.blocking,
    }


def as_json(judged: Judged) -> str:
    """Return the report for programs: schema, town, job, ready, counts, verdicts."""
    sheet, found = judged.rules.sheets[0], counts(judged.verdicts)
    content = {
        "schema": SCHEMA,
        "town": {"place": sheet.place, "title": sheet.title, "rules": sheet.digest[:12]},
        "job": {"address": judged.job.site.address, "filing": judged.job.filing.isoformat()},
        "ready": judged.ready,
        "counts": {outcome.value: found[outcome] for outcome in Outcome},
        "verdicts": [_row(verdict) for verdict in judged.verdicts],
    }
    return json.dumps(content, indent=2, ensure_ascii=False) + "\n"
