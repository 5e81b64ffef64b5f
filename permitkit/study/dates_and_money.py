"""What the study computes of dates and money; `results` offers the same names."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

__all__ = ["CalendarStudy", "DatedStep", "FeeRow", "FeesStudy", "MoneyTotal"]


@dataclass(frozen=True, slots=True)
class DatedStep:
    """One date that matters: what it is, the day, how it was reached.

    `late` is the day it would be where an event came after the hour that still counts, and the
    job does not tell its hour.
    """

    key: str
    what: str
    day: date | None
    how: str
    late: date | None = None


@dataclass(frozen=True, slots=True)
class CalendarStudy:
    """The dates that matter, with the holidays used.

    `due` has the last day of each deadline, by its rule's key; `late` what a day would be if an
    event of no known hour came too late in the day, by the step's key.
    """

    steps: tuple[DatedStep, ...]
    work_days: tuple[date, ...]
    holidays_used: tuple[tuple[date, str], ...]
    earliest_issue: date | None
    earliest_start: date | None
    permit_until: date | None
    guarantee_until: date | None
    locate_from: date | None
    locate_until: date | None
    insurance_needed_until: date | None
    locate_call_by: date | None = None
    locate_call_from: date | None = None
    file_from: date | None = None
    due: Mapping[str, date | None] = field(default_factory=dict)
    late: Mapping[str, date] = field(default_factory=dict)


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
