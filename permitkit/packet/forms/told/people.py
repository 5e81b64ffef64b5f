"""What a form may be told of the people and the place: applicant, firm, owner, lot, street."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.packet.forms.told.known import (
    UNKNOWN,
    Known,
    of_day,
    of_length,
    of_money,
    of_words,
    text,
)
from permitkit.packet.say import joined
from permitkit.units import Kind, write_money

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from permitkit.checks.judge import Judged
    from permitkit.model.papers import Firm, Licence, Policy

__all__ = ["people_and_place", "yes"]


def yes(told: bool) -> Known:  # noqa: FBT001 - a fact of the job
    """Return a yes or a no as a value."""
    return of_words(("yes" if told else "no",))


def people_and_place(judged: Judged) -> dict[str, Known]:
    """Return the values of people and place by name."""
    return {**_applicant(judged), **_firm(judged), **_cover(judged), **_lot(judged)}


def _applicant(judged: Judged) -> dict[str, Known]:
    job, firm = judged.job, judged.job.firm
    by_owner = job.papers.applicant == "owner" or firm is None
    return {
        "applicant": of_words((job.papers.applicant,)),
        "applicant name": text(job.site.owner if by_owner or firm is None else firm.name),
        "applicant address": UNKNOWN if by_owner or firm is None else text(firm.address),
        "applicant phone": text(job.site.owner_phone if by_owner or firm is None else firm.phone),
        "owner name": text(job.site.owner),
        "owner phone": text(job.site.owner_phone),
        "owner consent": yes(job.papers.owner_consent),
    }


def _firm(judged: Judged) -> dict[str, Known]:
    firm = judged.job.firm
    names = {
        "firm name": "name",
        "firm address": "address",
        "firm phone": "phone",
        "firm night phone": "phone_24h",
        "firm email": "email",
        "signer": "signer",
        "signer title": "signer_title",
    }
    return {told: text(getattr(firm, name, None)) for told, name in names.items()}


def _here(firm: Firm | None, place: str) -> tuple[list[Licence], list[Policy]]:
    """Return the licences and policies that count in a town."""
    if firm is None:
        return [], []
    licences = [one for one in firm.licence if one.town in {None, place}]
    return licences, [one for one in firm.policy if one.town in {None, place}]


def _longest(policies: Sequence[Policy], kind: str) -> Policy | None:
    """Return the policy of a kind that runs longest."""
    fit = [policy for policy in policies if policy.kind == kind]
    return max(fit, key=lambda policy: policy.until, default=None)


def _cover(judged: Judged) -> dict[str, Known]:
    licences, policies = _here(judged.job.firm, judged.job.town)
    liability = _longest(policies, "general liability")
    workers = _longest(policies, "workers compensation")
    bond = _longest(policies, "bond")
    return {
        "licence number": Known(joined([one.number for one in licences])),
        "licence kind": Known(joined(list(dict.fromkeys(one.licence_class for one in licences)))),
        "licence until": of_day(min((one.until for one in licences), default=None)),
        "insurance company": text(liability and liability.company),
        "insurance policy": text(liability and liability.number),
        "insurance limit": of_money(liability.each if liability else None),
        "insurance until": of_day(liability.until if liability else None),
        "workers compensation policy": text(workers and f"{workers.company} {workers.number}"),
        "bond company": text(bond and bond.company),
        "bond number": text(bond and f"{bond.number}, {write_money(bond.each)}"),
    }


def _lot(judged: Judged) -> Mapping[str, Known]:
    site, street = judged.job.site, judged.job.street
    title = judged.rules.sheets[0].title
    return {
        "site address": text(site.address),
        "parcel": text(site.parcel),
        "frontage": of_length(site.frontage, Kind.LENGTH),
        "street": text(street.name),
        "street class": of_words((street.street_class,)),
        "street authority": text(title if street.authority == "town" else street.authority),
        "street width": of_length(street.width, Kind.LENGTH),
        "speed": of_length(street.speed, Kind.SPEED),
        "parking": of_words((street.parking,)),
        "cross street": text(site.cross_street),
        "cross street distance": of_length(site.cross_street_distance, Kind.LENGTH),
        "town": text(title),
        "locate ticket": text(judged.job.locate.ticket),
        "locate called": of_day(judged.job.locate.called),
    }
