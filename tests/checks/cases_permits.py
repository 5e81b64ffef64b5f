"""Cases of checks of permits, exempt by name or size or refused, and of what is wanted at times."""

from __future__ import annotations

from datetime import date

from builder import GONE, case, rule
from cases_papers import APPLIED, FORM, PERMIT

from permitkit.model.verdict import Outcome

MEETS, FAILS, IDLE, ASK = Outcome.MEETS, Outcome.FAILS, Outcome.PASSES_OVER, Outcome.ASK

EDITION = "[[edition]]\nkey = 'docs.permit_needed'\n[[edition.case]]\n"
EXEMPT = rule("docs.permit_needed", stance="exempt")
STREET = PERMIT.replace("when = {{ {when} }}\n", "").format(cite="")
RANKED = PERMIT.format(when='outlet = "core"', cite="")


def exempt(**when: object) -> str:
    """Return a sheet with a permit for all work, and the work it exempts from it."""
    told = ", ".join(f"{name} = {value}" for name, value in when.items())
    case_ = f"when = {{ {told} }}\n" if told else ""
    return f"{STREET}{EDITION}{case_}stance = 'exempt'\ncite = 'book 1'\n"


SMALL = exempt(walk_area='{ up_to = "100 sq ft" }')
LARGE = exempt(walk_area='{ up_to = "1 sq ft" }')
ROOF_ALONE = {"drain.inflow.2": GONE}
NONE: dict[str, object] = {"papers.applied_permits": []}
ROOF = exempt(water='"roof"')
UNKNOWN = exempt(pavement_rating="{ up_to = 60 }")
OWN_WHEN = exempt().replace(STREET, RANKED)
BY_ITS_NAME = exempt(permit='"grading"').replace(STREET, RANKED)

AT_TIMES = [{"name": "bond", "only_if": "land is disturbed"}]
ALWAYS = rule("docs.required", items=[*AT_TIMES, "bond"])
BONDED = {"papers.attachment+": {"kind": "bond", "title": "Bond"}}
NOT_PLANNED: dict[str, object] = {"dates.inspections": ["final"]}
TRENCH = rule("dates.inspections", items=["open trench"])
TRENCH_AT_TIMES = rule(
    "dates.inspections", items=[{"name": "open trench", "only_if": "it is deeper than 5 ft"}]
)
LOOKED_AT = rule("dates.inspections", items=[{"name": "rafters", "only_if": "asked for"}])

RUN_ON = rule("docs.insurance_until", span="90 days", clock="finish")
TO_THE_DAY = {"firm.policy.0.until": date(2026, 7, 29)}
A_DAY_SHORT = {"firm.policy.0.until": date(2026, 7, 28)}

SIZED = """[[edition]]
key = "packet.sketch"
[[edition.case]]
when = { trench = { over = "5 ft" } }
yes = true
cite = "book 1"
"""
LARGER = SIZED.replace("5 ft", "500 ft")
NO_SKETCH = {"papers.attachment.3": GONE}
REDUCER = rule("pipe.fittings", items=["Reducer behind the walk"])
HAS_REDUCER = {"outlet.fittings": ["reducer behind the walk"]}
HAS_NONE: dict[str, object] = {"outlet.fittings": []}
FULL = rule("walk.removal_width", one_of=["the full width"])
SCORED = rule("walk.removal_width", one_of=["to the score line"])
PART = {"cut.removal": "part panel", "cut.length": "2 ft"}
BESIDE = rule("outlet.beside_drive", yes=True)
DRIVE_ALONE = {"feature": [{"kind": "drive", "near": "20 ft", "far": "30 ft"}]}
BOTH_SIDES = DRIVE_ALONE | {
    "existing": [{"station": "35 ft", "size": "3 in", "plan": "keep", "in_use": True}]
}

PLUMBER = rule("docs.who_applies", one_of=["licensed plumber", "sewer tapper"])
LICENSED = {"firm.licence.0.licence_class": "Licensed plumber"}

CASES = [
    case("wrong-applicant", FAILS, rules=PLUMBER),
    case("wrong-applicant", MEETS, LICENSED, PLUMBER),
    case("wrong-applicant", FAILS, LICENSED | {"papers.applicant": "owner"}, PLUMBER),
    case("sketch-missing", MEETS),
    case("sketch-missing", MEETS, rules=SIZED),
    case("sketch-missing", FAILS, NO_SKETCH, SIZED),
    case("sketch-missing", IDLE, NO_SKETCH, LARGER, alone=True),
    case("fitting-missing", IDLE),
    case("fitting-missing", ASK, rules=REDUCER),
    case("fitting-missing", MEETS, HAS_REDUCER, REDUCER),
    case("fitting-missing", FAILS, HAS_NONE, REDUCER),
    case("walk-taken-out-too-narrow", IDLE),
    case("walk-taken-out-too-narrow", MEETS, rules=FULL),
    case("walk-taken-out-too-narrow", MEETS, rules=SCORED),
    case("walk-taken-out-too-narrow", FAILS, PART, FULL),
    case("walk-taken-out-too-narrow", IDLE, PART, SCORED),
    case("drive-side-without-outlet", IDLE),
    case("drive-side-without-outlet", FAILS, DRIVE_ALONE, BESIDE, item="right of"),
    case("drive-side-without-outlet", MEETS, BOTH_SIDES, BESIDE),
    case("insurance-lapses", MEETS, TO_THE_DAY, RUN_ON, item="general"),
    case("insurance-lapses", FAILS, A_DAY_SHORT, RUN_ON, item="general"),
    case("document-missing", ASK, rules=rule("docs.required", items=AT_TIMES), item="bond"),
    case("document-missing", MEETS, BONDED, rule("docs.required", items=AT_TIMES), item="bond"),
    case("document-missing", FAILS, rules=ALWAYS, item="bond"),
    case("inspection-not-booked", ASK, rules=LOOKED_AT, item="rafters"),
    case("inspection-not-booked", ASK, NOT_PLANNED, TRENCH_AT_TIMES, item="open trench"),
    case("inspection-not-booked", FAILS, NOT_PLANNED, TRENCH, item="open trench"),
    case("permit-missing", IDLE, rules=exempt(), item="Grading"),
    case("permit-missing", IDLE, rules=SMALL, item="Grading"),
    case("permit-missing", FAILS, rules=LARGE, item="Grading"),
    case("permit-missing", ASK, rules=UNKNOWN, item="Grading"),
    case("permit-missing", MEETS, APPLIED, UNKNOWN, item="Grading"),
    case("permit-missing", FAILS, rules=OWN_WHEN, item="Grading"),
    case("permit-missing", IDLE, rules=BY_ITS_NAME, item="Grading"),
    case("permit-missing", MEETS, rules=EXEMPT, item="Street"),
    case("permit-missing", IDLE, ROOF_ALONE, ROOF, item="Grading"),
    case("permit-missing", FAILS, rules=ROOF, item="Grading"),
    case("permit-refused", IDLE),
    case("permit-refused", MEETS, rules=EXEMPT),
    case("permit-refused", MEETS, rules=rule("docs.permit_needed", stance="required")),
    case("permit-refused", FAILS, NONE, rule("docs.permit_needed", stance="required")),
    case("permit-refused", FAILS, rules=rule("docs.permit_needed", stance="barred")),
    case("permit-refused", ASK, rules=rule("docs.permit_needed", ask="clerk")),
    case("form-outdated", IDLE, {"papers.attachment": [FORM]}, exempt()),
]
