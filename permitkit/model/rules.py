"""Rule sheets as frozen data: sources, values, cases, editions, sheets, and what is in force."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from pathlib import Path

from permitkit.model.facts import Condition, Season, Stage, Threshold, When
from permitkit.model.values import (
    Ask,
    ByReference,
    Cover,
    Fees,
    Hours,
    Insurance,
    Item,
    Items,
    Limit,
    NoRule,
    Order,
    RainRule,
    Sentences,
    Silent,
    Span,
    Spans,
    Stance,
    Value,
    Words,
    YesNo,
)
from permitkit.units import Kind

__all__ = [
    "Ask",
    "ByReference",
    "Case",
    "Cite",
    "Clock",
    "Condition",
    "Cover",
    "Edition",
    "Fees",
    "Hours",
    "Insurance",
    "Item",
    "Items",
    "Limit",
    "NoRule",
    "Order",
    "OtherStreet",
    "Permit",
    "RainRule",
    "Rule",
    "RuleKey",
    "Season",
    "Sentences",
    "Sheet",
    "Silent",
    "Source",
    "Span",
    "Spans",
    "Stacks",
    "Stage",
    "Stance",
    "Threshold",
    "Value",
    "ValueKind",
    "When",
    "Words",
    "YesNo",
]


class ValueKind(StrEnum):
    """What sort of value a rule key holds."""

    LIMIT = "limit"
    YES_NO = "yes or no"
    STANCE = "stance"
    WORDS = "set of words"
    ORDER = "order of preference"
    SENTENCES = "sentences"
    ITEMS = "list of items"
    SPAN = "span of time"
    SEASON = "season"
    HOURS = "hours"
    RAIN = "rain"
    FEES = "fees"
    INSURANCE = "insurance"


class Stacks(StrEnum):
    """How the layers of sheets combine for a key."""

    NEAREST = "nearest"
    STRICTEST = "strictest"
    ALL = "all"


class Clock(StrEnum):
    """Which of the job's dates picks the edition."""

    FILING = "filing"
    ISSUE = "issue"
    WORK = "work"


@dataclass(frozen=True, slots=True)
class RuleKey:
    """A question a rule sheet can answer, declared once.

    `of` and `origin` are the parts and datums a height or distance may speak of; the first of
    each is what a sheet means when its author need not choose. `blocking` says whether an open
    question keeps a job from being ready (else the packet asks the town to set it at review).
    `plain` says whether silence is unremarkable: good practice that many towns never write down.
    `ends` says which end a limit must have (`at_least`, `at_most`), or that either will do.
    `also` is another kind of value that may be written in place of the first.
    `times` says what a span is of: a `wait` before something, which may have an earliest day; a
    time in which something is `due`, which a day of the year may end; or a plain `length`.
    `pipes` tells that its words name kinds of pipe.
    `trade` gives, for each word, those of a job that it stands for, where they may be others.
    `own_words` tells that a sheet may use words of its own as well, which no job can name.
    """

    name: str
    kind: ValueKind
    question: str
    quantity: Kind | None = None
    of: tuple[str, ...] = ()
    origin: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    stacks: Stacks = Stacks.NEAREST
    clock: Clock = Clock.FILING
    stage: Stage = Stage.SITE
    blocking: bool = False
    plain: bool = False
    ends: str = "both"
    times: str = "length"
    also: ValueKind | None = None
    pipes: bool = False
    trade: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    own_words: bool = False

    def __hash__(self) -> int:
        """Hash by name: a key is declared once."""
        return hash(self.name)

    @property
    def family(self) -> str:
        """The part of the name before the dot."""
        return self.name.partition(".")[0]


@dataclass(frozen=True, slots=True)
class Source:
    """A document that rules were read in, and the day it was read."""

    id: str
    title: str
    read: date
    address: str = ""
    note: str = ""
    dated: str = ""


@dataclass(frozen=True, slots=True)
class Cite:
    """Where in a source a rule stands."""

    source: Source
    section: str = ""
    page: str = ""

    @property
    def text(self) -> str:
        """The citation as printed."""
        parts = [self.source.title]
        if self.section:
            parts.append(f"section {self.section}")
        if self.page:
            parts.append(f"page {self.page}")
        return ", ".join(parts)


@dataclass(frozen=True, slots=True)
class Case:
    """One case of an edition: its condition, its value, its citation.

    `waivable_by` is a ladder, whom to ask first standing first; a step may be several offices in
    words, any one of them or all together. `waiver_needs` tells, step by step, what each of them
    wants to see (empty where the sheet does not say).
    """

    value: Value
    when: When | None = None
    cite: Cite | None = None
    waivable_by: tuple[str, ...] = ()
    note: str = ""
    waiver_needs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Edition:
    """The cases in force from a day on; no case at all ends the rule."""

    since: date | None
    cases: tuple[Case, ...]


@dataclass(frozen=True, slots=True)
class Rule:
    """All editions of one key in one sheet, oldest first."""

    key: RuleKey
    editions: tuple[Edition, ...]


@dataclass(frozen=True, slots=True)
class Permit:
    """A permit a job may need."""

    id: str
    title: str
    issuer: str
    when: When | None = None
    form: str = ""
    form_edition: str = ""
    cite: Cite | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class OtherStreet:
    """A street, or a part of one, that belongs to another authority than the sheet's.

    Parameters
    ----------
    name
        The street.
    authority
        Whose it is.
    between
        The cross streets along the part that is theirs, in their order; empty for the whole street.
    part
        The part in words, where no cross streets are known.
    sheet
        The place whose sheet holds there, if one is known.
    holds
        Whether the rules of this sheet hold there all the same.
    """

    name: str
    authority: str
    between: tuple[str, ...] = ()
    part: str = ""
    sheet: str = ""
    holds: bool = True

    @property
    def text(self) -> str:
        """The street and its part as printed: `Golf Road from Euclid Avenue to Hicks Road`."""
        if self.between:
            return f"{self.name} from {self.between[0]} to {self.between[-1]}"
        return f"{self.name}, {self.part}" if self.part else self.name


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """One town's (or layer's) rule sheet, as loaded; two sheets are the same if one object.

    `listed_streets` belong to another authority; `paved` maps a street to the day it was paved.
    `holidays` is empty where the sheet leaves the public holidays to those it follows. `file` is
    where it was read, `path` the same as its reader knows it, `data` what stood in it then.
    """

    place: str
    title: str
    kind: str
    follows: tuple[str, ...]
    checked: date
    due: date
    verified: bool
    units: str
    rules: Mapping[str, Rule]
    sources: Mapping[str, Source]
    permits: tuple[Permit, ...] = ()
    office: str = ""
    office_address: str = ""
    office_phone: str = ""
    closings: Mapping[date, str] = field(default_factory=dict)
    holidays: str = ""
    path: str = ""
    digest: str = ""
    data: bytes = field(default=b"", repr=False)
    standing: str = ""
    office_email: str = ""
    listed_streets: tuple[OtherStreet, ...] = ()
    paved: Mapping[str, date] = field(default_factory=dict)
    file: Path = Path()
