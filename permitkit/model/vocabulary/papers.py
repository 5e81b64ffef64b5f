"""Insurance and documents by the words towns and insurers use for them."""

from __future__ import annotations

import re

from permitkit.model.words import DocumentKind, PolicyKind, choices

__all__ = ["STANDS_FOR", "document_kind", "other_names", "policy_kind"]

_POLICIES = {
    "general liability": (
        "commercial general liability",
        "comprehensive general liability",
        "public liability",
        "liability",
    ),
    "automobile": ("auto", "auto liability", "automobile liability", "motor vehicle liability"),
    "employers liability": (
        "employer liability",
        "employers liability, accident",
        "employers liability, disease",
        "employers liability by accident",
        "employers liability by disease",
    ),
    "workers compensation": ("worker compensation", "workmens compensation", "workers comp"),
    "owners and contractors protective": (
        "owners protective",
        "owners and contractors protective liability",
    ),
    "umbrella": ("umbrella liability", "excess", "excess liability", "umbrella or excess"),
    "professional": ("professional liability", "errors and omissions"),
    "pollution": ("pollution liability",),
    "property damage": ("property damage liability",),
    "bodily injury": ("bodily injury liability",),
    "underground and collapse": (
        "explosion, collapse and underground",
        "underground/collapse",
        "collapse and underground",
        "xcu",
    ),
    "products and completed operations": ("completed operations",),
}
_DOCUMENTS = {
    "application form": ("application", "permit application", "application for permit"),
    "sketch": ("drawing", "drawings", "plan", "plans", "site plan", "plot plan", "sketch plan"),
    "certificate of insurance": (
        "insurance",
        "insurance certificate",
        "proof of insurance",
        "evidence of insurance",
        "certificate of liability insurance",
        "certificate of general liability",
        "certificate of liability",
    ),
    "additional insured endorsement": (
        "endorsement for additional insured",
        "endorsement of additional insured",
        "endorsement",
    ),
    "bond": ("surety bond", "performance bond", "permit bond", "street opening bond"),
    "owner consent": ("consent of the owner", "consent of owner", "owners consent"),
    "hold harmless": (
        "hold harmless agreement",
        "indemnity agreement",
        "indemnification",
        "agreement",
    ),
    "traffic plan": ("traffic control plan", "maintenance of traffic plan", "detour plan"),
    "photos": ("photo", "photographs", "photograph", "pictures"),
    "calculation": ("calculations", "drainage calculation", "drainage calculations"),
    "licence": ("license", "contractor licence", "contractor license", "registration"),
    "product sheet": ("cut sheet", "product data", "product data sheet", "catalogue sheet"),
    "town detail": ("standard detail", "detail", "town details"),
    "tree statement": ("tree permit", "foresters statement"),
}
_LEAD = ("a ", "the ", "signed ", "completed ", "copy of ", "owners signed ", "two ", "one ")

STANDS_FOR = {"bodily injury": "general liability", "property damage": "general liability"}
"""Covers that a policy of another kind holds as well: what general liability pays for."""


def _names(kinds: tuple[str, ...], others: dict[str, tuple[str, ...]]) -> dict[str, str]:
    """Return the kind that each word stands for."""
    named = {other: kind for kind, names in others.items() for other in names}
    return named | {kind: kind for kind in kinds}


def _plain(text: str) -> str:
    """Return a name in small letters, without the marks of the genitive."""
    return " ".join(re.sub("['\u2019]", "", text.casefold()).split())


_POLICY_OF = _names(choices(PolicyKind), _POLICIES)
_DOCUMENT_OF = _names(choices(DocumentKind), _DOCUMENTS)


def other_names(kind: str) -> tuple[str, ...]:
    """Return the other names that a kind of insurance or of paper goes by."""
    return _POLICIES.get(kind) or _DOCUMENTS.get(kind, ())


def policy_kind(name: str) -> str:
    """Return the kind of insurance that a name stands for; the name itself where none is known.

    Examples
    --------
    >>> policy_kind("Commercial General Liability"), policy_kind("worker's compensation")
    ('general liability', 'workers compensation')
    """
    plain = _plain(name)
    return _POLICY_OF.get(plain) or _POLICY_OF.get(plain.removesuffix(" insurance"), name)


def document_kind(name: str) -> str:
    """Return the kind of paper that a name stands for, or nothing where none is known.

    Examples
    --------
    >>> document_kind("signed application"), document_kind("fee worksheet")
    ('application form', '')
    """
    plain = _plain(name)
    while plain not in _DOCUMENT_OF:
        lead = next((lead for lead in _LEAD if plain.startswith(lead)), "")
        if not lead:
            return ""
        plain = plain.removeprefix(lead)
    return _DOCUMENT_OF[plain]
