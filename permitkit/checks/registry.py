"""What a check is: one question to the job, declared in one place."""

from __future__ import annotations

from dataclasses import dataclass, field
from inspect import cleandoc
from typing import TYPE_CHECKING, TypeAlias

from permitkit.model.rules import RuleKey

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from permitkit.checks.finding import Finding
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import Study

__all__ = ["Check", "CheckFunction", "check"]

CheckFunction: TypeAlias = "Callable[[Job, RulesInForce, Study], Iterable[Finding]]"


@dataclass(frozen=True, slots=True)
class Check:
    """One question to the job.

    Parameters
    ----------
    slug
        The fault's name.
    title
        The fault in a sentence.
    reads
        The only rule keys it sees.
    standard
        The standard or the physics it stands on where no town's rule does.
    family
        The part of the job it belongs to.
    why
        Why the question is asked.
    idle
        Why it does not apply where it finds nothing to look at.
    function
        The question itself.
    asks
        The question in words, where no rule key asks it.
    beyond
        The fault in a sentence where the other end of a limit is broken; its title if nothing.
    names
        The names of the keys it reads.
    """

    slug: str
    title: str
    reads: tuple[RuleKey, ...]
    standard: str
    family: str
    why: str
    idle: str
    function: CheckFunction
    asks: str = ""
    beyond: str = ""
    names: frozenset[str] = field(init=False, compare=False, repr=False)

    def __hash__(self) -> int:
        """Hash by slug: a check is declared once."""
        return hash(self.slug)

    def __post_init__(self) -> None:
        """Keep the names of what it reads, which every job asks for."""
        object.__setattr__(self, "names", frozenset(key.name for key in self.reads))


def check(
    slug: str,
    title: str,
    *,
    reads: tuple[RuleKey, ...] = (),
    standard: str = "",
    idle: str = "nothing of the kind is proposed",
    asks: str = "",
    beyond: str = "",
) -> Callable[[CheckFunction], Check]:
    """Return the decorator that makes a function a check of its module's family."""

    def declared(function: CheckFunction) -> Check:
        family = _family(function.__module__)
        why = " ".join(cleandoc(function.__doc__ or "").partition("Why:")[2].split())
        return Check(slug, title, reads, standard, family, why, idle, function, asks, beyond)

    return declared


def _family(module: str) -> str:
    """Return the module of the checks, or the folder where a family fills one."""
    _, inside, rest = module.partition(".families.")
    return rest.partition(".")[0] if inside else module.rpartition(".")[2]
