"""What the study computes of dates and money; `results` offers the same names."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from permitkit.model.rules import RuleKey

__all__ = ["CalendarStudy", "DatedStep", "FeeRow", "FeesStudy", "MoneyTotal"]


@dataclass(frozen=True, slots=True)
class DatedStep:
    """One date that matters: what it is, the day, how it was reached."""

    key: str
    what: str
    day: date | None
    how: str


@dataclass(frozen=True, slots=True)
class CalendarStudy:
    """The dates that matter, with the holidays used.

    `start_waits_for` is the question whose answer sets the earliest start.
    """

    steps: tuple[DatedStep, ...]
    work_days: tuple[date, ...]
    holidays_used: tuple[tuple[date, str], ...]
    earliest_issue: date | None
    earliest_start: date | None
    start_waits_for: RuleKey
    permit_until: date | None
    guarantee_until: date | None
    locate_from: date | None
    locate_until: date | None
    insurance_needed_until: date | None
    locate_call_by: date | None = None


@dataclass(frozen=True, slots=True)
class FeeRow:
    """One line of money: its arithmetic in words, its sum (None: to be set), its source."""

    name: str
    arithmetic: str
    amount: Decimal | None
    amount_to: Decimal | None
    source: str
    permit: str = ""
    refundable: bool = False
    kept: Decimal | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class MoneyTotal:
    """Rows and their sum; `open` names the lines the town must set."""

    rows: tuple[FeeRow, ...]
    total: Decimal
    open: tuple[str, ...] = ()
    known: bool = True


@dataclass(frozen=True, slots=True)
class FeesStudy:
    """Fees, deposit and bond, each with its arithmetic."""

    fees: MoneyTotal
    deposit: MoneyTotal
    bond: MoneyTotal
