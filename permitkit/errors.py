"""Faults in what a person wrote, and the exit codes that tell a shell about them."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import IntEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["Exit", "Fault", "InputError", "OutputError", "PermitkitError", "UsageError"]


class Exit(IntEnum):
    """What the command line returns to the shell."""

    READY = 0
    NOT_READY = 1
    USAGE = 2
    INPUT = 3
    OUTPUT = 4
    OWN_FAULT = 70


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong in one place: where, what was found, what was expected, and the fix."""

    where: str
    found: str
    expected: str
    fix: str = ""

    def lines(self) -> list[str]:
        """Return the fault as the lines a person reads."""
        shown = [
            f"error: {self.where}",
            f"  found     {self.found}",
            f"  expected  {self.expected}",
        ]
        if self.fix:
            shown.append(f"  fix       {self.fix}")
        return shown


@dataclass(eq=False)
class PermitkitError(Exception):
    """A problem told to the user as faults; `exit_code` says which kind."""

    faults: tuple[Fault, ...] = field(default_factory=tuple)
    exit_code: Exit = Exit.OWN_FAULT

    @classmethod
    def of(cls, faults: Iterable[Fault]) -> PermitkitError:
        """Return the error that carries these faults."""
        return cls(tuple(faults))

    def __str__(self) -> str:
        """Return every fault in the designed form."""
        return "\n".join(line for fault in self.faults for line in fault.lines())


@dataclass(eq=False)
class InputError(PermitkitError):
    """An input file is wrong: all of its faults at once."""

    exit_code: Exit = Exit.INPUT


@dataclass(eq=False)
class UsageError(PermitkitError):
    """The command was called wrongly, such as a town without a sheet."""

    exit_code: Exit = Exit.USAGE


@dataclass(eq=False)
class OutputError(PermitkitError):
    """The packet cannot be written."""

    exit_code: Exit = Exit.OUTPUT
