"""The tables of keys and of facts that the guide for sheets prints, made from the code."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.facts import FACTS, FactKind
from permitkit.model.keys import KEYS
from permitkit.model.rules import Stacks, Stage, ValueKind
from permitkit.model.vocabulary.pipes import PIPE_WORDS
from permitkit.units.kinds import nouns

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from permitkit.model.facts import Fact
    from permitkit.model.rules import RuleKey

__all__ = ["fact_table", "key_table", "markdown", "sample_value"]

_STACKS = {
    Stacks.NEAREST: "the nearest sheet's",
    Stacks.STRICTEST: "the strictest sheet's",
    Stacks.ALL: "all sheets' together",
}
_SAMPLES = {
    ValueKind.YES_NO: "yes = true",
    ValueKind.SENTENCES: 'say = ["…"]',
    ValueKind.ITEMS: 'items = ["…", { name = "…", number = "M-7", revision = "C" }]',
    ValueKind.SPAN: 'span = "10 working days", clock = "filing"',
    ValueKind.SEASON: 'closed = "11-15 to 03-31"',
    ValueKind.HOURS: 'hours = ["07:00-19:00"], days = "Mon-Fri"',
    ValueKind.RAIN: 'rain = "4.0 in/hr", period = "25-year", duration = "15 min"',
    ValueKind.FEES: 'line = [{ name = "permit", sum = 85 }]',
    ValueKind.INSURANCE: 'covers = [{ kind = "general liability", each = 1_000_000 }]',
}
_MEASURED = {
    "length": '"… in"',
    "area": '"… sq ft"',
    "slope": '"… %"',
    "strength": '"… psi"',
    "velocity": '"… ft/s"',
    "temperature": '"… deg F"',
    "ratio": '"… %"',
}


def key_table(uses: Mapping[str, str]) -> str:
    """Return every key with its question and how it is written, as a Markdown table.

    Parameters
    ----------
    uses
        What becomes of each key here: whether a check judges by it, and what else reads it.
    """
    rows = [
        (
            f"`{key.name}`",
            key.question,
            f"`{sample_value(key)}`",
            _STACKS[key.stacks],
            key.clock.value,
            "yes" if key.stage is Stage.SIZE else "",
            "yes" if key.blocking else "",
            uses[key.name],
        )
        for key in sorted(KEYS.values(), key=lambda key: key.name)
    ]
    head = (
        "key",
        "question",
        "written",
        "which sheet counts",
        "edition by",
        "may ask for sizes",
        "open stops a job",
        "here it is",
    )
    return markdown(head, rows)


def sample_value(key: RuleKey) -> str:
    """Return a value of a key as its sheet would write it."""
    if key.kind is ValueKind.LIMIT:
        return _sample_limit(key)
    if key.kind is ValueKind.STANCE:
        return f'stance = "{key.words[0]}"'
    if key.kind is ValueKind.SPAN and key.times == "wait":
        return 'span = "2 working days", earliest = "14 days", cutoff = "16:00"'
    return _sample_words(key) or _SAMPLES[key.kind]


def _sample_words(key: RuleKey) -> str:
    """Return a value made of a key's own words, where it has them."""
    if key.kind is ValueKind.ITEMS and key.words:
        return f'items = ["{key.words[0]}"]'
    if key.kind is ValueKind.ORDER:
        return f'order = ["{key.words[0]}", "{key.words[1]}"]'
    if key.kind is ValueKind.WORDS:
        word = PIPE_WORDS[1] if key.pipes else next(iter(key.words), "…")
        return f'one_of = ["{word}"]'
    return ""


def _sample_limit(key: RuleKey) -> str:
    """Return a limit, with its datum where the author must choose one."""
    end = "at_least" if key.ends != "at_most" else "at_most"
    amount = "…" if key.quantity is None else _MEASURED[key.quantity.value]
    parts = [f"{end} = {amount}"]
    parts += [f'of = "{key.of[0]}"'] if len(key.of) > 1 else []
    parts += [f'from = "{key.origin[0]}"'] if len(key.origin) > 1 else []
    return ", ".join(parts)


def fact_table() -> str:
    """Return every fact a condition may ask for, and what fits it, as a Markdown table."""
    rows = [
        (
            f"`{fact.name}`",
            fact.question,
            _what_fits(fact),
            "computed" if fact.stage is Stage.SIZE else "each item" if fact.local else "the job",
        )
        for fact in sorted(FACTS.values(), key=lambda fact: fact.name)
    ]
    return markdown(("fact", "what it tells", "what fits", "known of"), rows)


def _what_fits(fact: Fact) -> str:
    """Return what a condition may write for a fact."""
    if fact.words:
        return ", ".join(f"`{word}`" for word in fact.words)
    return {
        FactKind.YES_NO: "`true` or `false`",
        FactKind.NAME: "a name, or a list of names",
        FactKind.SEASON: '`"11-15 to 03-31"`',
        FactKind.DAY: '`{ before = 2020-01-01 }`, `{ from = … }`, `{ within = "5 years" }`, '
        '`{ older_than = "5 years" }`',
        FactKind.COUNT: "`{ over = 2 }`, `{ up_to = 2 }`",
        FactKind.MONEY: "`{ over = 500 }`, `{ up_to = 500 }`",
        FactKind.MEASURE: f"`{{ over = … }}`, `{{ up_to = … }}` with {_nouns(fact)}",
    }[fact.kind]


def _nouns(fact: Fact) -> str:
    return nouns((fact.quantity,)) if fact.quantity else ""


def markdown(head: tuple[str, ...], rows: Iterable[tuple[str, ...]]) -> str:
    """Return a table in Markdown."""
    lines = [head, tuple("---" for _ in head), *rows]
    return "".join(f"| {' | '.join(cell.replace('|', '/') for cell in row)} |\n" for row in lines)
