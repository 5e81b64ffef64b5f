"""Rule keys of who does what, what is owed besides fees, and what the papers must show."""

from __future__ import annotations

from permitkit.model.rules import RuleKey, Stacks, Stage, ValueKind
from permitkit.model.vocabulary.trade import GOVERNS, PARTIES, SECURITIES

__all__ = ["KEYS"]

PERMIT_NEEDED = RuleKey(
    "docs.permit_needed",
    ValueKind.STANCE,
    "Is a permit needed for this work, is it exempt (by name or size), or is none given?",
    words=("required", "exempt", "barred"),
    stage=Stage.SIZE,
    plain=True,
)
DOCS_PRIOR_APPROVAL = RuleKey(
    "docs.prior_approval",
    ValueKind.ITEMS,
    "Which other office must approve first?",
    stacks=Stacks.ALL,
    plain=True,
    stage=Stage.SIZE,
)
DOCS_SKETCH_SHOWS = RuleKey(
    "docs.sketch_shows",
    ValueKind.ITEMS,
    "What must the sketch show?",
    stacks=Stacks.ALL,
    plain=True,
    stage=Stage.SIZE,
)
DOCS_APPLICATION_STATES = RuleKey(
    "docs.application_states",
    ValueKind.ITEMS,
    "What must the application state?",
    stacks=Stacks.ALL,
    plain=True,
    stage=Stage.SIZE,
)
DOCS_COPIES = RuleKey(
    "docs.copies",
    ValueKind.LIMIT,
    "How many copies must go in?",
    plain=True,
    stage=Stage.SIZE,
)
DOCS_SECURITY = RuleKey(
    "docs.security",
    ValueKind.WORDS,
    "Which kinds of security does the town take?",
    words=tuple(SECURITIES),
    trade=SECURITIES,
    own_words=True,
    plain=True,
    stage=Stage.SIZE,
)
DOCS_REGISTRATION = RuleKey(
    "docs.registration",
    ValueKind.SENTENCES,
    "Must the firm be registered with the town, and how?",
    plain=True,
    stage=Stage.SIZE,
)
DOCS_AGREEMENT = RuleKey(
    "docs.agreement",
    ValueKind.SENTENCES,
    "What must the owner or the firm agree to in writing (indemnity, upkeep, a recorded paper)?",
    stacks=Stacks.ALL,
    plain=True,
    stage=Stage.SIZE,
)
DOCS_GOVERNS = RuleKey(
    "docs.governs",
    ValueKind.WORDS,
    "Which governs where text and drawing differ?",
    words=tuple(GOVERNS),
    trade=GOVERNS,
    own_words=True,
    plain=True,
)
DOCS_VARIANCE = RuleKey(
    "docs.variance",
    ValueKind.SENTENCES,
    "On what grounds, and of whom, may an exception be asked?",
    plain=True,
)
OUTLET_WHO_CUTS = RuleKey(
    "outlet.who_cuts",
    ValueKind.WORDS,
    "Who may cut or core the curb?",
    words=tuple(PARTIES),
    trade=PARTIES,
    own_words=True,
    plain=True,
    stage=Stage.SIZE,
)
OUTLET_WHO_MAINTAINS = RuleKey(
    "outlet.who_maintains",
    ValueKind.WORDS,
    "Who keeps the pipe and the outlet up once the work is accepted?",
    words=tuple(PARTIES),
    trade=PARTIES,
    own_words=True,
    plain=True,
)
RESTORE_BY = RuleKey(
    "restore.by",
    ValueKind.WORDS,
    "Who restores walk, curb and pavement?",
    words=tuple(PARTIES),
    trade=PARTIES,
    own_words=True,
    plain=True,
)
PENALTY = RuleKey(
    "fees.penalty",
    ValueKind.FEES,
    "What does a breach, or work without a permit, cost?",
    stage=Stage.SIZE,
    plain=True,
)
REGISTRATION_FEE = RuleKey(
    "fees.registration",
    ValueKind.FEES,
    "What do a license or a registration cost, and for how long?",
    stage=Stage.SIZE,
    plain=True,
)

KEYS: tuple[RuleKey, ...] = (
    PERMIT_NEEDED,
    DOCS_PRIOR_APPROVAL,
    DOCS_SKETCH_SHOWS,
    DOCS_APPLICATION_STATES,
    DOCS_COPIES,
    DOCS_SECURITY,
    DOCS_REGISTRATION,
    DOCS_AGREEMENT,
    DOCS_GOVERNS,
    DOCS_VARIANCE,
    OUTLET_WHO_CUTS,
    OUTLET_WHO_MAINTAINS,
    RESTORE_BY,
    PENALTY,
    REGISTRATION_FEE,
)
