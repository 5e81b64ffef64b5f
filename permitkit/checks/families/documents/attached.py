"""Checks of the papers that go in with the application."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.checks.compare import (
    asked,
    covered,
    holds,
    listed,
    longest,
    on_or_after,
    one_of,
    present,
)
from permitkit.checks.papers import (
    attached,
    best_licence,
    called,
    keeps,
    made_out_to,
    newer_edition,
    papers_of,
    policies,
    titled,
    trade_of,
)
from permitkit.checks.registry import check
from permitkit.model.keys import KEYS, duties, walk
from permitkit.model.keys import papers as keys
from permitkit.study.in_force.fits import same_name

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.checks.finding import Finding
    from permitkit.model.job import Job
    from permitkit.model.values import Item
    from permitkit.study.in_force import RulesInForce
    from permitkit.study.results import Study

__all__ = [
    "agreement_missing",
    "answer_outlived",
    "approval_missing",
    "detail_not_cited",
    "document_missing",
    "insurance_too_low",
    "licence_missing",
    "locate_ticket_missing",
    "names_differ",
    "owner_consent_missing",
    "photo_missing",
    "signature_open",
    "sketch_missing",
    "stamp_missing",
    "town_not_additional_insured",
    "upkeep_not_settled",
    "wrong_applicant",
]

FROM_ANOTHER = {"certificate of another office"}
TO_BE_SIGNED = {"application form", "owner consent", "hold harmless"}
NO_FIRM = "no firm file is given"


@check("document-missing", "A document is missing", reads=(keys.DOCS_REQUIRED,))
def document_missing(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a document that the town wants with the application and that is not attached.

    Why: an application that is not whole is not in the queue.
    """
    yield from listed(
        rules[keys.DOCS_REQUIRED],
        lambda document: attached(job, document.name),
        cure=lambda document: f"attach the {document.name}{titled(document.name)}",
    )


@check("sketch-missing", "The sketch is missing", reads=(walk.SKETCH_NEEDED,))
def sketch_missing(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag an application without the sketch that work of this size must have.

    Why: nobody at the counter sees the work in words.
    """
    there = bool(papers_of(job, {"sketch"}))
    cure = "attach a paper of the kind `sketch`; the packet draws it"
    yield present(rules[walk.SKETCH_NEEDED], there=there, what="a sketch", cure=cure)


@check(
    "signature-open",
    "A paper is not signed",
    standard="the paper's own signature line",
    idle="nothing attached wants a signature",
    asks="Is every paper that must be signed marked for signing?",
)
def signature_open(job: Job, _: RulesInForce, __: Study) -> Iterator[Finding]:
    """Flag an attached paper that wants a signature and has none.

    Why: an unsigned form is the commonest reason to be sent home from the counter.
    """
    for paper in papers_of(job, TO_BE_SIGNED):
        yield holds(
            ok=paper.signed,
            proposed="signed" if paper.signed else "not signed",
            limit="signed",
            item=paper.title,
            cure="have it signed before it goes in",
        )


@check("insurance-too-low", "The insurance is too low", reads=(keys.DOCS_INSURANCE,))
def insurance_too_low(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a cover that is not held, or held to a lower limit than the town asks for.

    Why: the town pays what the firm's insurer does not.
    """
    yield from covered(rules[keys.DOCS_INSURANCE], policies(job))


@check(
    "town-not-additional-insured",
    "The town is not named as additional insured",
    reads=(keys.DOCS_ADDITIONAL_INSURED,),
)
def town_not_additional_insured(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag liability insurance that does not name the town, in the town's words.

    Why: a town that is not named is sued alone.
    """
    rule = rules[keys.DOCS_ADDITIONAL_INSURED]
    wording = rule.sentences if rule.known else ()
    liability = longest(policies(job)).get("general liability")
    named = (liability.additional_insured if liability else None) or ""
    yield present(
        rule,
        there=any(words.casefold() in named.casefold() for words in wording),
        what=named or "the town named as additional insured",
        cure=f"have the insurer endorse: {' or '.join(wording)}",
    )


@check(
    "names-differ",
    "The firm's name is not the same on every paper",
    reads=(keys.DOCS_SAME_NAME,),
    idle=NO_FIRM,
    asks="Is the firm named alike on every paper?",
)
def names_differ(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a paper on which the firm's name is written differently, to the letter.

    Why: two names are two firms to whoever reads the certificate.
    """
    if job.firm:
        rule, name = rules[keys.DOCS_SAME_NAME], job.firm.name
        odd = {paper: other for paper, other in made_out_to(job) if other != name}
        for paper, other in odd.items():
            cure = f"have it made out to {name}"
            yield present(
                rule, there=False, what=f"{name} (it says {other})", item=paper, cure=cure
            )
        if not odd:
            yield present(rule, there=True, what=name)


@check(
    "licence-missing",
    "The license or registration is missing or runs out",
    reads=(keys.DOCS_LICENCE,),
)
def licence_missing(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag work by a firm without a licence the town takes, good to the last day of work.

    Why: a permit may only go to whoever is allowed to do the work.
    """
    rule = rules[keys.DOCS_LICENCE]
    licence = best_licence(job, rule.words if rule.known else ())
    held = licence.licence_class if licence else None
    yield one_of(rule, held, item="license", cure="register with the town before filing")
    if licence:
        yield on_or_after(
            rule,
            licence.until,
            job.dates.finish,
            item=f"{held} {licence.number}, good to",
            cure="renew it before the work",
        )


@check("wrong-applicant", "Someone else has to apply", reads=(keys.DOCS_WHO_APPLIES,))
def wrong_applicant(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag an applicant who is not among those who may apply.

    Why: the permit binds whoever signs for it.
    """
    rule = rules[keys.DOCS_WHO_APPLIES]
    trade = trade_of(job, rule.words) if rule.known else ""
    yield one_of(rule, trade or job.papers.applicant)


@check("stamp-missing", "An engineer's stamp is missing", reads=(keys.STAMP_NEEDED,))
def stamp_missing(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag drawings that no engineer stamps, where the town wants them stamped.

    Why: a drawing without the stamp it needs is not looked at.
    """
    rule, by = rules[keys.STAMP_NEEDED], bool(job.papers.stamped_by)
    cure = "have them stamped, and name the engineer in papers.stamped_by"
    yield present(rule, there=by, what="stamped", item="the drawings", cure=cure)


@check("owner-consent-missing", "The owner's consent is missing", reads=(keys.DOCS_CONSENT,))
def owner_consent_missing(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag an application without the owner's signed consent.

    Why: the hole stays the owner's to keep long after the firm has gone.
    """
    yield present(
        rules[keys.DOCS_CONSENT],
        there=job.papers.owner_consent,
        what="the owner's signed consent",
        item=job.site.owner,
        cure="have the owner sign",
    )


@check("photo-missing", "A photograph is missing", reads=(keys.DOCS_PHOTOS,))
def photo_missing(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a photograph that the town asks for by name and that is not there.

    Why: a photograph of the curb before the work settles who broke it.
    """
    shown = {photo.shows for photo in job.papers.photo}
    yield from listed(
        rules[keys.DOCS_PHOTOS],
        lambda photo: any(same_name(photo.name, name) for name in shown),
        cure=lambda photo: f"take it: {photo.name}",
    )


@check("detail-not-cited", "A town detail that governs is not cited", reads=(keys.DOCS_DETAILS,))
def detail_not_cited(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag a detail of the town's, with its revision, that governs the work and is not cited.

    Why: the crew builds what is cited, and the inspector holds it against the detail in force.
    """

    def cited(detail: Item) -> bool:
        return called(detail) in job.papers.details_cited

    yield from listed(rules[keys.DOCS_DETAILS], cited, cure=lambda detail: f"cite {called(detail)}")


@check(
    "approval-missing",
    "The word of another office is missing",
    reads=(duties.DOCS_PRIOR_APPROVAL,),
)
def approval_missing(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag another office that must approve first and whose certificate is not attached.

    Why: the counter does not begin to read before it is there.
    """
    titles = [paper.title.casefold() for paper in papers_of(job, FROM_ANOTHER)]
    yield from listed(
        rules[duties.DOCS_PRIOR_APPROVAL],
        lambda office: any(office.name.casefold() in title for title in titles),
        cure=lambda office: f"attach the certificate of {office.name}, its title naming it",
    )


@check(
    "agreement-missing",
    "An agreement that must be signed is missing",
    reads=(duties.DOCS_AGREEMENT,),
)
def agreement_missing(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag an agreement in writing that the town asks for and that is not attached.

    Why: the town wants it signed who keeps the outlet, and who pays if it floods.
    """
    for rule in rules[duties.DOCS_AGREEMENT].all:
        yield present(
            rule,
            there=bool(papers_of(job, {"hold harmless"})),
            what="the signed agreement",
            item=rule.source,
            cure="attach it as a paper of the kind `hold harmless`",
        )


@check(
    "upkeep-not-settled",
    "Nobody the town accepts keeps the outlet up",
    reads=(duties.OUTLET_WHO_MAINTAINS,),
)
def upkeep_not_settled(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag an outlet whose keeper is not named, or is none the town accepts.

    Why: an outlet that is nobody's is the town's.
    """
    yield one_of(
        rules[duties.OUTLET_WHO_MAINTAINS],
        job.outlet.maintained_by,
        item="kept up by",
        fits=keeps,
        cure="name the keeper as outlet.maintained_by",
    )


@check(
    "locate-ticket-missing",
    "The utility-locate ticket has no number",
    standard="one-call law: no digging without a ticket",
    asks="Is there a utility-locate ticket?",
)
def locate_ticket_missing(job: Job, _: RulesInForce, __: Study) -> Iterator[Finding]:
    """Ask for the number of the utility-locate ticket, which there must be before any digging.

    Why: without a ticket nobody has marked what lies in the way.
    """
    if job.locate.ticket:
        yield holds(ok=True, proposed=f"ticket {job.locate.ticket}", limit="a ticket number")
    else:
        why = "what is the ticket's number? It is needed before digging, not for filing"
        yield asked(why, item="ticket", of="the one-call center")


@check(
    "answer-outlived",
    "An answer of the town's no longer stands",
    standard="an answer holds for the edition it was given under",
    idle="no answer of the town's is used",
    asks="Do the town's answers still stand?",
)
def answer_outlived(job: Job, rules: RulesInForce, _: Study) -> Iterator[Finding]:
    """Flag an answer of the town's that is older than the rule it speaks of.

    Why: what was said on the telephone was said of the old rule.
    """
    for answer in job.answer:
        if answer.key in KEYS:
            lapsed = newer_edition(job, rules, answer)
            yield holds(
                ok=not lapsed,
                proposed=f"{answer.who}, by {answer.how}",
                limit=lapsed or "no newer edition",
                item=f"{answer.key}, {answer.on.isoformat()}",
                cure="ask again under the edition in force",
            )
