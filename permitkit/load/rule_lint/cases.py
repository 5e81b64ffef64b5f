"""Cases of one edition held against each other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.errors import Fault
from permitkit.load.rule_lint.overlap import is_within, meeting
from permitkit.model.telling import value_text, when_text

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Mapping, Sequence

    from permitkit.model.rules import Case, Condition, Edition

__all__ = ["clashes", "never_fits", "never_reached"]


def never_reached(where: str, edition: Edition) -> Iterator[Fault]:
    """Yield cases that an earlier one always takes first."""
    for n, case in enumerate(edition.cases):
        taker = next(
            (m for m, e in enumerate(edition.cases[:n]) if is_within(case.when, e.when)), None
        )
        if taker is not None:
            first = edition.cases[taker].when
            found = f"a case never reached: case {taker + 1} fits first ({when_text(first)})"
            expected = "the narrower case first, a case without `when` last"
            fix = f"put case {n + 1} before case {taker + 1}, or leave it out"
            if is_within(first, case.when):
                expected, fix = "one case for one condition", "leave out the one or the other"
            yield Fault(f"{where}: case {n + 1}", found, expected, fix)


def clashes(where: str, edition: Edition) -> Iterator[Fault]:
    """Yield pairs of cases that one job could fit both, with other values and neither narrower.

    A case in front of both that takes every such job settles it.
    """
    for n, later in enumerate(edition.cases):
        for m, earlier in enumerate(edition.cases[:n]):
            if _clash(earlier, later, edition.cases[:m]):
                yield Fault(
                    f"{where}: cases {m + 1} and {n + 1}",
                    f"both can fit one job: {when_text(earlier.when)} gives "
                    f"{value_text(earlier.value)}; {when_text(later.when)} gives "
                    f"{value_text(later.value)}",
                    "cases that exclude each other, or one narrower than the other",
                    "add a fact to one of them, or put a case for both in front",
                )


def _clash(earlier: Case, later: Case, before: Sequence[Case]) -> bool:
    """Return whether two cases can both be first, differ, and neither is narrower."""
    both = meeting(earlier.when, later.when)
    if earlier.value == later.value or both is None:
        return False
    if is_within(earlier.when, later.when) or is_within(later.when, earlier.when):
        return False
    return not any(is_within(both, case.when) for case in before)


def never_fits(where: str, edition: Edition, permits: Collection[str]) -> Iterator[Fault]:
    """Yield alternatives that contradict themselves or name a permit nobody lists."""
    for n, case in enumerate(edition.cases, 1):
        for alternative in case.when.alternatives if case.when else ():
            if _new_but_old(alternative):
                yield Fault(
                    f"{where}: case {n}, when",
                    "a new outlet that is an existing hole",
                    "facts that can hold together",
                )
            named = alternative.get("permit")
            words = named if isinstance(named, tuple) else ()
            strange = [repr(name) for name in words if name not in permits]
            listed = ", ".join(sorted(permits)) or "none is listed"
            if strange:
                yield Fault(
                    f"{where}: case {n}, when.permit",
                    " and ".join(strange),
                    f"a permit that a sheet lists: {listed}",
                )


def _new_but_old(alternative: Mapping[str, Condition]) -> bool:
    """Return whether it asks for a new outlet that is a hole already there."""
    new, outlet = alternative.get("new_outlet"), alternative.get("outlet")
    return (new, outlet) == (("yes",), ("existing hole",))
