"""The office copy: what stays with the firm."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from permitkit.checks.papers import best_licence
from permitkit.geometry.panels import bags_for
from permitkit.model.keys import craft
from permitkit.model.keys.duties import PENALTY, REGISTRATION_FEE
from permitkit.model.keys.papers import DATES_INSPECTIONS, DOCS_LICENCE, SAY_CAUTIONS
from permitkit.model.telling import line_text
from permitkit.model.verdict import Outcome
from permitkit.packet.parts import Part, facts, table
from permitkit.packet.rules_page import assumptions
from permitkit.packet.say import day, money, say_for, sentences, told_of
from permitkit.render.blocks import Bullets, CheckList, Heading, PageBreak, Paragraph, escape
from permitkit.study.in_force.fits import fit

if TYPE_CHECKING:
    from datetime import date

    from permitkit.checks.judge import Judged
    from permitkit.model.job import Job
    from permitkit.model.papers import Licence
    from permitkit.model.rules import RuleKey
    from permitkit.model.values import Item
    from permitkit.model.verdict import Verdict
    from permitkit.packet.say import Say
    from permitkit.render.blocks import Block

__all__ = ["concrete", "office_parts"]

_BAG_LB = 80
_MIX = (
    craft.WALK_SLUMP,
    craft.WALK_AIR,
    craft.WALK_TEMPERATURE,
    craft.WALK_STRENGTH_EARLY,
    craft.WALK_STRENGTH_EARLY_AGE,
    craft.RESTORE_PAVEMENT,
)


def _said(verdict: Verdict) -> tuple[str, str, str, str]:
    what = f"{verdict.title}: {verdict.item}" if verdict.item else verdict.title
    return (what, verdict.proposed, verdict.limit, verdict.cure or verdict.why)


def _state(judged: Judged) -> Part:
    blocks: list[Block] = [
        Paragraph("Ready to file." if judged.ready else "NOT ready to file."),
    ]
    heads = (
        (Outcome.FAILS, "Faults", "Cure"),
        (Outcome.ASK, "Open questions", "What to ask"),
        (Outcome.WAIVER, "Waivers asked for", "Reason"),
        (Outcome.ADVICE, "Advice", "Why"),
    )
    for outcome, head, last in heads:
        found = [_said(v) for v in judged.verdicts if v.outcome is outcome]
        if found:
            blocks += [
                Heading(head, level=2),
                table(("What", "Proposed", "Limit", last), found, (56, 34, 34, 50)),
            ]
    blocks += assumptions(judged)
    return Part("state", "Where it stands", tuple(blocks))


def _take_off(judged: Judged) -> Part:
    say, cut, water = say_for(judged.job), judged.study.cut, judged.study.water
    pipes: dict[str, float] = {}
    for reach in water.reaches:
        pipes[reach.pipe.name] = pipes.get(reach.pipe.name, 0.0) + reach.length_m * reach.barrels
    rows = [
        (f"Pipe, {name}", say.long(length), "net length, no waste")
        for name, length in pipes.items()
    ]
    bends = sum(len(reach.bends_deg) for reach in water.reaches)
    if bends:
        rows.append(("Bends", str(bends), ""))
    if cut.walk_area_m2 > 0:
        rows += [
            ("Saw cut", say.long(cut.saw_length_m), ""),
            (
                "Walk broken out",
                say.area(cut.walk_area_m2),
                f"about {say.mass(cut.debris_kg)} of rubble",
            ),
            ("Concrete", say.volume(cut.concrete_m3), _bags(judged.job, cut.concrete_m3)),
            ("Base stone", say.volume(cut.base_m3), "in place, compacted"),
        ]
    if cut.trench_m > 0:
        trench = say.long(cut.trench_m)
        rows.append(("Trench in the right-of-way", trench, say.area(cut.trench_area_m2)))
    curb = judged.study.curb
    if curb is not None and curb.hole is not None:
        hole = curb.hole
        places = "one hole" if hole.count == 1 else f"{hole.count} holes"
        rows.append(("Grout round the pipe", say.little(hole.grout_m3), places))
    return Part("take-off", "Take-off", (table(("Item", "Quantity", "Note"), rows, (64, 50, 60)),))


def _bags(job: Job, concrete_m3: float) -> str:
    """Return a volume of concrete in bags of dry mix, as the author's shop sells them."""
    weight, each = ("36 kg", "17 L") if job.units == "metric" else ("80 lb", "0.6 cu ft")
    count = bags_for(concrete_m3, _BAG_LB)
    bags = "one bag" if count == 1 else f"{count} bags"
    return f"net, add for waste: about {bags} of {weight} at {each} each (ASTM C387)"


def _calendar(judged: Judged) -> Part:
    calendar = judged.study.calendar
    rows = [
        (step.what, day(step.day) if step.day else "not known", step.how) for step in calendar.steps
    ]
    blocks: list[Block] = [table(("What", "Day", "How it is reached"), rows, (52, 42, 80))]
    if calendar.holidays_used:
        kept = [escape(f"{day(when)}: {name}") for when, name in calendar.holidays_used]
        blocks += [Heading("Holidays and closings counted", level=2), Bullets(tuple(kept))]
    return Part("calendar", "Calendar", tuple(blocks))


def _marks(judged: Judged, say: Say) -> list[tuple[str, str]]:
    """Return what the crew marks and measures at the curb."""
    outlet, curb = judged.job.outlet, judged.study.curb
    rows: list[tuple[str, str]] = []
    if outlet.tie_line:
        whence = outlet.tie_line_from or "the side line"
        rows.append(("Tie along the curb", f"{outlet.tie_line.shown()} from {whence}"))
    if outlet.tie_object:
        whence = outlet.tie_object_from or "the object"
        rows.append(("Second tie", f"{outlet.tie_object.shown()} from {whence}"))
    if curb is not None and curb.hole is not None:
        hole = curb.hole
        bottom, left = say.small(hole.bottom_m), say.small(hole.strip_m)
        side = "behind the curb" if outlet.drill_from == "behind" else "the street side"
        rows += [
            ("MARK", f"bit center {say.small(hole.centre_below_top_m)} below the curb top"),
            ("Bit", say.small(hole.bit_m)),
            (
                "Check after drilling",
                f"hole bottom {bottom} above the flow line, {left} left above",
            ),
            ("Drill from", side),
        ]
    if curb is not None and curb.notch is not None:
        notch = curb.notch
        toe, back = say.small(notch.floor_toe_m), say.small(notch.floor_back_m)
        rows += [
            ("MARK", f"notch {say.small(notch.width_m)} wide, floor {toe} up at the toe"),
            ("Floor at back", f"{back} above the flow line"),
        ]
    return rows


def _notice(item: Item) -> str:
    return f"notice {item.notice.text}" if item.notice else ""


def _inspections(judged: Judged) -> tuple[str, ...]:
    found = [
        ", ".join(
            filter(None, (item.name, _notice(item), item.only_if and f"only if {item.only_if}"))
        )
        for rule in judged.rules[DATES_INSPECTIONS].all
        for item in getattr(rule.value, "items", ())
    ]
    return tuple(escape(text) for text in dict.fromkeys(found))


def concrete(judged: Judged) -> list[Block]:
    """Return what the town asks of concrete and paving on the day, if it asks anything."""
    rows = told_of(judged.rules, _MIX)
    return [Heading("Concrete and paving", level=2), facts(rows)] if rows else []


def _crew_card(judged: Judged) -> Part:
    say, job = say_for(judged.job), judged.job
    nodes = judged.study.water.nodes
    levels = [(node.name, say.level(node.invert_m), say.level(node.ground_m)) for node in nodes]
    calls = _inspections(judged)
    blocks: list[Block] = [
        facts([("Where", f"{job.site.address}, {job.street.name}"), *_marks(judged, say)]),
        Heading("Levels", level=2),
        table(("Node", "Invert", "Ground"), levels, (60, 50, 50)),
        *concrete(judged),
        Heading("Call these inspections", level=2),
        CheckList(calls) if calls else Paragraph("The sheet names none: ask the town."),
        Heading("Mind", level=2),
        Bullets(tuple(escape(text) for text in sentences(judged, SAY_CAUTIONS))),
    ]
    return Part("crew card", "Crew card", tuple(blocks))


def _checked(judged: Judged) -> Part:
    met = [
        (v.asks, v.item, v.proposed, v.limit) for v in judged.verdicts if v.outcome is Outcome.MEETS
    ]
    idle = [(v.asks, v.why) for v in judged.verdicts if v.outcome is Outcome.PASSES_OVER]
    over = tuple(dict.fromkeys(idle))
    return Part(
        "checked",
        "Everything that was checked",
        (
            Heading("Met", level=2),
            table(("Question", "Item", "Proposed", "Limit"), met, (64, 38, 34, 38), dense=True),
            Heading("Does not apply", level=2),
            table(("Question", "Because"), over, (80, 94), dense=True),
        ),
    )


def _money(judged: Judged) -> Part:
    rows = [(p.what, money(p.amount), p.how or "", p.receipt or "") for p in judged.job.payment]
    fees = judged.study.fees
    due = [
        ("Fees", fees.fees.shown),
        ("Deposit", fees.deposit.shown if fees.deposit.rows else "none"),
        ("Bond", fees.bond.shown if fees.bond.rows else "none"),
    ]
    return Part(
        "money",
        "Money",
        (
            table(("Due", "Sum"), due, (87, 87)),
            Heading("Stated or paid", level=2),
            table(("For", "Sum", "How", "Receipt"), rows, (43, 43, 44, 44)),
            *_beside(judged),
        ),
    )


def _beside(judged: Judged) -> list[Block]:
    """Return what a registration and a breach cost, which no sum above holds."""
    rows = [] if _registered(judged) else _lines(judged, REGISTRATION_FEE, "Registration")
    rows += _lines(judged, PENALTY, "A breach")
    if not rows:
        return []
    columns = ("For", "What it costs", "Source")
    return [
        Heading("Not in these sums", level=2),
        table(columns, rows, (30, 86, 58), dense=True),
    ]


def _lines(judged: Judged, key: RuleKey, what: str) -> list[tuple[str, str, str]]:
    """Return the lines of money of a rule that might fit the job, in words."""
    rule = judged.rules[key]
    if not rule.known:
        return []
    facts = judged.rules.facts
    fitting = (line for line in rule.fees.lines if fit(line.when, facts)[0] is not False)
    return [(what, line_text(line), rule.source) for line in fitting]


def _registered(judged: Judged) -> bool:
    """Tell whether the firm holds a license for this town that runs to the end of the work."""
    job, rule = judged.job, judged.rules[DOCS_LICENCE]
    held = job.firm.licence if job.firm else ()
    own = [one for one in held if one.town == job.town]
    best = best_licence(job, rule.words) if rule.known else max(own, key=_until, default=None)
    return best is not None and best.until >= job.dates.finish


def _until(licence: Licence) -> date:
    return licence.until


def office_parts(judged: Judged) -> tuple[Part, ...]:
    """Return the office copy's own pages, in the order an office works.

    The crew card begins a page and ends it: it goes to the site alone.
    """
    before, card = _money(judged), _crew_card(judged)
    return (
        _state(judged),
        _take_off(judged),
        _calendar(judged),
        replace(before, blocks=(*before.blocks, PageBreak())),
        replace(card, blocks=(*card.blocks, PageBreak())),
        _checked(judged),
    )
