"""What a job proposes, as the things a check goes through: none of a kind is an empty row."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor
from typing import TYPE_CHECKING

from permitkit.checks.compare import part_measured
from permitkit.checks.scale import Yardstick
from permitkit.model.vocabulary.trade import PARTIES
from permitkit.study.sizes import ground_unit
from permitkit.units import Kind, from_si, measure, write_measure
from permitkit.units.table import unit_named

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from permitkit.model.drain import Emitter, Inflow, Pump
    from permitkit.model.job import Job
    from permitkit.model.rules import RuleKey
    from permitkit.model.site import Feature
    from permitkit.study.in_force import InForce, RulesInForce
    from permitkit.study.results import (
        CurbStudy,
        CutStudy,
        HoleStudy,
        NotchStudy,
        StreetStudy,
        Study,
    )
    from permitkit.units import Measure

__all__ = [
    "alike",
    "as_written",
    "bit_cure",
    "curb_to_emitter",
    "curbs",
    "cuts",
    "drive_sides",
    "emitters",
    "features",
    "fitting_bits",
    "flow",
    "flow_unit",
    "from_part",
    "gutters",
    "holes",
    "inward",
    "metric",
    "notches",
    "outside",
    "pumps",
    "room_for",
    "rounded_down",
    "short_length",
    "size",
    "smaller_pipe",
    "square_inches",
    "steepness",
    "surface",
    "volume",
    "waters",
    "window_cure",
]


FINEST, HALF = Fraction(1, 1000), Fraction(1, 2)


def curbs(study: Study) -> tuple[CurbStudy, ...]:
    """Return the curb at the outlet, if water is let go there."""
    return (study.curb,) if study.curb else ()


def holes(study: Study) -> tuple[tuple[CurbStudy, HoleStudy], ...]:
    """Return the curb and the hole cored in it, if one is."""
    return tuple((curb, curb.hole) for curb in curbs(study) if curb.hole)


def cutter(job: Job, rule: InForce) -> str:
    """Return who cuts the curb: as stated, else the permit holder, by the word the rule has."""
    words = rule.words if rule.known else ()
    held = any("permit holder" in PARTIES.get(word, ()) for word in words)
    return job.cut.curb_by or ("permit holder" if held else job.papers.applicant)


def notches(study: Study) -> tuple[NotchStudy, ...]:
    """Return the notch sawn in the curb, if one is."""
    return tuple(curb.notch for curb in curbs(study) if curb.notch)


def emitters(job: Job) -> tuple[Emitter, ...]:
    """Return the emitter in the lawn, if water is let go there."""
    return (job.outlet.emitter,) if job.outlet.emitter else ()


def curb_to_emitter(job: Job, emitter: Emitter) -> Measure:
    """Return how far an emitter stands from the curb face, over verge and walk."""
    beside = job.curb.top_width + job.verge.width + job.walk.width
    return beside + job.site.row_line_offset + emitter.to_row


def cuts(job: Job, study: Study) -> tuple[CutStudy, ...]:
    """Return the cut in the walk, if the walk is cut."""
    return (study.cut,) if job.cut.crossing == "cut" else ()


def pumps(job: Job) -> tuple[tuple[Inflow, Pump], ...]:
    """Return each inflow that is pumped, with its pump."""
    return tuple((inflow, inflow.pump) for inflow in job.drain.inflow if inflow.pump)


def waters(job: Job) -> list[dict[str, str]]:
    """Return each kind of water that enters the line, as a fact."""
    return [{"water": kind} for kind in dict.fromkeys(i.kind for i in job.drain.inflow)]


def gutters(study: Study) -> tuple[StreetStudy, ...]:
    """Return the gutter's water at the outlet, if the job says what runs along it."""
    return (study.water.street,) if study.water.street else ()


def features(job: Job, *kinds: str) -> tuple[Feature, ...]:
    """Return the lasting things of some kinds along the curb."""
    return tuple(feature for feature in job.feature if feature.kind in kinds)


def drive_sides(job: Job) -> Iterator[tuple[str, dict[str, tuple[float, float]]]]:
    """Yield each drive by name, with the stretch of curb on each side of it.

    A stretch ends at the next drive, or at the end of the frontage. [m]
    """
    drives = sorted(features(job, "drive"), key=lambda drive: float(drive.near))
    ends = [(float(drive.near), float(drive.far or drive.near)) for drive in drives]
    before = [0.0, *(far for _, far in ends)]
    after = [*(near for near, _ in ends[1:]), float(job.site.frontage)]
    for drive, (near, far), low, high in zip(drives, ends, before, after, strict=False):
        yield drive.name or "drive", {"left": (low, near), "right": (far, high)}


def alike(
    rules: RulesInForce, key: RuleKey, items: Iterable[Mapping[str, str]], **common: object
) -> list[tuple[InForce, str]]:
    """Return the rule in force for the local facts of each item, items of one rule together.

    The last fact of each item names it; the others head the names they go with. What they have in
    `common` is a fact of each.
    """
    found: list[tuple[InForce, dict[str, list[str]]]] = []
    for facts in items:
        rule = rules.at(key, **facts, **common)
        *heads, name = facts.values()
        names = next((held for other, held in found if _one_rule(other, rule)), None)
        if names is None:
            names = {}
            found.append((rule, names))
        names.setdefault(" ".join(heads), []).append(name)
    return [(rule, "; ".join(map(_listed, held.items()))) for rule, held in found]


def _one_rule(one: InForce, other: InForce) -> bool:
    """Tell whether two answers are the same rule."""
    return one is other or (one.value == other.value and one.cite == other.cite)


def _listed(names: tuple[str, list[str]]) -> str:
    head, items = names
    return f"{head} under {', '.join(items)}" if head else " and ".join(items)


def short_length(job: Job) -> str:
    """Return the unit a small length is told in."""
    return "mm" if metric(job) else "in"


def size(job: Job, metres: float) -> str:
    """Return a small length in print."""
    return write_measure(from_si(metres, Kind.LENGTH, short_length(job)))


def outside(job: Job, hole: HoleStudy) -> str:
    """Return a pipe's outside as a catalogue prints it, in decimals."""
    unit = short_length(job)
    step = Fraction(1, 10) if metric(job) else Fraction(1, 1000)
    return write_measure(from_si(hole.pipe_outside_m, Kind.LENGTH, unit), step=step)


def volume(job: Job, cubic_metres: float) -> str:
    """Return a volume of water in print."""
    return write_measure(from_si(cubic_metres, Kind.VOLUME, "L" if metric(job) else "gal"))


def flow_unit(job: Job) -> str:
    """Return the unit a flow is told in."""
    return "L/s" if metric(job) else "gpm"


def flow(job: Job, cubic_metres_a_second: float) -> str:
    """Return a flow in print."""
    return write_measure(from_si(cubic_metres_a_second, Kind.FLOW, flow_unit(job)))


def square_inches(square_metres: float) -> float:
    """Return how many square inches an area has, by which leaders are sized."""
    return float(from_si(square_metres, Kind.AREA, "sq in").in_("sq in"))


def as_written(value: Measure) -> str:
    """Return a quantity as its author wrote it, or in print where it was reckoned."""
    return value.text or value.shown()


def steepness(slope: Measure) -> Measure:
    """Return a slope without its direction."""
    return -slope if slope.si < 0 else slope


def surface(job: Job, square_metres: float) -> str:
    """Return an area in print."""
    return write_measure(from_si(square_metres, Kind.AREA, "m2" if metric(job) else "sq ft"))


def metric(job: Job) -> bool:
    """Tell whether the job's author reads metric."""
    return job.units == "metric"


def rounded_down(metres: float, job: Job) -> str:
    """Return a long length in print as its author tapes it, rounded down to a step of that."""
    unit = ground_unit(job)
    step = HALF if unit == "ft-in" else unit_named(unit, Kind.LENGTH).step
    number = floor(from_si(metres, Kind.LENGTH, unit).in_(unit) / step) * step
    return measure(number, unit, Kind.LENGTH).shown(step).replace(" ft 0 in", " ft")


def room_for(job: Job, least_m: float, name: str) -> Yardstick:
    """Return a least height or distance that physics sets."""
    return Yardstick(Kind.LENGTH, short_length(job), least=least_m, name=name)


def from_part(rule: InForce, curb: CurbStudy, edge_m: float | None) -> float | None:
    """Return a distance along the curb from the part of the opening a rule names."""
    if edge_m is None or part_measured(rule) != "hole centre":
        return edge_m
    width = curb.hole.bit_m if curb.hole else curb.notch.width_m if curb.notch else 0.0
    return edge_m + width / 2


def window_cure(job: Job, curb: CurbStudy, hole: HoleStudy) -> str:
    """Return the heights that satisfy everything at once, or the largest hole that has any."""
    window = hole.window
    if not window.empty:
        low, high = inward(job, window.low.height_m, window.high.height_m)
        place = f"at {high}" if high.startswith(f"{low} ") else f"between {low} and {high}"
        return f"hole bottom {place} above the flow line"
    if hole.largest_bit_m is None or hole.largest_bit_m < hole.bit_m:
        return bit_cure(job, curb, hole)
    low, high = (
        f"{from_si(end.height_m, Kind.LENGTH, short_length(job)).shown(FINEST)} for {end.name}"
        for end in (window.low, window.high)
    )
    return f"no height suits this pipe: the hole bottom at least {low}, at most {high}"


def bit_cure(job: Job, curb: CurbStudy, hole: HoleStudy) -> str:
    """Return the bits that fit pipe and curb, or the largest hole that town and curb take."""
    if hole.fitting_bits_m:
        return f"drill with a bit of {' or '.join(size(job, bit) for bit in hole.fitting_bits_m)}"
    barred = f"no {size(job, hole.bit_m)} hole fits a {size(job, curb.reveal_m)} curb"
    if hole.bit_barred:
        barred = f"the town takes no {size(job, hole.bit_m)} hole"
    if hole.largest_bit_m is None:
        none = "and none that is sold suits both it and the curb"
        return f"{barred}, {none if hole.bit_barred else 'nor does any other'}"
    return f"{barred}; largest is {size(job, hole.largest_bit_m)}"


def smaller_pipe(job: Job, curb: CurbStudy, hole: HoleStudy) -> str:
    """Return the bits that fit, or else that the pipe must be smaller."""
    return f"{bit_cure(job, curb, hole)}; use a smaller pipe, or two of them"


def fitting_bits(job: Job, hole: HoleStudy) -> str:
    """Return in words which bits that are sold fit pipe and curb."""
    bits = [size(job, bit) for bit in hole.fitting_bits_m]
    if len(bits) > 1:
        return f"bits of {' and '.join(bits)} fit"
    return f"a bit of {bits[0]} fits" if bits else "no bit that is sold fits"


def inward(job: Job, low_m: float, high_m: float) -> tuple[str, str]:
    """Return two heights in print, rounded towards each other so that both still do.

    The unit stands after the second. Two that leave no room at any step are rounded as they are.
    """
    unit = short_length(job)
    low, high = (from_si(end, Kind.LENGTH, unit).in_(unit) for end in (low_m, high_m))
    step = unit_named(unit, Kind.LENGTH).step
    steps = (step, step / 4, FINEST)
    room = (one for one in steps if ceil(low / one) <= floor(high / one))
    fits = next(room, None)
    ends = (ceil(low / fits) * fits, floor(high / fits) * fits) if fits else (low, high)
    first, last = (measure(end, unit, Kind.LENGTH).shown(fits or FINEST) for end in ends)
    return first.removesuffix(f" {unit}"), last
