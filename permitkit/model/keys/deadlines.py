"""Rule keys of deadlines besides review, lead and validity."""

from __future__ import annotations

from permitkit.model.rules import Clock, RuleKey, ValueKind

__all__ = ["KEYS"]

DATES_APPLY_AHEAD = RuleKey(
    "dates.apply_ahead",
    ValueKind.SPAN,
    "How long before work must the application be in?",
    plain=True,
    times="wait",
)
DATES_NOTICE_TO = RuleKey(
    "dates.notice_to",
    ValueKind.WORDS,
    "To whom does notice of the work go?",
    clock=Clock.ISSUE,
    plain=True,
)
DATES_START_BY = RuleKey(
    "dates.start_by",
    ValueKind.SPAN,
    "Within what time must work begin?",
    clock=Clock.ISSUE,
    plain=True,
    times="due",
)
DATES_CLOSE_BY = RuleKey(
    "dates.close_by",
    ValueKind.SPAN,
    "Within what time must an opening be closed?",
    clock=Clock.WORK,
    plain=True,
    times="due",
)
DATES_RESTORE_BY = RuleKey(
    "dates.restore_by",
    ValueKind.SPAN,
    "Within what time must walk, curb and pavement be restored for good?",
    clock=Clock.WORK,
    plain=True,
    times="due",
)
DATES_COMPLETE_BY = RuleKey(
    "dates.complete_by",
    ValueKind.SPAN,
    "Within what time must all the work be finished?",
    clock=Clock.ISSUE,
    plain=True,
    times="due",
)
DATES_EXTENSION = RuleKey(
    "dates.extension",
    ValueKind.SPAN,
    "By how much may the permit be extended?",
    clock=Clock.ISSUE,
    plain=True,
)
DATES_INSPECTION_NOTICE = RuleKey(
    "dates.inspection_notice",
    ValueKind.SPAN,
    "How long before any inspection must it be called, where it has no notice of its own?",
    clock=Clock.ISSUE,
    plain=True,
    times="wait",
)
DATES_EMERGENCY = RuleKey(
    "dates.emergency",
    ValueKind.SPAN,
    "How soon after emergency work must a permit be asked for?",
    plain=True,
)
RESTORE_CURB_BACK = RuleKey(
    "restore.curb_back",
    ValueKind.YES_NO,
    "Must the curb be put back when the outlet's use ends?",
    plain=True,
)
RESTORE_CURB_BACK_WITHIN = RuleKey(
    "restore.curb_back_within",
    ValueKind.SPAN,
    "How soon after the use ends must the curb be put back?",
    plain=True,
    times="due",
)
DATES_OLD_OUTLETS = RuleKey(
    "dates.old_outlets_by",
    ValueKind.SPAN,
    "Within what time must a drain that is there already be removed or changed?",
    plain=True,
    times="due",
)

KEYS: tuple[RuleKey, ...] = (
    DATES_APPLY_AHEAD,
    DATES_NOTICE_TO,
    DATES_START_BY,
    DATES_CLOSE_BY,
    DATES_RESTORE_BY,
    DATES_COMPLETE_BY,
    DATES_EXTENSION,
    DATES_INSPECTION_NOTICE,
    DATES_EMERGENCY,
    RESTORE_CURB_BACK,
    RESTORE_CURB_BACK_WITHIN,
    DATES_OLD_OUTLETS,
)
