"""Cases of the checks of documents, dates and money."""

from __future__ import annotations

from datetime import date

from builder import EMITTER, GONE, NOTCH, case, rule

from permitkit.model.verdict import Outcome

MEETS, FAILS, IDLE, ASK = Outcome.MEETS, Outcome.FAILS, Outcome.PASSES_OVER, Outcome.ASK

TARN = {"street.name": "Tarn Road"}
ON_TARN_ROAD = TARN | {"papers.applied_permits": ["row", "county-street"]}
PERMIT = """[[permit]]
id = "grading"
title = "Grading permit"
issuer = "Town of Bench"
when = {{ {when} }}
form = "B-1"
form_edition = "2026-01"
{cite}
"""
NEEDED = PERMIT.format(when='outlet = "core"', cite='cite = "book 1"')
PERHAPS = PERMIT.format(when="pavement_rating = { up_to = 60 }", cite="")
SHEET_OF_ITS_OWN = PERMIT.format(when='outlet = "core"', cite="")
APPLIED = {"papers.applied_permits": ["street", "grading"]}
FORM = {"kind": "application form", "title": "Grading form", "number": "B-1", "signed": True}
BY_LAW = '[{ kind = "workers compensation", by_law = true }]'
PERSON = '[{ kind = "general liability", each = 1_000_000, person = 500_000 }]'
CUT = {"cut.pavement_cut": "2 ft", "cut.trench_width": "1 ft"}
ANSWER = {"key": "core.bit", "value": {"at_most": "5 in"}, "who": "clerk", "how": "letter"}
COUNTY_FIRST = rule("docs.prior_approval", items=["county road office"])
COUNTY_WORD = {
    "kind": "certificate of another office",
    "title": "Letter of the County Road Office",
}
AGREED = rule("docs.agreement", say=["The owner keeps the outlet up."])
HARMLESS = {"kind": "hold harmless", "title": "Agreement on upkeep", "signed": True}
NEWER = """[[edition]]
key = "core.bit"
since = 2026-02-01
[[edition.case]]
at_most = "4 in"
cite = "book 1"
"""
TO_BE_SET = """[[edition]]
key = "fees.lines"
[[edition.case]]
cite = "book 1"
[[edition.case.line]]
name = "review"
ask = "counter"
"""

DOCUMENTS = [
    case("stamp-missing", IDLE),
    case("stamp-missing", FAILS, rules=rule("packet.stamp", yes=True)),
    case("stamp-missing", MEETS, {"papers.stamped_by": "E. Ng"}, rule("packet.stamp", yes=True)),
    case("stamp-missing", ASK, rules=rule("packet.stamp", ask="clerk")),
    case("permit-missing", MEETS),
    case("permit-missing", MEETS, {"papers.applied_permits": GONE}),
    case("permit-missing", FAILS, {"papers.applied_permits": []}),
    case("permit-missing", FAILS, rules=NEEDED),
    case("permit-missing", MEETS, APPLIED, NEEDED),
    case("permit-missing", ASK, rules=PERHAPS),
    case("permit-missing", MEETS, APPLIED, SHEET_OF_ITS_OWN),
    case("permit-missing", FAILS, TARN, base=NOTCH, item="County"),
    case("permit-missing", MEETS, ON_TARN_ROAD, base=NOTCH, item="County"),
    case("form-outdated", MEETS),
    case("form-outdated", FAILS, {"papers.attachment.0.edition": "2024-09"}),
    case("form-outdated", FAILS, {"papers.attachment.0.edition": GONE}),
    case("form-outdated", FAILS, {"papers.attachment+": FORM}, SHEET_OF_ITS_OWN, item="B-1"),
    case("form-outdated", IDLE, {"papers.attachment.0": GONE}),
    case("document-missing", MEETS),
    case("document-missing", FAILS, {"papers.attachment.3": GONE}, item="sketch"),
    case("document-missing", FAILS, rules=rule("docs.required", items=["bond"]), item="bond"),
    case("document-missing", ASK, rules=rule("docs.required", ask="counter")),
    case("signature-open", MEETS),
    case("signature-open", FAILS, {"papers.attachment.0.signed": False}),
    case("insurance-too-low", MEETS),
    case("insurance-too-low", FAILS, {"firm.policy.0.each": 999_999}),
    case("insurance-too-low", FAILS, {"firm.policy.0.aggregate": 1_999_999}),
    case("insurance-too-low", FAILS, {"firm.policy.0.aggregate": GONE}),
    case("insurance-too-low", FAILS, {"firm.policy": []}),
    case(
        "insurance-too-low",
        MEETS,
        rules=f'docs.insurance = {{ covers = {BY_LAW}, cite = "book 1" }}',
    ),
    case(
        "insurance-too-low",
        MEETS,
        rules=f'docs.insurance = {{ covers = {PERSON}, cite = "book 1" }}',
    ),
    case("insurance-too-low", ASK, rules=rule("docs.insurance", ask="counter")),
    case("town-not-additional-insured", MEETS),
    case("town-not-additional-insured", FAILS, {"firm.policy.0.additional_insured": GONE}),
    case(
        "town-not-additional-insured", FAILS, {"firm.policy.0.additional_insured": "Town of Mill"}
    ),
    case("town-not-additional-insured", FAILS, {"firm.policy": []}),
    case("town-not-additional-insured", IDLE, rules=rule("docs.additional_insured", no_rule=True)),
    case("names-differ", MEETS),
    case("names-differ", FAILS, {"firm.policy.0.named": "Larkspur & Vane Drainage"}),
    case("names-differ", FAILS, {"firm.licence.0.named": "Larkspur and Vane Drainage, Inc."}),
    case("names-differ", FAILS, {"papers.attachment.0.named": GONE}),
    case("names-differ", IDLE, {"firm": GONE}),
    case("licence-missing", MEETS),
    case("licence-missing", FAILS, {"firm.licence": []}),
    case("licence-missing", FAILS, {"firm": GONE}),
    case("licence-missing", FAILS, {"firm.licence.0.town": "sorrel-flats"}),
    case("licence-missing", MEETS, {"firm.licence.0.until": date(2026, 4, 30)}),
    case("licence-missing", FAILS, {"firm.licence.0.until": date(2026, 4, 29)}),
    case("licence-missing", ASK, rules=rule("docs.licence", ask="clerk")),
    case("wrong-applicant", MEETS),
    case("wrong-applicant", FAILS, {"papers.applicant": "utility"}),
    case("owner-consent-missing", MEETS),
    case("owner-consent-missing", FAILS, {"papers.owner_consent": False}),
    case("photo-missing", MEETS),
    case("photo-missing", FAILS, {"papers.photo.0": GONE}, item="curb face"),
    case("detail-not-cited", MEETS),
    case(
        "detail-not-cited", FAILS, {"papers.details_cited": ["M-2 rev D", "M-4 rev A", "M-7 rev C"]}
    ),
    case("detail-not-cited", MEETS, base=NOTCH),
    case("approval-missing", IDLE),
    case("approval-missing", FAILS, rules=COUNTY_FIRST),
    case("approval-missing", MEETS, {"papers.attachment+": COUNTY_WORD}, COUNTY_FIRST),
    case("agreement-missing", IDLE),
    case("agreement-missing", FAILS, rules=AGREED),
    case("agreement-missing", MEETS, {"papers.attachment+": HARMLESS}, AGREED),
    case("upkeep-not-settled", IDLE),
    case("upkeep-not-settled", MEETS, rules=rule("outlet.who_maintains", one_of=["owner"])),
    case("upkeep-not-settled", FAILS, rules=rule("outlet.who_maintains", one_of=["town"])),
    case(
        "upkeep-not-settled",
        FAILS,
        {"outlet.maintained_by": GONE},
        rule("outlet.who_maintains", one_of=["owner"]),
    ),
    case("locate-ticket-missing", MEETS),
    case("locate-ticket-missing", ASK, {"locate.ticket": GONE}),
    case("answer-outlived", IDLE),
    case("answer-outlived", MEETS, {"answer+": ANSWER | {"on": date(2026, 2, 1)}}, NEWER),
    case("answer-outlived", FAILS, {"answer+": ANSWER | {"on": date(2026, 1, 31)}}, NEWER),
    case("answer-outlived", MEETS, base=NOTCH),
    case(
        "answer-outlived",
        IDLE,
        {
            "answer+": ANSWER
            | {"key": "pavement_rating", "value": {"is": 62}, "on": date(2026, 2, 1)}
        },
    ),
]

EMERGENCY = {"dates.emergency": date(2026, 4, 3)}
TAKEN = ["cash", "surety bond"]
IN_CASH = {"payment.1.how": "cash"}
TWO_SEASONS = 'dates.concrete_season = {{ closed = ["11-15 to 03-31", "{}"], cite = "book 1" }}\n'
OPEN_TWICE = 'dates.concrete_season = {{ open = ["04-01 to 04-28", "{}"], cite = "book 1" }}\n'
BUILDING = '{ ends_with = "building permit" }'


def wait(**words: str) -> str:
    """Return a wait after the locate call, of three full working days."""
    return rule("dates.locate_wait", span="3 full working days", clock="call", **words)


def lesser(span: str, other: str) -> str:
    """Return that all is finished within the shorter of two times."""
    return f'dates.complete_by = {{ lesser_of = ["{span}", {other}], cite = "book 1" }}\n'


def only_line(term: str) -> str:
    """Return that the fees are one line."""
    return f'fees.lines = {{ line = [{{ name = "permit", {term} }}], cite = "book 1" }}\n'


CUTOFF = wait(cutoff="16:00")

DATES = [
    case("filed-too-late", MEETS),
    case("filed-too-late", MEETS, {"dates.issue_expected": date(2026, 4, 20)}, item="permit"),
    case("filed-too-late", FAILS, {"dates.issue_expected": date(2026, 4, 17)}, item="permit"),
    case("filed-too-late", MEETS, {"dates.issue_expected": GONE}, item="permit"),
    case("filed-too-late", FAILS, {"dates.start": date(2026, 4, 23)}, item="start"),
    case("filed-too-late", ASK, rules=rule("dates.review", ask="clerk"), item="permit"),
    case(
        "filed-too-late",
        MEETS,
        rules=rule("dates.apply_ahead", span="21 days", clock="filing"),
        item="filing to work",
    ),
    case(
        "filed-too-late",
        FAILS,
        rules=rule("dates.apply_ahead", span="22 days", clock="filing"),
        item="filing to work",
    ),
    case("filed-too-soon", IDLE),
    case(
        "filed-too-soon",
        MEETS,
        rules=rule("dates.apply_ahead", span="1 day", clock="start", earliest="21 days"),
    ),
    case(
        "filed-too-soon",
        FAILS,
        rules=rule("dates.apply_ahead", span="1 day", clock="start", earliest="20 days"),
    ),
    case(
        "filed-too-soon", MEETS, rules=rule("dates.apply_ahead", span="1 day", earliest="3 weeks")
    ),
    case("finished-too-late", MEETS, rules=rule("dates.restore_by", span="3 days", clock="start")),
    case("finished-too-late", FAILS, rules=rule("dates.restore_by", span="2 days", clock="start")),
    case(
        "finished-too-late",
        FAILS,
        {"dates.restored": date(2026, 5, 8)},
        rule("dates.restore_by", span="7 days", clock="finish"),
    ),
    case(
        "finished-too-late",
        MEETS,
        {"dates.restored": date(2026, 5, 7)},
        rule("dates.restore_by", span="1 week"),
    ),
    case("emergency-filed-too-late", IDLE),
    case("emergency-filed-too-late", IDLE, EMERGENCY),
    case("emergency-filed-too-late", MEETS, EMERGENCY, rule("dates.emergency", span="72 hours")),
    case("emergency-filed-too-late", FAILS, EMERGENCY, rule("dates.emergency", span="48 hours")),
    case("emergency-filed-too-late", MEETS, EMERGENCY, rule("dates.emergency", span="3 days")),
    case("emergency-filed-too-late", ASK, EMERGENCY, rule("dates.emergency", ask="clerk")),
    case("begun-too-late", IDLE),
    case("begun-too-late", MEETS, rules=rule("dates.start_by", span="7 days", clock="issue")),
    case("begun-too-late", FAILS, rules=rule("dates.start_by", span="6 days", clock="issue")),
    case("begun-too-late", MEETS, rules=rule("dates.start_by", span="1 week")),
    case("begun-too-late", MEETS, rules=rule("dates.start_by", span="5 working days")),
    case("begun-too-late", FAILS, rules=rule("dates.start_by", span="4 working days")),
    case("begun-too-late", IDLE, rules=rule("dates.start_by", span="no end")),
    case("begun-too-late", IDLE, rules=rule("dates.start_by", span="2 days", clock="inspection")),
    case("finished-too-late", IDLE),
    case("finished-too-late", MEETS, rules=lesser("10 days", '{ before = "05-01" }')),
    case("finished-too-late", FAILS, rules=lesser("9 days", '{ before = "05-01" }')),
    case("finished-too-late", MEETS, rules=lesser("1 year", '{ by = "04-30" }')),
    case("finished-too-late", FAILS, rules=lesser("1 year", '{ before = "04-30" }')),
    case("finished-too-late", ASK, rules=lesser("1 year", BUILDING)),
    case(
        "finished-too-late",
        MEETS,
        {"dates.building_permit_until": date(2026, 4, 30)},
        lesser("1 year", BUILDING),
    ),
    case(
        "finished-too-late",
        FAILS,
        {"dates.building_permit_until": date(2026, 4, 29)},
        lesser("1 year", BUILDING),
    ),
    case("finished-too-late", MEETS, rules=rule("dates.complete_by", span="10 days")),
    case("finished-too-late", FAILS, rules=rule("dates.complete_by", span="9 days")),
    case("finished-too-late", MEETS, rules=rule("dates.close_by", span="72 hours"), item="opening"),
    case("finished-too-late", FAILS, rules=rule("dates.close_by", span="2 days"), item="opening"),
    case("work-in-closed-season", MEETS),
    case(
        "work-in-closed-season", FAILS, rules=rule("dates.concrete_season", closed="04-30 to 05-31")
    ),
    case(
        "work-in-closed-season", MEETS, rules=rule("dates.concrete_season", closed="05-01 to 04-26")
    ),
    case(
        "work-in-closed-season", MEETS, rules=rule("dates.concrete_season", open="04-27 to 04-30")
    ),
    case(
        "work-in-closed-season", FAILS, rules=rule("dates.concrete_season", open="04-28 to 04-30")
    ),
    case("work-in-closed-season", MEETS, rules=TWO_SEASONS.format("05-01 to 05-05")),
    case("work-in-closed-season", FAILS, rules=TWO_SEASONS.format("04-30 to 05-05")),
    case("work-in-closed-season", MEETS, rules=OPEN_TWICE.format("04-29 to 05-05")),
    case("work-in-closed-season", FAILS, rules=OPEN_TWICE.format("05-01 to 05-05")),
    case("locate-called-too-late", MEETS),
    case("locate-called-too-late", MEETS, {"dates.start": date(2026, 4, 24)}),
    case("locate-called-too-late", FAILS, {"locate.called": date(2026, 4, 23)}),
    case("locate-called-too-late", IDLE, {"locate.called": GONE}),
    case("locate-called-too-late", ASK, rules=CUTOFF),
    case("locate-called-too-late", MEETS, {"locate.called_at": "16:00"}, CUTOFF),
    case("locate-called-too-late", FAILS, {"locate.called_at": "16:01"}, CUTOFF),
    case("locate-called-too-soon", IDLE),
    case("locate-called-too-soon", MEETS, rules=wait(earliest="6 days")),
    case("locate-called-too-soon", FAILS, rules=wait(earliest="5 days")),
    case("locate-called-too-soon", MEETS, rules=wait(earliest="1 week")),
    case("locate-called-too-soon", MEETS, rules=wait(earliest="4 working days")),
    case("locate-called-too-soon", FAILS, rules=wait(earliest="3 working days")),
    case("locate-called-too-soon", MEETS, rules=wait(earliest="3 full working days")),
    case("locate-called-too-soon", ASK, rules=rule("dates.locate_wait", ask="centre")),
    case("locate-ticket-stale", MEETS),
    case("locate-ticket-stale", MEETS, {"dates.finish": date(2026, 5, 12)}),
    case("locate-ticket-stale", FAILS, {"dates.finish": date(2026, 5, 13)}),
    case("insurance-lapses", MEETS),
    case("insurance-lapses", MEETS, {"firm.policy.0.until": date(2026, 4, 30)}, item="general"),
    case("insurance-lapses", FAILS, {"firm.policy.0.until": date(2026, 4, 29)}, item="general"),
    case("insurance-lapses", IDLE, {"firm.policy": []}),
    case("insurance-lapses", IDLE, rules=rule("docs.insurance", ask="clerk")),
    case("permit-runs-out", MEETS),
    case("permit-runs-out", MEETS, rules=rule("dates.validity", span="10 days", clock="issue")),
    case("permit-runs-out", FAILS, rules=rule("dates.validity", span="9 days", clock="issue")),
    case("inspection-not-booked", MEETS),
    case("inspection-not-booked", FAILS, {"dates.inspections": ["final"]}, item="form and base"),
    case("pavement-too-young", IDLE),
    case("pavement-too-young", MEETS, CUT | {"street.last_paved": date(2021, 4, 27)}),
    case("pavement-too-young", FAILS, CUT | {"street.last_paved": date(2021, 4, 28)}),
    case("pavement-too-young", IDLE, CUT),
    case("pavement-too-young", IDLE, CUT, rule("dates.pavement_age", no_rule=True)),
    case("sheet-overdue", MEETS),
    case("sheet-overdue", MEETS, {"filing": date(2027, 6, 30)}, item="Millrace"),
    case("sheet-overdue", ASK, {"filing": date(2027, 7, 1)}, item="Millrace"),
    case("sheet-overdue", MEETS, {"filing": date(2027, 7, 1)}, item="country-wide"),
    case("sheet-overdue", ASK, {"filing": date(2027, 11, 21)}, item="country-wide"),
    case(
        "pavement-too-young",
        FAILS,
        CUT | {"street.last_paved": date(1990, 1, 1)},
        rule("dates.pavement_age", span="no end"),
    ),
]

MONEY_ASKED = "".join(rule(f"fees.{name}", ask="clerk") for name in ("lines", "deposit", "bond"))

BY_THE_CLERK = {"name": "deposit", "ask": "clerk"}
MONEY = [
    case("fee-does-not-add-up", MEETS),
    case("fee-does-not-add-up", FAILS, {"payment.0.amount": 251}),
    case("fee-does-not-add-up", FAILS, {"payment.0.amount": 249}),
    case("fee-does-not-add-up", IDLE, {"payment": []}),
    case("fee-does-not-add-up", ASK, rules=rule("fees.lines", ask="counter")),
    case("deposit-too-small", MEETS),
    case("deposit-too-small", MEETS, {"payment.1.amount": 501}),
    case("deposit-too-small", FAILS, {"payment.1.amount": 499}),
    case("deposit-too-small", IDLE, base=EMITTER),
    case("bond-too-low", MEETS, base=NOTCH),
    case("bond-too-low", FAILS, {"firm.policy.5.each": 4_999}, base=NOTCH),
    case("bond-too-low", MEETS, {"firm.policy.5": GONE}, base=NOTCH),
    case("bond-too-low", FAILS, {"firm.policy.5": GONE, "payment": []}, base=NOTCH),
    case("fee-does-not-add-up", MEETS, rules=only_line("least = 250")),
    case("fee-does-not-add-up", FAILS, rules=only_line("least = 251")),
    case("fee-does-not-add-up", MEETS, rules=only_line("sum = 200, to = 250")),
    case("fee-does-not-add-up", FAILS, rules=only_line("sum = 200, to = 249")),
    case("fee-does-not-add-up", MEETS, rules=only_line("most = 250")),
    case("fee-does-not-add-up", FAILS, rules=only_line("most = 249")),
    case("payment-for-no-line", IDLE),
    case("payment-for-no-line", MEETS, {"payment.0.line": "permit"}, only_line("sum = 250")),
    case("payment-for-no-line", FAILS, {"payment.0.line": "permits"}, only_line("sum = 250")),
    case("payment-for-no-line", ASK, {"payment.0.line": "permit"}, MONEY_ASKED),
    case("fee-does-not-add-up", IDLE, rules=only_line("sum = 5, when = { begun = true }")),
    case("sum-not-set", ASK, rules=only_line("sum = 5, when = { begun = true }")),
    case("deposit-too-small", IDLE, rules=rule("fees.deposit", line=[BY_THE_CLERK])),
    case("security-wrong-kind", IDLE),
    case("security-wrong-kind", MEETS, rules=rule("docs.security", one_of=TAKEN), base=NOTCH),
    case("security-wrong-kind", FAILS, rules=rule("docs.security", one_of=["cash"]), base=NOTCH),
    case(
        "security-wrong-kind", MEETS, IN_CASH, rule("docs.security", one_of=["cash"]), item="cash"
    ),
    case("security-wrong-kind", FAILS, IN_CASH, rule("docs.security", one_of=["property bond"])),
    case("security-wrong-kind", ASK, rules=rule("docs.security", ask="clerk"), base=NOTCH),
    case("sum-not-set", ASK, rules=only_line("least = 75")),
    case("sum-not-set", ASK, rules=only_line("sum = 200, to = 250")),
    case("sum-not-set", IDLE),
    case("sum-not-set", ASK, rules=TO_BE_SET),
]

CASES = [*DOCUMENTS, *DATES, *MONEY]
