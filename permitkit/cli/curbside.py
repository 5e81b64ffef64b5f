"""The two questions asked at the curb before there is a job: which hole fits, and what falls."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import TYPE_CHECKING

from permitkit.cli.plain import beside
from permitkit.cli.town.found import layers_of
from permitkit.errors import Fault, UsageError
from permitkit.geometry.core import BITS_SOLD_M
from permitkit.hydraulics.materials import Pipe, UnknownPipe, find_pipe
from permitkit.hydraulics.pipe import full_flow, full_velocity
from permitkit.model.facts import FACTS
from permitkit.model.keys.outlet import (
    CORE_BIT,
    CORE_CURBS,
    CORE_GAP,
    CORE_HEIGHT,
    CORE_STRIP,
    OUTLET_ALLOWED,
)
from permitkit.model.keys.run import PIPE_SLOPE
from permitkit.model.rules import Clock, Sheet
from permitkit.model.values import Words
from permitkit.model.words import CurbShape, choices
from permitkit.study.curb import round_about_m
from permitkit.study.in_force import UNKNOWN, InForce, RulesInForce
from permitkit.study.in_force.lookup import Lookup
from permitkit.study.in_force.stack import stack_of
from permitkit.study.results import Window
from permitkit.study.window import HoleSize, hole_limits
from permitkit.units import Kind, Measure, UnitError, from_si, measure, read_measure

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from permitkit.study.results import Bound

__all__ = ["Fallen", "Fitted", "fall_text", "fallen", "fit_text", "fitted"]

ROLLS = {"rolled", "half-round"}
ASKED = (CORE_CURBS, CORE_BIT, CORE_GAP, CORE_STRIP, CORE_HEIGHT)
FINE = Fraction(1, 1000)
SIXTEENTH = Fraction(1, 16)
NOISE = 1e-6


@dataclass(frozen=True, slots=True)
class Fitted:
    """Holes for one pipe in one curb: each bit with its window, and what stands against it."""

    sheet: Sheet
    pipe: Pipe
    reveal: Measure
    curb: str
    windows: tuple[tuple[HoleSize, Window], ...]
    barred: str
    unsettled: tuple[str, ...]

    @property
    def fits(self) -> bool:
        """Whether any hole fits."""
        return not self.barred and any(not window.empty for _, window in self.windows)


@dataclass(frozen=True, slots=True)
class Fallen:
    """What two levels give over a length; `need_m` is None where no least slope is known."""

    fall: Measure
    length: Measure
    pipe: Pipe | None
    least: Measure | None
    source: str

    @property
    def slope(self) -> float:
        """Fall over length."""
        return float(self.fall) / float(self.length)

    @property
    def spare_m(self) -> float:
        """What is left over the fall that is needed, below zero where it is short."""
        need = float(self.least) * float(self.length) if self.least else 0.0
        return float(self.fall) - need

    @property
    def enough(self) -> bool:
        """Whether the run falls, and as much as it needs."""
        return self.fall.si > 0 and self.spare_m >= -1e-9  # noqa: PLR2004 - the noise of floats


def fitted(town: str, reveal: str, pipe: str, curb: str, bit: str | None) -> Fitted:
    """Return the holes that fit, from what was typed.

    Raises
    ------
    UsageError
        If a town, a length, a pipe or a shape of curb is not known.
    """
    faults: list[Fault] = []
    height = _read("--reveal", reveal, Kind.LENGTH, faults)
    only = None if bit is None else _read("--bit", bit, Kind.LENGTH, faults)
    found = _pipe(pipe, faults)
    shapes = choices(CurbShape)
    if curb not in shapes:
        faults.append(Fault("--curb", repr(curb), f"one of {', '.join(shapes)}"))
    if faults or height is None or found is None:
        raise UsageError(tuple(faults))
    layers = layers_of(town)
    rules = _rules(layers, curb)
    limits = hole_limits(rules, float(height))
    bits = BITS_SOLD_M if only is None else (float(only),)
    sizes = [HoleSize(one, round_about_m(found), found.bore_height_m) for one in bits]
    taking = [s for s in sizes if s.outside_m <= s.bit_m and limits.gap.allows(s.gap_m)]
    windows = tuple((size, limits.window(size)) for size in taking if limits.bit.allows(size.bit_m))
    barred = _barred(rules, curb) or ("" if windows else _none_taken(rules, sizes, taking))
    return Fitted(layers[0], found, height, curb, windows, barred, tuple(_unsettled(rules)))


def fallen(
    levels: tuple[str, str], length: str, pipe: str | None, least: str | None, town: str | None
) -> Fallen:
    """Return what two levels give, from what was typed.

    Raises
    ------
    UsageError
        If a level, a length, a slope, a pipe or a town is not known.
    """
    faults: list[Fault] = []
    begin = _read("--from", levels[0], Kind.LEVEL, faults)
    end = _read("--to", levels[1], Kind.LEVEL, faults)
    over = _read("--length", length, Kind.LENGTH, faults)
    slope = None if least is None else _read("--least", least, Kind.SLOPE, faults)
    found = None if pipe is None else _pipe(pipe, faults)
    if over is not None and over.si <= 0:
        faults.append(Fault("--length", over.shown(), "more than nothing"))
    if faults or begin is None or end is None or over is None:
        raise UsageError(tuple(faults))
    source = "as asked" if slope else ""
    if slope is None and town is not None:
        slope, source = _towns_slope(layers_of(town))
    return Fallen(begin - end, over, found, slope, source)


def fit_text(fitted: Fitted) -> str:
    """Return the holes that fit, or why none does."""
    lines = [f"{fitted.pipe.name} in a {fitted.reveal.shown()} {fitted.curb} curb"]
    day = f"rules of {fitted.sheet.checked}"
    lines += beside("town", f"{fitted.sheet.title}, {day}", room=14)
    lines += beside("pipe", f"{_small(round_about_m(fitted.pipe), FINE)} outside", room=14)
    if fitted.barred:
        return "\n".join([*lines, *beside("no hole", fitted.barred, room=14), ""])
    for size, window in fitted.windows:
        lines += ["", *_bit_lines(fitted, size, window)]
    for text in fitted.unsettled:
        lines += beside("not settled", text, room=14)
    return "\n".join([*lines, ""])


def fall_text(fallen: Fallen) -> str:
    """Return the fall, its slope, what is spare or short, and what the pipe carries."""
    fall = float(fallen.fall)
    slope = from_si(fallen.slope, Kind.SLOPE, "%")
    per_foot = from_si(fallen.slope, Kind.SLOPE, "in/ft").shown(SIXTEENTH)
    falls = f"{_small(abs(fall))} over {fallen.length.shown()}"
    lines = beside("fall" if fall > 0 else "RISES", falls, room=14)
    lines += beside("slope", f"{slope.shown()}, about {per_foot}", room=14)
    if fallen.least is not None:
        need = float(fallen.least) * float(fallen.length)
        needs = f"{_small(need)} at {fallen.least.shown()} ({fallen.source})"
        lines += beside("needs", needs, room=14)
        word = "spare" if fallen.spare_m >= 0 else "SHORT by"
        lines += beside(word, _small(abs(fallen.spare_m)), room=14)
        if fallen.spare_m < 0 < fall:
            longest = from_si(fall / float(fallen.least), Kind.LENGTH, fallen.length.unit)
            lines += beside("longest", f"{longest.shown()} at that slope", room=14)
    elif fallen.source:
        lines += beside("needs", fallen.source, room=14)
    if fallen.pipe is not None and fall > 0:
        lines += _carried(fallen.pipe, fallen.slope)
    return "\n".join([*lines, ""])


def _carried(pipe: Pipe, slope: float) -> list[str]:
    """Return what a pipe carries running just full."""
    flow = from_si(full_flow(pipe.section, slope, pipe.n), Kind.FLOW, "gpm").shown()
    speed = from_si(full_velocity(pipe.section, slope, pipe.n), Kind.VELOCITY, "ft/s").shown()
    return beside("carries", f"{flow} running full at {speed} ({pipe.name})", room=14)


def _bit_lines(fitted: Fitted, size: HoleSize, window: Window) -> Iterator[str]:
    """Yield one bit: its window, which limits bind, and what the crew marks."""
    gap = f"{_small(size.bit_m)} (grout gap {_small(size.gap_m, FINE)})"
    yield from beside("bit", gap, room=14)
    low, high = window.low, window.high
    if window.empty:
        crossed = _small(low.height_m - high.height_m, FINE)
        told = f"none: two limits cross by {crossed}"
        yield from beside("hole bottom", told, room=14)
    else:
        span = _by_tape(low.height_m, high.height_m)
        yield from beside("hole bottom", f"{span} above the flow line", room=14)
    yield from beside("  not below", _bound(low), room=14)
    yield from beside("  not above", _bound(high), room=14)
    if not window.empty:
        ends = [float(fitted.reveal) - end.height_m - size.bit_m / 2 for end in (high, low)]
        yield from beside("bit center", f"{_by_tape(*ends)} below the curb top", room=14)


def _by_tape(low_m: float, high_m: float) -> str:
    """Return a span of heights in sixteenths that lie within it, or in decimals if none does."""
    sixteenth = float(measure(SIXTEENTH, "in", Kind.LENGTH))
    low, high = ceil(low_m / sixteenth - NOISE), floor(high_m / sixteenth + NOISE)
    if low > high:
        return f"{_small(low_m, FINE)} to {_small(high_m, FINE)}"
    if low == high:
        return _small(low * sixteenth)
    return f"{_small(low * sixteenth)} to {_small(high * sixteenth)}"


def _bound(bound: Bound) -> str:
    """Return one limit with its height and where it stands."""
    source = f" ({bound.source})" if bound.source else ""
    height = _small(abs(bound.height_m), FINE)
    sign = "-" if bound.height_m < 0 else ""
    return f"{sign}{height}: {bound.name}{source}"


def _small(metres: float, step: Fraction | None = None) -> str:
    """Return a small length in inches as a tape has it; with a step, in decimals if it has not."""
    told = from_si(metres, Kind.LENGTH, "in")
    plain = told.shown()
    if step is None or abs(float(read_measure(plain, Kind.LENGTH)) - metres) < NOISE:
        return plain
    return told.shown(step)


def _read(option: str, text: str, kind: Kind, faults: list[Fault]) -> Measure | None:
    """Return what was typed as a quantity, or nothing once the fault is noted."""
    try:
        return read_measure(text, kind)
    except UnitError as error:
        faults.append(Fault(option, error.found, error.expected, error.fix))
        return None


def _pipe(text: str, faults: list[Fault]) -> Pipe | None:
    """Return the pipe that was typed, or nothing once the fault is noted."""
    try:
        return find_pipe(text)
    except UnknownPipe as unknown:
        fix = f"such as {', '.join(unknown.near[:3])}"
        faults.append(Fault("--pipe", repr(text), "a pipe that is known", fix))
        return None


def _rules(layers: Sequence[Sheet], curb: str) -> RulesInForce:
    """Return the rules where nothing is known but the curb, on the day the sheet was checked."""
    day = layers[0].checked
    facts = dict.fromkeys(FACTS, UNKNOWN)
    known: dict[str, object] = {"outlet": "core", "curb": curb, "new_outlet": True}
    lookup = Lookup(stack_of(tuple(layers)), dict.fromkeys(Clock, day), facts | known, {})
    found: dict[str | tuple[object, ...], InForce] = {}
    found.update(lookup.constant)
    return RulesInForce(lookup, found)


def _barred(rules: RulesInForce, curb: str) -> str:
    """Return why this curb is not to be cored at all; empty where it may be."""
    let = rules.at(OUTLET_ALLOWED, water="roof")
    if let.known and let.stance == "barred":
        return f"the town lets no roof water go through a core ({let.source})"
    wanted = rules[CORE_CURBS]
    if isinstance(wanted.value, Words) and curb not in wanted.words:
        return f"cored are {', '.join(wanted.words)} curbs only ({wanted.source})"
    if curb == "none":
        return "there is no curb"
    return f"a core would break out of a {curb} curb: saw a notch" if curb in ROLLS else ""


def _none_taken(rules: RulesInForce, sizes: list[HoleSize], taking: list[HoleSize]) -> str:
    """Return why no bit takes a pipe: it is too wide, or its gap or the bit is not as wanted."""
    if not any(size.outside_m <= size.bit_m for size in sizes):
        return "the pipe is wider than the bit"
    rule, what = (rules[CORE_BIT], "hole") if taking else (rules[CORE_GAP], "grout gap")
    bits = ", ".join(_small(s.bit_m) for s in sizes if s.outside_m <= s.bit_m)
    return f"of the bits that take it ({bits}) none keeps the {what} {rule.text} ({rule.source})"


def _unsettled(rules: RulesInForce) -> Iterator[str]:
    """Yield the limits that nobody has set, or that hang on what is not known at the curb."""
    for key in ASKED:
        found = rules[key]
        if found.open and not found.silent:
            yield f"{key.question} {found.why}"


def _towns_slope(layers: Sequence[Sheet]) -> tuple[Measure | None, str]:
    """Return the steepest of the town's least slopes with its source; else why there is none."""
    rules = _rules(layers, "vertical")
    found = [rules.at(PIPE_SLOPE, place=place) for place in ("right-of-way", "private")]
    least = [(rule.least, rule.source) for rule in found if rule.least is not None]
    if not least:
        return None, f"{layers[0].title} sets no least slope that is known here"
    return max(least, key=lambda pair: pair[0])
