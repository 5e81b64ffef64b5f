"""Checks of the permits: whether one is needed, whether each is applied for, on which form."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.checks.compare import asked, holds, passes_over, stance
from permitkit.checks.papers import papers_of
from permitkit.checks.proposed import alike, waters
from permitkit.checks.registry import check
from permitkit.model.keys import duties

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.finding import Finding
    from permitkit.model.job import Job
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import Study

__all__ = ["form_outdated", "permit_missing", "permit_refused"]


@check(
    "permit-refused",
    "No permit is given for this work, or none is asked for",
    reads=(duties.PERMIT_NEEDED,),
)
def permit_refused(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag work the town gives no permit for, and work that needs one and asks for none.

    Why: what needs a permit and has none is stopped, and what can have none is never begun.
    """
    none_asked = job.papers.applied_permits == ()
    for rule, water in alike(rules, duties.PERMIT_NEEDED, waters(job)):
        item = f"{job.outlet.kind} for {water} water"
        if rule.known and rule.stance == "required":
            yield holds(
                ok=not none_asked,
                proposed="none" if none_asked else "applied for",
                limit="a permit",
                item=item,
                cure="apply for the permit, and name it in papers.applied_permits",
                source=rule.source,
            )
        else:
            cure = "ask the town what it takes in place of this work"
            yield stance(rule, "sent for the record", item=item, cure=cure)


@check(
    "permit-missing",
    "A permit is not applied for",
    idle="no permit is listed",
    asks="Is each permit that is needed applied for?",
)
def permit_missing(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a permit whose condition is met and which is not applied for.

    Why: work begun on one permit of two is work without a permit.
    """
    applied, every = job.papers.applied_permits, rules.permits()
    titles = {needed.permit.id: needed.permit.title for needed in every}
    told = ", ".join(titles.get(name, name) for name in applied or ()) or "none"
    for needed in every:
        permit = needed.permit
        source = permit.cite.text if permit.cite else needed.sheet.title
        if needed.exempt is not None:
            yield passes_over(needed.standing, item=permit.title, rule=needed.exempt)
        elif needed.doubt and applied is not None and permit.id not in applied:
            why = f"is this work exempt from the {permit.title}? {needed.doubt}"
            yield asked(why, item=permit.title, of=permit.issuer)
        elif needed.certain:
            yield holds(
                ok=applied is None or permit.id in applied,
                proposed="all that are needed" if applied is None else told,
                limit=f"{permit.title}, {permit.issuer}",
                item=permit.title,
                cure=f"apply to {permit.issuer} as well{permit.form and f', form {permit.form}'}",
                source=source,
            )
        else:
            why = f"is the {permit.title} needed? Not known: {', '.join(needed.missing)}"
            yield asked(why, item=permit.title, of=permit.issuer)


@check(
    "form-outdated",
    "The form is not the edition in force",
    idle="no form is attached that a permit names",
    asks="Is the form of the edition in force?",
)
def form_outdated(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag an application form of another edition than the one the permit names.

    Why: a counter sends old forms back unread.
    """
    forms = {paper.number: paper for paper in papers_of(job, {"application form"})}
    for needed in rules.permits():
        permit = needed.permit
        if permit.form in forms and permit.form_edition and needed.exempt is None:
            edition = forms[permit.form].edition
            yield holds(
                ok=edition == permit.form_edition,
                proposed=edition or "edition not stated",
                limit=permit.form_edition,
                item=f"form {permit.form}",
                cure=f"fill in the edition of {permit.form_edition}",
                source=permit.cite.text if permit.cite else needed.sheet.title,
            )
