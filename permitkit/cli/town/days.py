"""Days as the command line takes them: 2026-04-06, or today where none is given."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime
from typing import Annotated

import typer

from permitkit.errors import Fault, UsageError

__all__ = ["Day", "FromDay", "ToDay", "day_of", "days_of", "this_day"]

_DAY = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)

Day = Annotated[
    str | None,
    typer.Option("--on", metavar="DATE", help="The day, such as 2026-04-06; else today."),
]
FromDay = Annotated[
    str | None, typer.Option("--from", metavar="DATE", help="The earlier day, as 2026-04-06.")
]
ToDay = Annotated[
    str | None, typer.Option("--to", metavar="DATE", help="The later day, as 2026-04-06.")
]


def day_of(text: str, option: str) -> date:
    """Return the day a text states.

    Raises
    ------
    UsageError
        The text is no day of the calendar.
    """
    if _DAY.fullmatch(text):
        try:
            return date.fromisoformat(text)
        except ValueError:
            pass
    raise _wrong(option, repr(text))


def this_day(text: str | None) -> date:
    """Return the day of `--on`, or today."""
    return day_of(text, "--on") if text is not None else datetime.now(UTC).astimezone().date()


def days_of(first: str | None, last: str | None) -> tuple[date, date]:
    """Return the days of `--from` and `--to`, the earlier first.

    Raises
    ------
    UsageError
        One is missing, is no day, or the later stands first.
    """
    days = []
    for text, option in ((first, "--from"), (last, "--to")):
        if text is None:
            raise _wrong(option, "nothing")
        days.append(day_of(text, option))
    if days[1] < days[0]:
        found, expected = days[1].isoformat(), f"a day no earlier than --from {days[0]}"
        raise UsageError((Fault("--to", found, expected),))
    return days[0], days[1]


def _wrong(option: str, found: str) -> UsageError:
    return UsageError((Fault(option, found, "a day of the calendar, such as 2026-04-06"),))
