"""The pages of figures: the drainage calculation, and the fees."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.window_chart import window_chart
from permitkit.packet.parts import Part, facts, table
from permitkit.packet.say import joined, money, say_for
from permitkit.render.blocks import Bullets, Drawing, Heading, Paragraph, escape

if TYPE_CHECKING:
    from collections.abc import Sequence

    from permitkit.checks.judge import Judged
    from permitkit.model.papers import Payment
    from permitkit.packet.say import Say
    from permitkit.render.blocks import Block, Table
    from permitkit.study.results import FeeRow, FeesStudy, MoneyTotal, WaterStudy

__all__ = ["calculation", "fees", "money_table"]

_METHODS = (
    (
        "Roof flow",
        (
            "Q = i A, runoff coefficient 1 for roofs; gpm = in/hr x sq ft / 96.25. A pump counts"
            " at its full rate, added to the storm."
        ),
    ),
    (
        "Pipes",
        "Manning, V = (1/n) R^(2/3) S^(1/2), on the real bore (FHWA HEC-22, 3rd ed., ch. 7).",
    ),
    (
        "Water levels",
        (
            "upstream from the higher of the gutter water and (critical depth + bore) / 2 above the"
            " invert; friction where a reach runs full, else normal depth; losses k V^2/2g at exit"
            " and bends; each inflow's entrance head (FHWA HEC-22, 3rd ed., ch. 7)."
        ),
    ),
    ("Gutter waters", "none; running in the design storm; full to the curb top."),
)


def _inflow_table(water: WaterStudy, say: Say) -> Block:
    rows = [
        (
            inflow.name,
            inflow.kind,
            say.area(inflow.area_m2) if inflow.area_m2 else "-",
            f"{inflow.runoff:.2f}" if inflow.area_m2 else "-",
            say.flow(inflow.storm_m3s) if inflow.storm_m3s else "-",
            say.flow(inflow.pump_m3s) if inflow.pump_m3s else "-",
        )
        for inflow in water.inflows
    ]
    storm, pumped = (
        say.flow(part) if part else "-"
        for part in (
            sum(inflow.storm_m3s for inflow in water.inflows),
            sum(inflow.pump_m3s for inflow in water.inflows),
        )
    )
    rows.append((f"together {say.flow(water.total_m3s)}", "", "", "", storm, pumped))
    return table(
        ("Inflow", "Kind", "Area", "C", "In rain", "Pump"),
        rows,
        (46, 26, 28, 14, 28, 28),
        dense=True,
    )


def _reach_table(water: WaterStudy, say: Say) -> Block:
    rows = []
    for reach in reversed(water.reaches):
        depth = "runs full" if reach.fullness is None else f"{reach.fullness:.2f} of bore"
        barrels = f"{reach.barrels} x " if reach.barrels > 1 else ""
        rows.append(
            (
                reach.name,
                f"{barrels}{reach.pipe.name}",
                say.long(reach.length_m),
                say.slope(reach.slope),
                say.flow(reach.flow_m3s),
                say.flow(reach.full_flow_m3s),
                say.velocity(reach.full_velocity_ms),
                depth,
            )
        )
    columns = ("Reach", "Pipe", "Length", "Slope", "Design", "Full", "Full velocity", "Depth")
    return table(columns, rows, (24, 34, 22, 16, 19, 19, 19, 21), dense=True)


def _pipes(water: WaterStudy, say: Say) -> list[Block]:
    return [Heading("Pipes", level=2), _reach_table(water, say)] if water.reaches else []


def _notches(water: WaterStudy, say: Say) -> list[Block]:
    """Return what the notches pass that let trapped water out of the verge, with no pipe."""
    verge = water.verge
    if verge is None:
        return []
    needed = "none would do" if verge.needed is None else str(verge.needed)
    return [
        facts(
            (
                ("Water gathers in the verge", say.flow(verge.flow_m3s)),
                ("Level it would spill at", say.level(verge.brim_m)),
                ("Notches", str(verge.count)),
                ("Fewest that do", needed),
                ("All of them pass", f"{say.flow(verge.passes_m3s)} at that level"),
            ),
            title="Notches at the curb",
            across=2,
        )
    ]


def _level_table(water: WaterStudy, say: Say) -> Block:
    rows = []
    for node in water.nodes:
        opening = "closed" if node.opening_m is None else say.level(node.opening_m)
        flowing, still = node.flowing_m, node.still_m
        highest = max(*flowing.values(), *still.values())
        spare = "-" if node.opening_m is None else _spare(node.opening_m - highest, say)
        rows.append(
            (
                node.name,
                say.level(node.invert_m),
                opening,
                say.level(flowing["free"]),
                say.level(flowing["running"]),
                say.level(flowing["curb-full"]),
                say.level(still["curb-full"]),
                spare,
            )
        )
    columns = (
        "Node",
        "Invert",
        "Opening",
        "Free",
        "Running",
        "Curb-full",
        "Curb-full, still",
        "Spare, worst",
    )
    return table(columns, rows, (18, 22, 22, 22, 22, 22, 22, 24), dense=True)


def _spare(spare_m: float, say: Say) -> str:
    return say.small(spare_m) if spare_m >= 0 else f"short by {say.small(-spare_m)}"


def _fall(water: WaterStudy, say: Say) -> Block:
    fall = water.fall
    needs = "; ".join(f"{name} {say.small(need)}" for name, need in fall.needs_m)
    spare = "spare" if fall.spare_m >= 0 else "SHORT"
    return facts(
        (
            ("From, to", f"{say.level(fall.start_level_m)} to {say.level(fall.outlet_level_m)}"),
            ("Fall there is", say.small(fall.available_m)),
            ("Least each reach needs", needs),
            ("Left over", f"{say.small(abs(fall.spare_m))} {spare}"),
        ),
        title="Where the fall goes",
        across=2,
    )


def _street(water: WaterStudy, say: Say) -> list[Block]:
    """Return the gutter at the outlet, before and with the job's flow, where it was measured."""
    street = water.street
    if street is None:
        return []
    rows = [
        (name, say.flow(flow.flow_m3s), say.long(flow.spread_m), say.small(flow.depth_m))
        for name, flow in (("before", street.before), ("with the outlet", street.after))
    ]
    said = f"Gutter n from {street.n_source}; grade {say.slope(street.grade)} (FHWA HEC-22, ch. 4)."
    return [
        Heading("The gutter at the outlet", level=2),
        table(("Water", "Flow", "Spread", "Depth"), rows, (60, 40, 40, 40), dense=True),
        Paragraph(escape(said)),
    ]


def _standing(water: WaterStudy, say: Say) -> list[Block]:
    if not water.standing:
        return [Paragraph("No water stands in the line after rain.")]
    said = [
        f"Water stands at {s.where}: {say.held(s.volume_m3)}, {say.small(s.depth_m)} deep at most, "
        f"over {say.long(s.length_m)}."
        for s in water.standing
    ]
    return [Bullets(tuple(escape(text) for text in said))]


def _window(judged: Judged) -> list[Block]:
    """Return the chart of the limits on the hole's height; it says what comes of them."""
    chart = window_chart(judged.job, judged.study)
    if chart is None:
        return []
    return [Heading("The height of the hole", level=2), Drawing(*chart)]


def _emitter(water: WaterStudy, say: Say) -> list[Block]:
    emitter = water.emitter
    if emitter is None:
        return []
    minutes = f"{emitter.weep_empties_s / 60:.0f} min" if emitter.weep_empties_s else "no weep hole"
    return [
        facts(
            (
                ("Head over the open rim", say.small(emitter.head_open_m)),
                ("With its lid", say.small(emitter.head_lid_m)),
                ("Water level at the emitter", say.level(emitter.water_level_m)),
                ("Held in the line after rain", say.held(emitter.held_m3)),
                ("The weep empties it in", minutes),
                ("The pit holds", say.held(emitter.pit_holds_m3) if emitter.pit_holds_m3 else ""),
            ),
            title="Emitter",
        )
    ]


def calculation(judged: Judged) -> Part:
    """Return the drainage calculation: inflows, pipes, levels, the hole's height, the methods."""
    water, say = judged.study.water, say_for(judged.job)
    rain = water.rain
    basis = "not stated: " + joined(rain.missing)
    if rain.intensity_ms is not None:
        basis = joined(
            [
                p
                for p in (say.intensity(rain.intensity_ms), rain.period, rain.duration, rain.source)
                if p
            ],
            "from",
        )
    gutter = "; ".join(
        f"{name} {say.level(level)}" for name, level in water.gutter_levels_m.items()
    )
    pipes = {r.pipe.name: r.pipe for r in water.reaches}
    bores = [(p.name, f"n = {p.n:g} ({p.source})") for p in pipes.values()]
    bores += [
        (f"C of {inflow.name}", inflow.runoff_source)
        for inflow in water.inflows
        if inflow.runoff_source
    ]
    blocks: list[Block] = [
        facts((("Design rain", basis), ("Gutter water", gutter))),
        _inflow_table(water, say),
        *_pipes(water, say),
        *_notches(water, say),
        Heading("Water levels at the design flow", level=2),
        _level_table(water, say),
        _fall(water, say),
        *_standing(water, say),
        *_emitter(water, say),
        *_street(water, say),
    ]
    blocks += _window(judged)
    methods = table(("Methods and sources", ""), [*_METHODS, *bores], (30, 146), dense=True)
    blocks.append(methods)
    return Part("calculation", "Drainage calculation", tuple(blocks))


def _money_rows(total: MoneyTotal, name: str) -> list[tuple[str, ...]]:
    if not total.rows:
        return []
    rows: list[tuple[str, ...]] = [(name,)]
    rows += [(r.name, _worked(r), r.source, _sum(r)) for r in total.rows]
    return [*rows, ("together", "", "", total.shown)]


def _worked(row: FeeRow) -> str:
    """Return how a line was worked out, with its note below."""
    return f"{row.arithmetic}\n{row.beside}" if row.beside else row.arithmetic


def _sum(row: FeeRow) -> str:
    """Return a line's sum; one that is not settled is asked for with what is known of it."""
    if row.settled:
        return row.shown
    return f"please set: {row.shown}" if row.shown else "please set"


def money_table(study: FeesStudy, payments: Sequence[Payment]) -> Table:
    """Return each line's arithmetic, notes and source, and what is paid."""
    rows = [
        *_money_rows(study.fees, "Fees"),
        *_money_rows(study.deposit, "Deposit"),
        *_money_rows(study.bond, "Bond"),
    ]
    if payments:
        rows.append(("Paid with this application",))
    for paid in payments:
        how = ", ".join(filter(None, (paid.how, paid.receipt)))
        rows.append((paid.what, how, "", money(paid.amount)))
    columns = ("Line", "How it is worked out", "Source", "Sum")
    return table(columns, rows, (20, 64, 76, 20), dense=True)


def fees(judged: Judged) -> Part:
    """Return the fee sheet."""
    blocks = (money_table(judged.study.fees, judged.job.payment),)
    return Part("fees", "Fees, deposit and bond", blocks)
