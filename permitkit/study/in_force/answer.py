"""The rule that holds for one question: its value, and where it stands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, TypeVar

from permitkit.model.papers import Answer
from permitkit.model.rules import Cite, RuleKey, Sheet
from permitkit.model.telling import value_text
from permitkit.model.values import (
    Ask,
    ByReference,
    Fees,
    Hours,
    Insurance,
    Items,
    Limit,
    NoRule,
    Order,
    RainRule,
    Seasons,
    Sentences,
    Silent,
    Span,
    Stance,
    Value,
    Words,
    YesNo,
)
from permitkit.units import Measure

if TYPE_CHECKING:
    from permitkit.model.values import Cover, Item

__all__ = ["InForce", "NotKnownError"]

_Kind = TypeVar("_Kind")
_HONEST = (Ask, ByReference, NoRule, Silent)


class NotKnownError(LookupError):
    """A value was taken from a rule that has none of that kind; ask `known` first."""


@dataclass(frozen=True, slots=True)
class InForce:
    """The rule that holds for a question.

    Parameters
    ----------
    key
        The question.
    value
        The answer: a value of the key's kind, or one of the honest answers.
    cite
        Where it stands, if it was read somewhere.
    sheet
        The sheet that says it.
    waivable_by
        Who may waive it, first to be asked first.
    waiver_needs
        What each of them wants to see; empty where the sheet does not say.
    note
        What the sheet's author noted, or why there is no answer.
    layers
        What each sheet says, nearest first, where several count.
    answer
        The town's word for this job, where that is what holds.
    applies
        The condition under which it holds, where it was asked for apart from any one item.
    """

    key: RuleKey
    value: Value
    cite: Cite | None = None
    sheet: Sheet | None = None
    waivable_by: tuple[str, ...] = ()
    waiver_needs: tuple[str, ...] = ()
    note: str = ""
    layers: tuple[InForce, ...] = ()
    answer: Answer | None = None
    applies: str = ""

    @property
    def known(self) -> bool:
        """Whether there is a value of the key's kind."""
        return not isinstance(self.value, _HONEST)

    @property
    def open(self) -> bool:
        """Whether the town has still to say: an ask, another document, or silence."""
        return isinstance(self.value, Ask | ByReference | Silent)

    @property
    def no_rule(self) -> bool:
        """Whether the town was asked and has none."""
        return isinstance(self.value, NoRule)

    @property
    def silent(self) -> bool:
        """Whether no sheet says anything."""
        return isinstance(self.value, Silent)

    @property
    def blocking(self) -> bool:
        """Whether this, left open, keeps the job from being ready."""
        return self.open and self.key.blocking

    @property
    def all(self) -> tuple[InForce, ...]:
        """Every layer's word where layers count together, else this one alone."""
        return self.layers or (self,)

    @property
    def section(self) -> str:
        """The section it stands in."""
        return self.cite.section if self.cite else ""

    @property
    def source(self) -> str:
        """Where it stands, in words."""
        if self.answer is not None:
            answer = self.answer
            return f"answer {answer.how}, {answer.who}, {answer.on.isoformat()}"
        if self.cite is not None:
            return self.cite.text
        return self.sheet.title if self.sheet is not None else ""

    @property
    def text(self) -> str:
        """The value in words."""
        return value_text(self.value, self.key)

    @property
    def ask_of(self) -> str:
        """Who can answer an open question."""
        if isinstance(self.value, Ask) and self.value.by:
            return self.value.by
        return (self.sheet.office or self.sheet.title) if self.sheet is not None else "the town"

    @property
    def why(self) -> str:
        """Why the question is open, in words; nothing where it is not."""
        if isinstance(self.value, ByReference):
            return f"set by {self.value.document}"
        if isinstance(self.value, Ask):
            return self.value.note or self.note or "the rule sheet leaves this to the town"
        return (self.note or "the rule sheet does not say") if self.silent else ""

    @property
    def limit(self) -> Limit:
        """The limit."""
        return self._as(Limit)

    @property
    def least(self) -> Measure | None:
        """The least that is measured; None where no such limit is known."""
        return self._end("at_least")

    @property
    def most(self) -> Measure | None:
        """The greatest that is measured; None where no such limit is known."""
        return self._end("at_most")

    @property
    def yes(self) -> bool:
        """Whether it is a yes."""
        return self._as(YesNo).yes

    @property
    def stance(self) -> str:
        """Where the town stands: allowed, required, barred or exempt."""
        return self._as(Stance).word

    @property
    def words(self) -> tuple[str, ...]:
        """The words of which any will do."""
        return self._as(Words).words

    @property
    def order(self) -> Order:
        """The order of preference."""
        return self._as(Order)

    @property
    def sentences(self) -> tuple[str, ...]:
        """The sentences to print."""
        return self._as(Sentences).texts

    @property
    def items(self) -> tuple[Item, ...]:
        """The things asked for."""
        return self._as(Items).items

    @property
    def span(self) -> Span:
        """The span of time."""
        return self._as(Span)

    @property
    def season(self) -> Seasons:
        """The parts of the year."""
        return self._as(Seasons)

    @property
    def hours(self) -> Hours:
        """The hours of the day."""
        return self._as(Hours)

    @property
    def rain(self) -> RainRule:
        """The design rain."""
        return self._as(RainRule)

    @property
    def fees(self) -> Fees:
        """The lines of money."""
        return self._as(Fees)

    @property
    def covers(self) -> tuple[Cover, ...]:
        """The covers of insurance."""
        return self._as(Insurance).covers

    def _end(self, name: Literal["at_least", "at_most"]) -> Measure | None:
        """Return one end of a limit, where it is a measure."""
        end = getattr(self.value, name) if isinstance(self.value, Limit) else None
        return end if isinstance(end, Measure) else None

    def _as(self, kind: type[_Kind]) -> _Kind:
        """Return the value as one of a kind."""
        if isinstance(self.value, kind):
            return self.value
        raise NotKnownError(f"{self.key.name} holds no {kind.__name__}: {self.text}")
