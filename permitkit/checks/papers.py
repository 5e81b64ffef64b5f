"""The papers a job brings, and what the firm holds: policies, licences, answers of the town's."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.keys import KEYS
from permitkit.model.rules import Clock
from permitkit.model.vocabulary.papers import document_kind
from permitkit.model.vocabulary.trade import PARTIES, SECURITIES
from permitkit.study.days import dated
from permitkit.study.in_force.fits import same_name
from permitkit.study.in_force.layer import edition_on

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.model.job import Job
    from permitkit.model.papers import Answer, Attachment, Licence, Policy
    from permitkit.model.values import Item
    from permitkit.study.in_force import RulesInForce

__all__ = [
    "attached",
    "best_licence",
    "called",
    "keeps",
    "made_out_to",
    "named_in",
    "newer_edition",
    "papers_of",
    "policies",
    "securities",
    "titled",
    "trade_of",
]

BY_THE_FIRM = {
    "application form",
    "certificate of insurance",
    "additional insured endorsement",
    "bond",
    "licence",
}


def policies(job: Job) -> list[Policy]:
    """Return the firm's policies that count in this town."""
    held = job.firm.policy if job.firm else ()
    return [policy for policy in held if policy.town in {None, job.town}]


def best_licence(job: Job, classes: tuple[str, ...]) -> Licence | None:
    """Return the licence that counts in this town, of a class it takes, that runs longest."""
    held = job.firm.licence if job.firm else ()
    fit = [one for one in held if one.town in {None, job.town} and _taken(one, classes)]
    return max(fit, key=lambda licence: licence.until, default=None)


def trade_of(job: Job, trades: tuple[str, ...]) -> str:
    """Return the one of some trades that a contractor who applies is licensed in, if any is."""
    if job.papers.applicant != "contractor":
        return ""
    held = job.firm.licence if job.firm else ()
    classes = {one.licence_class.casefold() for one in held if one.town in {None, job.town}}
    return next((trade for trade in trades if trade.casefold() in classes), "")


def securities(job: Job) -> list[str]:
    """Return the kinds of security given, in the words a sheet may take: a bond, a payment."""
    bonded = ["surety bond"] if any(policy.kind == "bond" for policy in policies(job)) else []
    paid = [each.how for each in job.payment if each.what in {"deposit", "bond"} and each.how]
    return [*bonded, *(how for how in dict.fromkeys(paid) if how.casefold() in SECURITIES)]


def _taken(licence: Licence, classes: tuple[str, ...]) -> bool:
    """Tell whether a licence is of a class a town takes, upper or lower case alike."""
    return any(same_name(licence.licence_class, word) for word in classes)


def named_in(word: str, text: str) -> bool:
    """Tell whether a text holds a word, upper or lower case alike."""
    return word.casefold() in text.casefold()


def keeps(word: str, keeper: str) -> bool:
    """Tell whether a keeper as the job names one is the party a sheet's word stands for."""
    return any(named_in(party, keeper) for party in (word, *PARTIES.get(word, ())))


def papers_of(job: Job, kinds: set[str]) -> list[Attachment]:
    """Return the attached papers of some kinds."""
    return [paper for paper in job.papers.attachment if paper.kind in kinds]


def attached(job: Job, name: str) -> bool:
    """Tell whether a paper is attached: of the kind its name stands for, or titled by the name."""
    papers, kind = job.papers.attachment, document_kind(name)
    return any(paper.kind == kind or named_in(name, paper.title) for paper in papers)


def titled(name: str) -> str:
    """Return how a paper is known for what it is where no kind of paper has its name."""
    return "" if document_kind(name) else ", its title naming it"


def made_out_to(job: Job) -> Iterator[tuple[str, str]]:
    """Yield each paper made out to the firm, with the name on it."""
    for policy in policies(job):
        yield f"{policy.kind} policy {policy.number}", policy.named
    for licence in job.firm.licence if job.firm else ():
        yield f"license {licence.number}", licence.named
    for paper in papers_of(job, BY_THE_FIRM):
        yield paper.title, paper.named or ""


def called(detail: Item) -> str:
    """Return a detail's number with its revision, as a job cites it."""
    return f"{detail.number} rev {detail.revision}" if detail.revision else detail.number


def newer_edition(job: Job, rules: RulesInForce, answer: Answer) -> str:
    """Return what has overtaken an answer, or nothing where it stands.

    The sheets are asked when their editions began, and not what they say.
    """
    clocks = {Clock.ISSUE: job.dates.issue_expected, Clock.WORK: job.dates.start}
    day = clocks.get(KEYS[answer.key].clock) or job.filing
    for sheet in rules.sheets:
        rule = sheet.rules.get(answer.key)
        edition = edition_on(rule, day) if rule else None
        if edition and edition.since and edition.since > answer.on:
            return f"{sheet.title}: a newer edition began on {dated(edition.since)}"
    return ""
