"""What a check says of a job."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Outcome", "Verdict"]


class Outcome(StrEnum):
    """The answers a check can give, worst first."""

    FAILS = "fails"
    ASK = "ask"
    WAIVER = "waiver"
    ADVICE = "advice"
    MEETS = "meets"
    PASSES_OVER = "does not apply"


@dataclass(frozen=True, slots=True)
class Verdict:
    """One answer: the check, the thing it looked at, and what was held against what.

    `blocking` tells whether an open question keeps the job from being ready; `why` says what the
    question is, or why the check does not apply; `ask_of` names who can answer. `asks` is the
    question itself, in words that fit either answer; `book` and `section` say where it stands.
    """

    check: str
    title: str
    outcome: Outcome
    item: str = ""
    proposed: str = ""
    limit: str = ""
    source: str = ""
    cure: str = ""
    why: str = ""
    ask_of: str = ""
    blocking: bool = False
    waivable_by: str = ""
    section: str = ""
    asks: str = ""
    book: str = ""

    @property
    def stops(self) -> bool:
        """Whether this verdict alone keeps the job from being ready."""
        return self.outcome is Outcome.FAILS or (self.outcome is Outcome.ASK and self.blocking)
