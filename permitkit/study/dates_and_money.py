"""What the study computes of dates and money; `results` offers the same names."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

from permitkit.model.rules import RuleKey
from permitkit.units import write_money

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
    locate_call_from: date | None = None
    file_from: date | None = None
    due: Mapping[str, date | None] = field(default_factory=dict)
    late: Mapping[str, date] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class FeeRow:
    """One line of money: its arithmetic in words, its sum (None: to be set), its source.

    A sum known only within a range has its low end in `amount` and its high one in `amount_to`;
    `or_more` tells that it has no high end.
    """

    name: str
    arithmetic: str
    amount: Decimal | None
    amount_to: Decimal | None
    source: str
    permit: str = ""
    refundable: bool = False
    kept: Decimal | None = None
    note: str = ""
    or_more: bool = False

    @property
    def beside(self) -> str:
        """What has to be known besides the sum: its permit, what comes back, the notes."""
        back = "refundable" if self.refundable else ""
        kept = f"{write_money(self.kept)} kept" if self.kept is not None else ""
        permit = f"for the permit {self.permit}" if self.permit else ""
        return "; ".join(filter(None, (permit, back, kept, self.note)))

    @property
    def settled(self) -> bool:
        """Whether the sum is known to the cent."""
        return self.amount is not None and not self.or_more and self.amount_to is None

    @property
    def shown(self) -> str:
        """The sum as printed; empty where nothing is known of it."""
        low = write_money(self.amount) if self.amount is not None else ""
        if self.amount_to is not None:
            high = write_money(self.amount_to)
            return f"{low} to {high}" if self.amount else f"up to {high}"
        return f"{low} or more" if self.or_more else low


@dataclass(frozen=True, slots=True)
class MoneyTotal:
    """Rows and their sum; `open` names the lines the town must set.

    `total` takes each line at the low end of what is known of it, and `most` at the high end;
    it is nothing where some line has no high end, or nothing is known of it.
    """

    rows: tuple[FeeRow, ...]
    total: Decimal
    open: tuple[str, ...] = ()
    known: bool = True
    most: Decimal | None = None

    @property
    def shown(self) -> str:
        """The sum as printed: what it is, from what to what, or what it is at the least."""
        told = write_money(self.total)
        if self.known:
            return told
        if any(row.amount is None and row.amount_to is None for row in self.rows):
            return f"{told} and what is to be set" if self.total else "to be set"
        if self.most is None:
            return f"at least {told}"
        most = write_money(self.most)
        return f"{told} to {most}" if self.total else f"at most {most}"


@dataclass(frozen=True, slots=True)
class FeesStudy:
    """Fees, deposit and bond, each with its arithmetic."""

    fees: MoneyTotal
    deposit: MoneyTotal
    bond: MoneyTotal
