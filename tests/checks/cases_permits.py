"""Cases of the checks of permits: needed, exempt by name or size, or refused."""

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
LOOKED_AT = rule("dates.inspections", items=[{"name": "rafters", "only_if": "asked for"}])

RUN_ON = rule("docs.insurance_until", span="90 days", clock="finish")
TO_THE_DAY = {"firm.policy.0.until": date(2026, 7, 29)}
A_DAY_SHORT = {"firm.policy.0.until": date(2026, 7, 28)}

CASES = [
    case("insurance-lapses", MEETS, TO_THE_DAY, RUN_ON, item="general"),
    case("insurance-lapses", FAILS, A_DAY_SHORT, RUN_ON, item="general"),
    case("document-missing", ASK, rules=rule("docs.required", items=AT_TIMES), item="bond"),
    case("document-missing", MEETS, BONDED, rule("docs.required", items=AT_TIMES), item="bond"),
    case("document-missing", FAILS, rules=ALWAYS, item="bond"),
    case("inspection-not-booked", ASK, rules=LOOKED_AT, item="rafters"),
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
