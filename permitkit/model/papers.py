"""The papers: the firm, attachments, photographs, answers, waivers, payments, rounds."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal

from pydantic import AfterValidator, BeforeValidator

from permitkit.model.frozen import Day, Frozen, Money, Name, Percent, Text
from permitkit.model.vocabulary.papers import policy_kind
from permitkit.model.words import Applicant, DocumentKind, PolicyKind

if TYPE_CHECKING:
    from permitkit.units import Measure

__all__ = [
    "Answer",
    "Attachment",
    "Comment",
    "Firm",
    "Licence",
    "Papers",
    "Payment",
    "Photo",
    "PhotoArrow",
    "Policy",
    "Round",
    "WaiverAsked",
]


def _policy(kind: object) -> object:
    """Return the kind of insurance that a name stands for."""
    return policy_kind(kind) if isinstance(kind, str) else kind


class Policy(Frozen):
    """An insurance policy or bond with its limit and last day.

    `project` is what it pays in all for this project alone.

    One made out for a town (`town` is its rule sheet's name) counts there only; of those that
    count, the one that runs longest is held against the rule.
    """

    kind: Annotated[PolicyKind, BeforeValidator(_policy)]
    company: Name
    number: Name
    each: Money
    aggregate: Money | None = None
    project: Money | None = None
    until: Day
    named: Name
    additional_insured: Text | None = None
    endorsement: Name | None = None
    town: Name | None = None


class Licence(Frozen):
    """A licence or registration and where it counts (`town` empty: everywhere)."""

    licence_class: Name
    number: Name
    until: Day
    named: Name
    town: Name | None = None


class Firm(Frozen):
    """The firm's own particulars, kept once for all jobs."""

    name: Name
    address: Name
    phone: Name
    phone_24h: Name
    email: Name
    signer: Name
    signer_title: Name
    policy: tuple[Policy, ...] = ()
    licence: tuple[Licence, ...] = ()


class Attachment(Frozen):
    """A document that goes in with the packet.

    `file` stands beside the job; where none is named, the packet itself draws it or it goes in on
    paper.
    """

    kind: DocumentKind
    title: Name
    file: Name | None = None
    number: Name | None = None
    named: Name | None = None
    edition: Name | None = None
    signed: bool = False


def _within(share: Measure) -> Measure:
    """Return a share of a picture that lies on it."""
    if share.si > 1:
        message = "a share of the upright picture, from 0 % to 100 %"
        raise ValueError(message)
    return share


class PhotoArrow(Frozen):
    """An arrow to a place on an upright photograph: so far from its left edge, so far down."""

    across: Annotated[Percent, AfterValidator(_within)]
    down: Annotated[Percent, AfterValidator(_within)]
    says: Name | None = None


class Photo(Frozen):
    """A named site photograph, and arrows to what it is taken for."""

    shows: Name
    taken: Day
    file: Name | None = None
    caption: Text | None = None
    arrow: tuple[PhotoArrow, ...] = ()


class Answer(Frozen):
    """What the town said about an open question, for this job only.

    The value fields are those of a rule case; `value` holds them as written.
    """

    key: Name
    value: dict[str, object]
    who: Name
    how: Name
    on: Day
    note: Text | None = None


class WaiverAsked(Frozen):
    """A fault the applicant asks the town to accept."""

    check: Name
    item: Name | None = None
    reason: Text


class Payment(Frozen):
    """A sum stated or paid; `line` names the town's line it pays, where one may be chosen."""

    what: Literal["fee", "deposit", "bond"]
    amount: Money
    how: Name | None = None
    receipt: Name | None = None
    line: Name | None = None
    permit: Name | None = None


class Comment(Frozen):
    """One comment of the town's reviewer, and the reply."""

    number: Name
    says: Text
    reply: Text
    sheets: tuple[Name, ...] = ()


class Round(Frozen):
    """One return of the packet."""

    revision: Name
    sent: Day
    returned: Day | None = None
    changed: tuple[Text, ...] = ()
    comment: tuple[Comment, ...] = ()


class Papers(Frozen):
    """Documents that ride with the job, and how it is asked for.

    `more_time` says whether the permit's time is to be extended, asked for in time or late, and
    `hurry` whether a quick review is asked for; `stamped_by` names the engineer who stamps it.
    """

    applicant: Applicant = "contractor"
    owner_occupier: bool | None = None
    more_time: Literal["none", "in time", "late"] = "none"
    hurry: bool = False
    stamped_by: Name | None = None
    applied_permits: tuple[Name, ...] | None = None
    owner_consent: bool = False
    details_cited: tuple[Name, ...] = ()
    tree_statement: bool = False
    attachment: tuple[Attachment, ...] = ()
    photo: tuple[Photo, ...] = ()
