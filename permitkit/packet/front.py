"""The first sheets: transmittal with index, checklist and facts; application; scope."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.checks.papers import attached
from permitkit.model.keys.duties import DOCS_COPIES, PERMIT_NEEDED
from permitkit.model.keys.papers import DOCS_DETAILS, DOCS_REQUIRED, FEES_LINES
from permitkit.model.keys.run import WATER_DECLARATION
from permitkit.model.verdict import Outcome
from permitkit.model.vocabulary.papers import document_kind
from permitkit.packet.forms.parts import (
    continued,
    form_parts,
    left_to_a_pen,
    plain_page_needed,
)
from permitkit.packet.parts import Part, facts, table
from permitkit.packet.prose import prose
from permitkit.packet.say import day, money, say_for, sentences
from permitkit.packet.values import outlet_in_words, panels_in_words, star
from permitkit.render.blocks import Bullets, CheckList, Heading, Paragraph, Spacer, escape
from permitkit.study.in_force.permits import for_the_record
from permitkit.study.ways import WAYS_HEADS, compare_ways, ways_in_words, ways_set_aside

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path
    from typing import Any

    from permitkit.checks.judge import Judged
    from permitkit.model.verdict import Verdict
    from permitkit.packet.forms.asked import FilledForm
    from permitkit.packet.say import Say
    from permitkit.render.blocks import Block
    from permitkit.study.results import HoleStudy, MoneyTotal, NotchStudy

__all__ = ["application", "documents_asked", "scope", "transmittal"]

_STAR = "A star marks a value the applicant assumed and has not measured."
_MADE = {"application form", "sketch", "calculation", "traffic plan"}
"""The documents that the packet itself is, by their kinds."""


def documents_asked(judged: Judged) -> tuple[tuple[str, bool], ...]:
    """Return each document the rules ask for, and whether the job encloses it.

    What is wanted only at times counts where it is enclosed.
    """
    asked: dict[str, bool] = {}
    for rule in judged.rules[DOCS_REQUIRED].all:
        for item in getattr(rule.value, "items", ()):
            there = document_kind(item.name) in _MADE or attached(judged.job, item.name)
            if there or not item.only_if:
                asked.setdefault(item.name, there)
    return tuple(asked.items())


def _at_times(judged: Judged) -> list[tuple[str, str]]:
    """Return the row of the documents wanted only at times that are not enclosed, if any are."""
    asked = dict(documents_asked(judged))
    items = [
        f"{item.name}: only if {item.only_if}"
        for rule in judged.rules[DOCS_REQUIRED].all
        for item in getattr(rule.value, "items", ())
        if item.only_if and item.name not in asked
    ]
    return [("At times", "; ".join(dict.fromkeys(items)))] if items else []


def _hole_rows(hole: HoleStudy, reveal_m: float, say: Say) -> list[tuple[str, str]]:
    bottom = say.small(hole.bottom_m)
    return [
        ("Hole", f"{say.small(hole.bit_m)} dia., bottom {bottom} above the flow line"),
        ("Pipe invert", f"{say.small(hole.invert_m)} above the flow line"),
        ("Concrete above hole", f"{say.small(hole.strip_m)} of a {say.small(reveal_m)} curb"),
    ]


def _notch_rows(notch: NotchStudy, say: Say) -> list[tuple[str, str]]:
    toe, back = say.small(notch.floor_toe_m), say.small(notch.floor_back_m)
    return [
        ("Notch", f"{say.small(notch.width_m)} wide, floor {toe} above the flow line at the toe"),
        ("Floor at back", f"{back} above the flow line, {say.slope(notch.floor_slope)}"),
    ]


def _outlet_rows(judged: Judged, say: Say) -> list[tuple[str, str]]:
    curb = judged.study.curb
    if curb is None:
        return []
    rows = []
    if curb.hole is not None:
        rows += _hole_rows(curb.hole, curb.reveal_m, say)
    if curb.notch is not None:
        rows += _notch_rows(curb.notch, say)
    joint = curb.edge_to_joint_m
    if joint is not None:
        away = f"{say.small(joint)} from the edge" if joint > 0 else "sawn at the joint"
        rows.append(("Nearest curb joint", away))
    near = [(f"Nearest {kind}", say.long(away)) for kind, away in sorted(curb.near_m.items())]
    return [*rows, *near, ("Side line", f"{say.long(curb.edge_to_side_line_m)} from the edge")]


def _closed(judged: Judged) -> str:
    traffic = judged.job.traffic
    closed = []
    if traffic.walk_closed:
        way = ", way round kept open" if traffic.way_round else ""
        closed.append(f"walk, {traffic.walk_closed_days} days{way}")
    if traffic.lane_taken != "none":
        closed.append(traffic.lane_taken)
    return "; ".join(closed) or "nothing"


def _walk(judged: Judged, say: Say) -> str:
    cut = judged.study.cut
    panels = sum(panel.removed for panel in cut.panels)
    if cut.walk_area_m2 <= 0:
        return ""
    return f"{say.area(cut.walk_area_m2)}, {panels_in_words(panels)}"


def _fact_rows(judged: Judged) -> list[tuple[str, str]]:
    job, say = judged.job, say_for(judged.job)
    details = dict.fromkeys(
        f"{item.number} rev. {item.revision}" if item.revision else item.number
        for item in _details(judged)
    )
    copies = judged.rules[DOCS_COPIES]
    line = f"{job.site.row_line_offset.shown()} behind the curb face, {job.site.row_line_basis}"
    return [
        ("Address", job.site.address),
        ("Parcel", job.site.parcel or "not given"),
        ("Street, and whose", f"{job.street.name}, {_authority(judged)}"),
        ("Outlet", outlet_in_words(judged, say)),
        *_outlet_rows(judged, say),
        ("Right-of-way line", line + star(judged, "site.row_line_basis")),
        ("Design flow", f"{say.flow(judged.study.water.outlet_flow_m3s)} at the outlet"),
        ("Walk taken out", _walk(judged, say)),
        ("Closed", _closed(judged)),
        ("Work", f"{day(job.dates.start)} to {day(job.dates.finish)}"),
        ("Locate ticket", job.locate.ticket or "not yet called"),
        ("Town details cited", ", ".join(details)),
        ("Copies", copies.text if copies.known else ""),
    ]


def _details(judged: Judged) -> list[Any]:
    found = []
    for rule in judged.rules[DOCS_DETAILS].all:
        found += [item for item in getattr(rule.value, "items", ()) if item.number]
    return found


def _authority(judged: Judged) -> str:
    whose = judged.job.street.authority
    return judged.rules.sheets[0].title if whose == "town" else whose


def _request(verdict: Verdict) -> str:
    item = f" ({verdict.item})" if verdict.item else ""
    section = f" Your {verdict.book}, section {verdict.section}." if verdict.section else ""
    return f"{verdict.asks}{item} {verdict.why}.{section}"


def _requests(judged: Judged) -> list[Block]:
    asks = [v for v in judged.verdicts if v.outcome is Outcome.ASK]
    waivers = [v for v in judged.verdicts if v.outcome is Outcome.WAIVER]
    blocks: list[Block] = []
    if asks:
        blocks.append(Heading("Please set or confirm", level=2))
        blocks.append(CheckList(tuple(escape(_request(v)) for v in asks)))
    if waivers:
        blocks.append(Heading("Waivers asked for", level=2))
        blocks.append(
            CheckList(
                tuple(
                    escape(f"{v.title}: {v.proposed} against {v.limit}. {v.why}") for v in waivers
                )
            )
        )
    return blocks


def _rounds(judged: Judged) -> list[Block]:
    """Return what changed since the town last saw the packet, and a reply to each comment."""
    if not judged.job.round:
        return []
    last = judged.job.round[-1]
    blocks: list[Block] = [Heading(f"Revision {escape(judged.job.revision)}", level=2)]
    back = f" and came back {day(last.returned)}" if last.returned else ""
    since = "; since then:" if last.changed else "."
    told = f"Revision {last.revision} was sent {day(last.sent)}{back}{since}"
    blocks.append(Paragraph(escape(told)))
    if last.changed:
        blocks.append(Bullets(tuple(escape(text) for text in last.changed)))
    if last.comment:
        rows = [(c.number, c.says, c.reply, ", ".join(c.sheets)) for c in last.comment]
        columns = ("No.", "The town's comment", "Reply", "Sheets")
        blocks.append(table(columns, rows, (12, 62, 72, 24), dense=True))
    return blocks


def _addressed(judged: Judged) -> list[tuple[str, str]]:
    sheet, firm = judged.rules.sheets[0], judged.job.firm
    to = (sheet.office or "Permit counter", sheet.title, sheet.office_address)
    return [
        ("To", ", ".join(part for part in to if part)),
        ("From", f"{firm.name}, {firm.address}, {firm.phone}" if firm else "not given"),
        ("For", ", ".join(_permits(judged))),
        ("Filed", f"{day(judged.job.filing)}, revision {judged.job.revision}"),
        ("Rules", f"sheet checked {day(sheet.checked)}, {sheet.standing}"),
    ]


def _permits(judged: Judged, *, issuer: bool = False) -> list[str]:
    """Return the permits by title, and why one is named, or none, that is not needed."""
    named = [
        (f"{needed.permit.title} ({needed.permit.issuer})", needed)
        if issuer
        else (needed.permit.title, needed)
        for needed in judged.rules.permits()
    ]
    rule = judged.rules[PERMIT_NEEDED]
    if not named and rule.known and rule.stance == "exempt":
        return [for_the_record(rule)]
    return [f"{name}: {needed.standing}" if needed.standing else name for name, needed in named]


def transmittal(
    judged: Judged, index: Sequence[tuple[str, str]], forms: Sequence[FilledForm] = ()
) -> Part:
    """Return the first sheet: to whom, from whom, facts, what is inside, what is asked.

    Parameters
    ----------
    judged
        The job, judged.
    index
        Each part's title and page.
    forms
        The town's forms in the packet: what is left to a pen in them is listed.
    """
    inside = [(title, f"page {page}") for title, page in index]
    papers = documents_asked(judged)
    enclosed = ", ".join(name for name, there in papers if there)
    missing = ", ".join(name for name, there in papers if not there)
    papers_rows = [("Enclosed", enclosed), ("NOT ENCLOSED", missing), *_at_times(judged)]
    blocks: list[Block] = [
        facts(_addressed(judged)),
        facts(_fact_rows(judged), title="Facts", across=2),
        *([Paragraph(_STAR)] if judged.job.assumed else []),
        facts(inside, title="In this packet", across=2),
        facts(papers_rows, title="Asked for by the town"),
        *left_to_a_pen(forms),
        *_requests(judged),
        *_rounds(judged),
    ]
    return Part("transmittal", "Transmittal", tuple(blocks))


def _firm_rows(judged: Judged) -> list[tuple[str, str]]:
    firm, place = judged.job.firm, judged.rules.sheets[0].place
    if firm is None:
        return [("Applicant", "not given")]
    policies = [
        f"{policy.kind}, {policy.company} {policy.number}, {money(policy.each)}, "
        f"{f'endorsement {policy.endorsement}, ' if policy.endorsement else ''}"
        f"until {day(policy.until)}"
        for policy in firm.policy
        if policy.town in (None, place)
    ]
    licences = [
        f"{licence.licence_class} {licence.number}, until {day(licence.until)}"
        for licence in firm.licence
        if licence.town in (None, place)
    ]
    return [
        ("Applicant", f"{firm.name}, {firm.address}"),
        ("Telephone", f"{firm.phone}; day and night {firm.phone_24h}"),
        ("License", "; ".join(licences)),
        ("Insurance", "; ".join(policies)),
    ]


def _work_rows(judged: Judged, values: Mapping[str, Any]) -> list[tuple[str, str]]:
    job, study, say = judged.job, judged.study, say_for(judged.job)
    walk = f"walk {say.area(study.cut.walk_area_m2)}" if study.cut.walk_area_m2 > 0 else ""
    trench = f"trench {say.long(study.cut.trench_m)} long" if study.cut.trench_m > 0 else ""
    depth = job.cut.trench_depth
    opened = "; ".join(filter(None, (walk, trench))) or "none in the right-of-way"
    return [
        ("Owner", f"{job.site.owner}, {job.site.owner_phone or 'telephone not given'}"),
        ("Place of work", f"{job.site.address}, parcel {job.site.parcel or 'not given'}"),
        ("Street", f"{job.street.name}; nearest cross street {values['site']['cross_street']}"),
        ("Kind of work", values["outlet"]["words"]),
        ("Openings", opened),
        ("Depth of trench", depth.shown() if depth and study.cut.trench_m > 0 else ""),
        ("Dates", f"{day(job.dates.start)} to {day(job.dates.finish)}"),
        ("Utility-locate ticket", job.locate.ticket or "not yet called"),
        ("Restored by", f"the {job.restoration.by}"),
        ("Fee", _fee(study.fees.fees)),
    ]


def _fee(due: MoneyTotal) -> str:
    if due.known:
        return due.shown
    return f"please set: {due.shown}" if due.total or due.most else "please set"


def application(
    judged: Judged,
    values: Mapping[str, Any],
    wording: Sequence[Path] = (),
    forms: Sequence[FilledForm] = (),
) -> tuple[Part, ...]:
    """Return the town's own forms, and the plain application page where it is needed.

    Parameters
    ----------
    judged
        The job, judged.
    values
        What the wording may speak of.
    wording
        Folders of templates that stand in front of the shipped ones.
    forms
        The town's forms, filled in; what found no room in them stands on the plain page.
    """
    plain = _plain(judged, values, wording, forms)
    return (*form_parts(forms), *([plain] if plain_page_needed(judged, forms) else []))


def _plain(
    judged: Judged,
    values: Mapping[str, Any],
    wording: Sequence[Path],
    forms: Sequence[FilledForm],
) -> Part:
    """Return the plain application page, with its places to sign."""
    asked = ("Permit", ", ".join(_permits(judged, issuer=True)) or "right-of-way permit")
    fee_note = judged.rules[FEES_LINES].source
    declared = {**values, "declarations": sentences(judged, WATER_DECLARATION)}
    note = Paragraph(escape(f"Fee by {fee_note}.")) if fee_note else Spacer(1)
    rows = facts([asked, *_firm_rows(judged), *_work_rows(judged, values)])
    blocks = (rows, note, *continued(forms), *prose("application", declared, wording))
    return Part("application", "Application for a permit", blocks)


def _ways(judged: Judged) -> list[Block]:
    """Return the ways of letting the water go, side by side on the same run."""
    if not judged.job.drain.reach:
        return []
    ways = compare_ways(judged.job, judged.rules)
    rows: list[tuple[str, ...]] = [
        (way, fall, level, full, stands, ice, town)
        for way, fall, level, full, stands, _, ice, town in ways_in_words(judged.job, ways)
    ]
    aside = "; ".join(f"{name}: {reason}" for name, reason in ways_set_aside(ways))
    heads = tuple(head for head in WAYS_HEADS if head != "Where it goes")
    compared = table(heads, rows, (24, 22, 34, 18, 20, 34, 28), dense=True)
    return [compared, Paragraph(escape(f"Not possible here: {aside}."))] if aside else [compared]


def scope(judged: Judged, values: Mapping[str, Any], wording: Sequence[Path] = ()) -> Part:
    """Return the statement of need with the ways compared, and the scope of work, in words."""
    need, work = prose("need", values, wording), prose("scope", values, wording)
    blocks = (*need, *_ways(judged), *work)
    return Part("scope", "Scope of work", blocks)
