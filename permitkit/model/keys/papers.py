"""Rule keys of documents, dates, money and the packet itself."""

from __future__ import annotations

from permitkit.model.rules import Clock, RuleKey, Stacks, Stage, ValueKind
from permitkit.model.words import PARTS

__all__ = ["KEYS"]

DOCS_REQUIRED = RuleKey(
    "docs.required",
    ValueKind.ITEMS,
    "Which documents must go in with the application?",
    stacks=Stacks.ALL,
    stage=Stage.SIZE,
)
DOCS_PHOTOS = RuleKey(
    "docs.photos",
    ValueKind.ITEMS,
    "Which photographs must go in?",
    stacks=Stacks.ALL,
    plain=True,
    stage=Stage.SIZE,
)
DOCS_DETAILS = RuleKey(
    "docs.details",
    ValueKind.ITEMS,
    "Which of the town's details govern this work, with number and revision?",
    stacks=Stacks.ALL,
    stage=Stage.SIZE,
)
DOCS_INSURANCE = RuleKey(
    "docs.insurance",
    ValueKind.INSURANCE,
    "What insurance, to what limits, must the firm carry?",
    stage=Stage.SIZE,
)
DOCS_INSURANCE_UNTIL = RuleKey(
    "docs.insurance_until",
    ValueKind.WORDS,
    "Until when must insurance run, or how long after the finish?",
    words=("finish", "permit end", "guarantee end"),
    also=ValueKind.SPAN,
)
DOCS_CANCELLATION = RuleKey(
    "docs.cancellation_notice",
    ValueKind.SPAN,
    "How long before an insurance or a bond is cancelled must the town be told?",
    plain=True,
)
DOCS_ADDITIONAL_INSURED = RuleKey(
    "docs.additional_insured",
    ValueKind.SENTENCES,
    "Must the town be named as additional insured, and in what words?",
    plain=True,
    stage=Stage.SIZE,
)
DOCS_LICENCE = RuleKey(
    "docs.licence",
    ValueKind.WORDS,
    "Which license or registration must the firm hold?",
    stage=Stage.SIZE,
)
DOCS_WHO_APPLIES = RuleKey(
    "docs.who_applies",
    ValueKind.WORDS,
    "Who may apply (owner, contractor, utility, or a trade as the firm's license names it)?",
    plain=True,
    stage=Stage.SIZE,
)
DOCS_CONSENT = RuleKey(
    "docs.consent",
    ValueKind.YES_NO,
    "Must the owner's signed consent go in?",
    stage=Stage.SIZE,
)
DOCS_SAME_NAME = RuleKey(
    "docs.same_name",
    ValueKind.YES_NO,
    "Must the firm's name be letter for letter the same on every paper?",
    plain=True,
)
DATES_REVIEW = RuleKey(
    "dates.review",
    ValueKind.SPAN,
    "How long does the town take to review an application?",
)
DATES_LEAD = RuleKey(
    "dates.lead",
    ValueKind.SPAN,
    "How long before work must the town be told?",
    clock=Clock.ISSUE,
    times="wait",
)
DATES_VALIDITY = RuleKey(
    "dates.validity",
    ValueKind.SPAN,
    "How long is the permit good for, and from what day?",
    clock=Clock.ISSUE,
    times="due",
)
DATES_GUARANTEE = RuleKey(
    "dates.guarantee",
    ValueKind.SPAN,
    "How long does the firm answer for the work?",
    clock=Clock.ISSUE,
    times="due",
)
DATES_CONCRETE = RuleKey(
    "dates.concrete_season",
    ValueKind.SEASON,
    "When may no concrete be placed or street opened?",
    clock=Clock.WORK,
    plain=True,
)
DATES_LOCATE_WAIT = RuleKey(
    "dates.locate_wait",
    ValueKind.SPAN,
    "How long must one wait after the utility-locate call?",
    clock=Clock.WORK,
    times="wait",
)
DATES_LOCATE_LIFE = RuleKey(
    "dates.locate_life",
    ValueKind.SPAN,
    "How long is a locate ticket good for?",
    clock=Clock.WORK,
    times="due",
)
DATES_PAVEMENT = RuleKey(
    "dates.pavement_age",
    ValueKind.SPAN,
    "How long may new pavement not be cut?",
    clock=Clock.WORK,
    plain=True,
)
DATES_INSPECTIONS = RuleKey(
    "dates.inspections",
    ValueKind.ITEMS,
    "Which inspections must be called, with what notice?",
    clock=Clock.ISSUE,
    stacks=Stacks.ALL,
)
FEES_LINES = RuleKey(
    "fees.lines",
    ValueKind.FEES,
    "What are the fees?",
    stage=Stage.SIZE,
)
FEES_DEPOSIT = RuleKey(
    "fees.deposit",
    ValueKind.FEES,
    "What deposit is held?",
    stage=Stage.SIZE,
)
FEES_BOND = RuleKey(
    "fees.bond",
    ValueKind.FEES,
    "What bond is asked for?",
    stage=Stage.SIZE,
)
SAY_CONDITIONS = RuleKey(
    "say.conditions",
    ValueKind.SENTENCES,
    "Which conditions must be printed on the application?",
    stacks=Stacks.ALL,
    plain=True,
    stage=Stage.SIZE,
)
SAY_CAUTIONS = RuleKey(
    "say.cautions",
    ValueKind.SENTENCES,
    "Which cautions belong on the crew's page and the notes?",
    stacks=Stacks.ALL,
    plain=True,
    stage=Stage.SIZE,
)
PACKET_ORDER = RuleKey(
    "packet.order",
    ValueKind.ORDER,
    "In what order does the counter want the sheets?",
    words=PARTS,
    plain=True,
)
PACKET_FILES = RuleKey(
    "packet.files",
    ValueKind.ITEMS,
    "What does the portal allow: size, name, page size, attached files?",
    stacks=Stacks.ALL,
    plain=True,
)
STAMP_NEEDED = RuleKey(
    "packet.stamp",
    ValueKind.YES_NO,
    "Must a licensed engineer stamp the drawings?",
    stage=Stage.SIZE,
    plain=True,
)

KEYS: tuple[RuleKey, ...] = (
    DOCS_REQUIRED,
    DOCS_PHOTOS,
    DOCS_DETAILS,
    DOCS_INSURANCE,
    DOCS_INSURANCE_UNTIL,
    DOCS_CANCELLATION,
    DOCS_ADDITIONAL_INSURED,
    DOCS_LICENCE,
    DOCS_WHO_APPLIES,
    DOCS_CONSENT,
    DOCS_SAME_NAME,
    DATES_REVIEW,
    DATES_LEAD,
    DATES_VALIDITY,
    DATES_GUARANTEE,
    DATES_CONCRETE,
    DATES_LOCATE_WAIT,
    DATES_LOCATE_LIFE,
    DATES_PAVEMENT,
    DATES_INSPECTIONS,
    FEES_LINES,
    FEES_DEPOSIT,
    FEES_BOND,
    SAY_CONDITIONS,
    SAY_CAUTIONS,
    PACKET_ORDER,
    PACKET_FILES,
    STAMP_NEEDED,
)
