"""What nobody measured: the value taken, how low and how high it might be, and why."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from permitkit.model.job import Assumption, Job
from permitkit.units import Kind, read_measure

if TYPE_CHECKING:
    from permitkit.units import Measure

__all__ = ["assumed_words", "with_assumptions"]


@dataclass(frozen=True, slots=True)
class _Guess:
    """A default: the field, its basis, and value, low and high in each system of units."""

    table: str
    field: str
    kind: Kind
    us: tuple[str, str, str]
    metric: tuple[str, str, str]
    note: str
    applies: Callable[[Job], bool]

    @property
    def path(self) -> str:
        """The field by its dotted path."""
        return f"{self.table}.{self.field}"

    def in_units(self, units: str) -> tuple[str, str, str]:
        """Return value, low and high in a system of units."""
        return self.metric if units == "metric" else self.us

    def for_job(self, job: Job) -> Assumption:
        """Return the default as assumed for a job."""
        texts = self.in_units(job.units)
        value, low, high = (read_measure(text, self.kind) for text in texts)
        return Assumption(self.path, value, low, high, self.note)


def _always(_: Job) -> bool:
    return True


def _has_curb(job: Job) -> bool:
    return job.curb.shape != "none"


def _has_face(job: Job) -> bool:
    return job.curb.shape in {"vertical", "sloping", "granite"}


def _has_pan(job: Job) -> bool:
    return job.gutter.kind != "none"


def _has_flow(job: Job) -> bool:
    return job.gutter.flow is not None


def _is_cored(job: Job) -> bool:
    return job.outlet.kind == "core"


def _one(text: str) -> tuple[str, str, str]:
    return text, text, text


_GUESSES: tuple[_Guess, ...] = (
    _Guess(
        "walk",
        "thickness",
        Kind.LENGTH,
        ("4 in", "3 1/2 in", "6 in"),
        ("100 mm", "90 mm", "150 mm"),
        "to be confirmed at saw cut",
        _always,
    ),
    _Guess(
        "gutter",
        "pan_width",
        Kind.LENGTH,
        _one("18 in"),
        _one("450 mm"),
        "drawn as typical",
        _has_pan,
    ),
    _Guess(
        "gutter",
        "pan_slope",
        Kind.SLOPE,
        ("1/2 in/ft", "1/4 in/ft", "1 in/ft"),
        ("4 %", "2 %", "8 %"),
        "usual for a gutter pan, to be leveled at the hole",
        _has_pan,
    ),
    _Guess(
        "gutter",
        "cross_slope",
        Kind.SLOPE,
        ("2 %", "1.5 %", "3 %"),
        ("2 %", "1.5 %", "3 %"),
        "usual for a pavement, to be leveled across the lane",
        _has_flow,
    ),
    _Guess("curb", "batter", Kind.SLOPE, _one("1:12"), _one("1:12"), "drawn as typical", _has_face),
    _Guess(
        "curb", "radius", Kind.LENGTH, _one("1/2 in"), _one("12 mm"), "drawn as typical", _has_face
    ),
    _Guess(
        "curb",
        "base_depth",
        Kind.LENGTH,
        _one("18 in"),
        _one("450 mm"),
        "drawn as typical",
        _has_curb,
    ),
    _Guess(
        "level",
        "error",
        Kind.LENGTH,
        _one("1/8 in"),
        _one("3 mm"),
        "usual for a builder's level over a front yard",
        _always,
    ),
    _Guess(
        "outlet",
        "barrel_out",
        Kind.LENGTH,
        _one("9 in"),
        _one("230 mm"),
        "usual barrel past the face",
        _is_cored,
    ),
)


_DEPTH, _HALF = "gutter.depth_running", "half the reveal"


def assumed_words(field: str, units: str) -> str:
    """Return what is assumed where a job leaves a field out, in words; nothing where nothing is.

    Parameters
    ----------
    field
        The field by its dotted path.
    units
        The units the job is printed in: `us` or `metric`.
    """
    if field == _DEPTH:
        return f"{_HALF}, perhaps a quarter to three quarters of it"
    for guess in _GUESSES:
        if guess.path == field:
            value, low, high = guess.in_units(units)
            ends = f", perhaps {low} to {high}" if low != high else ""
            return f"{value}{ends} ({guess.note})"
    return ""


def with_assumptions(job: Job) -> Job:
    """Return a job with every default filled in, each told in `assumed`.

    A field the job states stays as it is; what has no bearing on this job is not assumed.
    """
    assumed = [guess.for_job(job) for guess in _GUESSES if guess.applies(job) and _open(job, guess)]
    if _has_curb(job) and job.gutter.depth_running is None and not _has_flow(job):
        assumed.append(_running_depth(job))
    for one in assumed:
        table, _, field = one.field.partition(".")
        filled = getattr(job, table).model_copy(update={field: one.value})
        job = job.model_copy(update={table: filled})
    return job.model_copy(update={"assumed": tuple(assumed)})


def _open(job: Job, guess: _Guess) -> bool:
    return getattr(getattr(job, guess.table), guess.field) is None


def _running_depth(job: Job) -> Assumption:
    """Return the depth the gutter runs in a storm: half the least reveal."""
    reveal = min(job.curb.reveal)
    low, value, high = (_part(reveal, quarters) for quarters in (1, 2, 3))
    return Assumption(_DEPTH, value, low, high, _HALF)


def _part(reveal: Measure, quarters: int) -> Measure:
    return reveal * Fraction(quarters, 4)
