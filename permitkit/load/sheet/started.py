"""A sheet to begin with: a town's head on a state's layer, and every key as a commented example."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import date
from textwrap import wrap
from typing import TYPE_CHECKING

from permitkit.load.guide.key_table import sample_value
from permitkit.model.keys.subjects import by_subject
from permitkit.model.reading.spelling import listed
from permitkit.model.rules import Sheet, Stage

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from permitkit.model.rules import RuleKey

__all__ = ["NewTown", "started_sheet"]

WIDTH = 98


@dataclass(frozen=True, slots=True)
class NewTown:
    """A town that has no sheet yet: its place and title, the layer below, two days."""

    place: str
    title: str
    layer: Sheet
    checked: date
    due: date


def started_sheet(town: NewTown, known: Mapping[str, str]) -> str:
    """Return the text of a sheet that loads as it stands, and answers nothing yet.

    Parameters
    ----------
    town
        The town.
    known
        What the layers below say already, in words, by key.
    """
    lines = [*_head(town), *_examples(), "", "[rule]", *_rules(known), *_LONG_FORM]
    return "\n".join(lines) + "\n"


def _text(text: str) -> str:
    """Return a text in quotes; JSON and TOML quote alike."""
    return json.dumps(text, ensure_ascii=False)


def _comment(text: str) -> Iterator[str]:
    """Yield a text as comment lines."""
    yield from wrap(text, WIDTH, initial_indent="# ", subsequent_indent="# ")


def _head(town: NewTown) -> Iterator[str]:
    yield from _comment(
        f"{town.title}. Begun from {town.layer.title}; nothing is known of the town yet. Take the "
        "mark off the front of a line, put the town's own figure in, cite where it stands. What "
        'it leaves to somebody is { ask = "who" }; what it was asked and has no rule on is '
        "{ no_rule = true }. A line left as it is means: ask."
    )
    layer = town.layer
    yield from (
        "schema = 1",
        "",
        "[sheet]",
        f"place = {_text(town.place)}",
        f"title = {_text(town.title)}",
        'kind = "town"',
        f"follows = [{_text(layer.place)}]",
        f"checked = {town.checked.isoformat()}  # the day it was last held against its sources",
        f"due = {town.due.isoformat()}  # the day for another look",
        'standing = "not verified with the town"',
        f"units = {_text(layer.units)}",
        '# office = "Public Works counter"  # whom to ask',
        '# office_address = "1 Weir Street"',
        '# office_phone = "(555) 555-0123"',
        '# office_email = "counter@example.org"',
        f"holidays = {_text(layer.holidays or 'US')}",
        "",
    )


def _examples() -> Iterator[str]:
    """Yield a source and a permit, as examples."""
    yield from (
        "# Every document that rules are read in, once, with the day it was read.",
        "# [source.code]",
        '# title = "Code of the town"',
        "# read = 2026-03-02",
        '# address = "https://example.org/code"',
        '# note = "seen in full"',
        "",
        "# Every permit a job may need.",
        "# [[permit]]",
        '# id = "street"',
        '# title = "Street opening permit"',
        '# issuer = "the town"',
        '# form = "PW-7"',
        '# form_edition = "2025-09"',
        '# cite = "code 12.08"',
    )


def _rules(known: Mapping[str, str]) -> Iterator[str]:
    """Yield every key with its question and an example."""
    for subject, keys in by_subject():
        yield from ("", f"# ---- {subject}")
        for key in keys:
            yield ""
            yield from _comment(key.question + _weight(key))
            if key.name in known:
                yield from _comment(f"said already: {known[key.name]}")
            yield from (line for choice in _choices(key) for line in _comment(choice))
            yield f'# {key.name} = {{ {sample_value(key)}, cite = "code …" }}'


def _weight(key: RuleKey) -> str:
    if key.blocking:
        return " No packet is ready without it."
    return " Many towns never write this down." if key.plain else ""


def _choices(key: RuleKey) -> Iterator[str]:
    """Yield the words among which a value is chosen, where there is a choice."""
    for name, words in (("one of", key.words), ("of", key.of), ("from", key.origin)):
        if len(words) > 1:
            own = name == "one of" and key.own_words
            yield f"{name}: {listed(words) if own else ', '.join(words)}"
    if key.stage is Stage.SIZE:
        yield "its condition may ask for areas, lengths and counts of the work"


_LONG_FORM = (
    "",
    "# ---- A rule with conditions is a list of cases: the first that fits counts, and the one",
    "# without `when` stands last.",
    "# core.bit = [",
    '#   { at_most = "3 in", when = { curb = "sloping" }, cite = "code 12.08" },',
    '#   { at_most = "4 in", cite = "code 12.08" },',
    "# ]",
    "",
    "# ---- A rule that changed is written at length, each edition with the day it began.",
    "# [[edition]]",
    '# key = "pipe.size"',
    "# [[edition.case]]",
    '# at_least = "3 in"',
    '# cite = "code 12.09"',
    "# [[edition]]",
    '# key = "pipe.size"',
    "# since = 2026-01-01  # the old one stays: jobs filed before this day stay under it",
    "# [[edition.case]]",
    '# at_least = "4 in"',
    '# cite = "code 12.09"',
)
