"""Words, facts and lists held against what a sheet allows or asks for."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from permitkit.checks.compare.answers import honest, judged, passes_over
from permitkit.checks.finding import Finding
from permitkit.checks.scale import told
from permitkit.model.telling.conditions import any_of
from permitkit.model.values import Items, Order, Sentences, Stance, Words, YesNo
from permitkit.model.verdict import Outcome
from permitkit.model.vocabulary.outlets import same_way, way_fits, way_of
from permitkit.model.vocabulary.trade import stands_for
from permitkit.study.in_force.fits import same_name

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator

    from permitkit.checks.scale import Lazy
    from permitkit.model.values import Item
    from permitkit.study.in_force import InForce

__all__ = [
    "each_listed",
    "far_enough",
    "in_order",
    "listed",
    "named",
    "on_list",
    "one_of",
    "present",
    "stance",
]

BARRED = "barred"
UNKNOWN = "unknown"
NOT_STATED = "not stated"
REQUIRED = "required"


def one_of(
    rule: InForce,
    proposed: str | None,
    *,
    item: str = "",
    cure: Lazy = "",
    missing: str = "",
    fits: Callable[[str, str], bool | None] | None = None,
) -> Finding:
    """Return whether a word is among those a rule names, upper or lower case alike.

    A word the job leaves out fails, unless `missing` says why it may be left out. `fits` tells
    whether the rule's word stands for what is proposed, as a kind of pipe does for a pipe. Where
    only a town can tell what a word of its own stands for, it is asked.
    """
    value = rule.value
    if not isinstance(value, Words):
        return honest(rule, item=item, proposed=proposed or NOT_STATED)
    if proposed is None and missing:
        return passes_over(missing, item=item, rule=rule)
    limit = " or ".join(value.words)
    fit = fits or (partial(stands_for, rule.key) if rule.key.trade else same_name)
    found = [] if proposed is None else [fit(word, proposed) for word in value.words]
    if None in found and True not in found:
        own = [word for word, fits_it in zip(value.words, found, strict=True) if fits_it is None]
        return _meant(rule, proposed or "", own, item, limit)
    return Finding(
        judged(ok=True in found),
        item,
        rule,
        proposed=proposed or NOT_STATED,
        limit=limit,
        cure=cure or f"choose {limit}",
    )


def _meant(rule: InForce, proposed: str, own: list[str], item: str, limit: str) -> Finding:
    """Return the question whether what is proposed is what a town means by words of its own."""
    return Finding(
        Outcome.ASK,
        item,
        rule,
        proposed=proposed,
        limit=limit,
        why=f"is {proposed} what the town means by {any_of(tuple(own))}?",
        ask_of=rule.ask_of,
    )


def far_enough(rule: InForce, proposed: str, *, item: str = "", cure: Lazy = "") -> Finding:
    """Return whether a word comes no earlier in the question's own order than those a rule names.

    The words of such a question go from the least to the most, and more than asked is enough.
    """
    value = rule.value
    if not isinstance(value, Words):
        return honest(rule, item=item, proposed=proposed)
    rank = rule.key.words.index
    ok = rank(proposed) >= min(rank(word) for word in value.words)
    limit = " or ".join(value.words)
    return Finding(judged(ok=ok), item, rule, proposed=proposed, limit=limit, cure=cure)


def stance(rule: InForce, proposed: Lazy, *, item: str = "", cure: Lazy = "") -> Finding:
    """Return whether what is proposed is something the town does not bar."""
    value = rule.value
    if not isinstance(value, Stance):
        return honest(rule, item=item, proposed=proposed)
    outcome = judged(ok=value.word != BARRED)
    return Finding(outcome, item, rule, proposed=proposed, limit=value.word, cure=cure)


def present(
    rule: InForce,
    *,
    there: bool | str,
    what: Lazy,
    item: str = "",
    cure: Lazy = "",
    advice: bool = False,
) -> Finding:
    """Return whether a thing is there that a rule calls for.

    `there` may be `yes`, `no` or `unknown`. With `advice` its want is told as good practice where
    no sheet calls for it.
    """
    value = rule.value
    has = there is True or there == "yes"
    unknown = there == UNKNOWN
    proposed = partial(_thing, what, has=has, unknown=unknown)
    if isinstance(value, Sentences) or (isinstance(value, YesNo) and value.yes):
        if unknown:
            return _unsaid(rule, item, proposed, what)
        return Finding(judged(ok=has), item, rule, proposed=proposed, limit=REQUIRED, cure=cure)
    if isinstance(value, YesNo):
        return passes_over("the town does not ask for it", item=item, rule=rule)
    answer = honest(rule, item=item, proposed=proposed)
    if advice and answer.outcome is Outcome.PASSES_OVER:
        outcome = judged(ok=has, advice=True)
        return Finding(outcome, item, rule, proposed=proposed, limit="good practice", cure=cure)
    return answer


def listed(
    rule: InForce,
    has: Callable[[Item], bool],
    *,
    cure: Callable[[Item], str],
) -> Iterator[Finding]:
    """Yield, for each thing that any layer's list names, whether it is there (`on_list`)."""

    def found(layer: InForce, thing: Item) -> Finding:
        return on_list(layer, thing, there=has(thing), cure=partial(cure, thing))

    return each_listed(rule, found)


def each_listed(rule: InForce, found: Callable[[InForce, Item], Finding]) -> Iterator[Finding]:
    """Yield what is found of each thing that any layer's list names, once for each name.

    Of a thing that one layer always wants and another only at times, the first counts.
    """
    seen: set[str] = set()
    always = {named(thing) for layer in rule.all for thing in _things(layer) if not thing.only_if}
    for layer in rule.all:
        if not isinstance(layer.value, Items):
            yield honest(layer, item="")
            continue
        for thing in layer.value.items:
            name = named(thing)
            if name not in seen and not (thing.only_if and name in always):
                seen.add(name)
                yield found(layer, thing)


def _things(layer: InForce) -> tuple[Item, ...]:
    return layer.value.items if isinstance(layer.value, Items) else ()


def _at_times(name: str, layer: InForce, only_if: str) -> Finding:
    """Return the question whether a thing is wanted that is wanted only at times."""
    why = f"wanted only if {only_if}: is that so here?"
    return Finding(
        Outcome.ASK,
        name,
        layer,
        proposed="not given",
        limit=f"only if {only_if}",
        why=why,
        ask_of=layer.ask_of,
    )


def on_list(
    layer: InForce, thing: Item, *, there: bool | None, cure: Lazy, unsure: Lazy = ""
) -> Finding:
    """Return whether one thing of a list is there; nothing as `there` asks what `unsure` says.

    What is wanted only if something is so, and is not there, is asked and never a fault.
    """
    name = named(thing)
    if there:
        return Finding(Outcome.MEETS, name, layer, proposed="given", limit=REQUIRED)
    if thing.only_if:
        return _at_times(name, layer, thing.only_if)
    if there is None:
        who = "the applicant"
        return Finding(Outcome.ASK, name, layer, limit=REQUIRED, why=unsure, ask_of=who)
    return Finding(Outcome.FAILS, name, layer, proposed="missing", limit=REQUIRED, cure=cure)


def named(thing: Item) -> str:
    """Return a thing's name with its number and revision."""
    if not thing.number:
        return thing.name
    revision = f" rev {thing.revision}" if thing.revision else ""
    return f"{thing.name} {thing.number}{revision}"


def in_order(
    rule: InForce, chosen: str, reasons: Collection[str], *, yard: object = None
) -> Iterator[Finding]:
    """Yield whether each way the town would rather see was passed over for a stated reason.

    A word of the order may stand for several kinds of outlet, or for an emitter in some yard.
    """
    value = rule.value
    if not isinstance(value, Order):
        yield honest(rule, item=chosen, proposed=chosen)
        return
    limit = ", then ".join(value.steps)
    fits = [way_fits(step, chosen, yard) for step in value.steps]
    if True not in fits and None not in fits:
        yield _in_no_order(rule, value.steps, chosen, limit)
        return
    taken = fits.index(True) if True in fits else len(fits)
    before = zip(value.steps[:taken], fits[:taken], strict=True) if value.reason_needed else ()
    unsaid = [(s, fit) for s, fit in before if not any(same_way(s, word) for word in reasons)]
    yield from (_passed_over(rule, chosen, step, limit, fit) for step, fit in unsaid)
    if not unsaid:
        yield Finding(Outcome.MEETS, chosen, rule, proposed=chosen, limit=limit)


def _in_no_order(rule: InForce, steps: tuple[str, ...], chosen: str, limit: str) -> Finding:
    """Return that no way of an order is the one chosen, unless the town has its own word for it."""
    own = [step for step in steps if way_of(step) is None]
    if own:
        return _meant(rule, chosen, own, chosen, limit)
    cure = f"choose among {limit}"
    return Finding(Outcome.FAILS, chosen, rule, proposed=chosen, limit=limit, cure=cure)


def _passed_over(
    rule: InForce,
    chosen: str,
    step: str,
    limit: str,
    fit: bool | None,  # noqa: FBT001
) -> Finding:
    """Return that nothing is said against an earlier way, which an unknown yard may make it."""
    if fit is None:
        why = f"which yard does the {chosen} stand in? The order speaks of the {step}"
        return Finding(
            Outcome.ASK, step, rule, proposed=chosen, limit=limit, why=why, ask_of="the applicant"
        )
    proposed = f"{chosen}, with no reason against {step}"
    cure = f"state why {step} does not work here, or choose it"
    return Finding(Outcome.FAILS, step, rule, proposed=proposed, limit=limit, cure=cure)


def _thing(what: Lazy, *, has: bool, unknown: bool) -> str:
    return told(what) if has else f"{told(what)}: {'not known' if unknown else 'no'}"


def _not_said(what: Lazy) -> str:
    return f"the job does not say: {told(what)}"


def _unsaid(rule: InForce, item: str, proposed: Lazy, what: Lazy) -> Finding:
    return Finding(
        Outcome.ASK,
        item,
        rule,
        proposed=proposed,
        limit=REQUIRED,
        why=partial(_not_said, what),
        ask_of="the applicant",
        blocking=rule.key.blocking,
    )
