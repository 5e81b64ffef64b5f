"""The map of a town's form: what goes into each of its fields, and where they are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import TypeAlias

__all__ = [
    "DAYS",
    "Ask",
    "Choose",
    "Fill",
    "FormField",
    "FormMap",
    "Say",
    "Sign",
    "Spot",
    "Theirs",
    "Tick",
    "Write",
]

DAYS: dict[str, str] = {
    "Apr 6, 2026": "{0:%b} {0.day}, {0.year}",
    "04/06/2026": "{0:%m}/{0:%d}/{0.year}",
    "04062026": "{0:%m}{0:%d}{0.year}",
    "06/04/2026": "{0:%d}/{0:%m}/{0.year}",
    "06.04.2026": "{0:%d}.{0:%m}.{0.year}",
    "2026-04-06": "{0:%Y-%m-%d}",
}
"""The ways a day may be written, each by how it writes the sixth of April 2026."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on paper, from the top left corner of the page as it is read, in metres.

    `down_m` is the line that is written on, or the lower edge of a box to tick; further `lines`
    follow `pitch_m` apart. `letters_m` is the height of capitals.
    """

    page: int
    across_m: float
    down_m: float
    width_m: float
    letters_m: float
    lines: int = 1
    pitch_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Write:
    """Values of the job, by name, one after the other.

    A quantity stands bare in a `unit` that the form prints itself; `days` is how a day is written.
    """

    values: tuple[str, ...]
    unit: str = ""
    days: str = ""


@dataclass(frozen=True, slots=True)
class Say:
    """A sentence that is always the same."""

    text: str


@dataclass(frozen=True, slots=True)
class Tick:
    """A box ticked where a value of the job is one of some words."""

    value: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Choose:
    """One choice of a list or of a row of round buttons, by the word that a value has."""

    value: str
    options: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Sign:
    """A signature, or the day of one: never filled."""


@dataclass(frozen=True, slots=True)
class Ask:
    """Filled in by hand: left blank, and listed."""

    what: str = ""


@dataclass(frozen=True, slots=True)
class Theirs:
    """For the town's own use: left blank, and not listed."""


Fill: TypeAlias = Write | Say | Tick | Choose | Sign | Ask | Theirs


@dataclass(frozen=True, slots=True)
class FormField:
    """One field: its name in the PDF or its spot on paper, and what goes in.

    `label` is what the form calls it, for lists; `where` the place in the map's file.
    """

    fill: Fill
    where: str
    name: str = ""
    spot: Spot | None = None
    label: str = ""


@dataclass(frozen=True, slots=True)
class FormMap:
    """The map of one edition of a form, and the PDF beside it.

    `digest` begins the SHA-256 of the PDF that the map was made for, where the author wrote it.
    `declares` tells that the form prints the town's declaration on the kind of water itself.
    """

    number: str
    title: str
    edition: str
    source: str
    read: date
    pdf: Path
    path: str
    fields: tuple[FormField, ...] = ()
    days: str = field(default="Apr 6, 2026")
    digest: str = ""
    declares: bool = False

    @property
    def called(self) -> str:
        """The form as it is spoken of."""
        return f"form {self.number}"
