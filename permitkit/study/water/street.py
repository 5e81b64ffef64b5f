"""The street's side: how wide and how deep the gutter runs at the outlet in the design storm."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from permitkit.errors import Fault, InputError
from permitkit.hydraulics.bounds import OutOfRange
from permitkit.hydraulics.gutter import Gutter, GutterFlow, gutter_flow

if TYPE_CHECKING:
    from permitkit.model.job import Job

__all__ = ["StreetStudy", "study_street"]

PANNED = (0.015, "FHWA HEC-22, 3rd ed., table 4-3: concrete gutter, rough asphalt pavement")
PLAIN = (0.016, "FHWA HEC-22, 3rd ed., table 4-3: asphalt pavement, rough")


@dataclass(frozen=True, slots=True)
class StreetStudy:
    """The gutter at the outlet, with what runs in it before the job's flow and after.

    Parameters
    ----------
    gutter
        Its section: one slope, or a steeper pan beside the pavement.
    n_source
        Where its roughness is from.
    grade
        Fall along it over length. [-]
    own_m3s
        What the job lets go into it. [m3/s]
    before, after
        Its water without that and with it.
    """

    gutter: Gutter
    n_source: str
    grade: float
    own_m3s: float
    before: GutterFlow
    after: GutterFlow


def study_street(job: Job, own_m3s: float) -> StreetStudy | None:
    """Return the gutter's water at the outlet, where the job says what runs along it.

    Parameters
    ----------
    job
        The job; without a flow in its gutter there is nothing to compute.
    own_m3s
        What it lets go into the gutter. [m3/s]

    Raises
    ------
    InputError
        If the gutter has no fall, or no street would carry that much.

    Notes
    -----
    Uniform flow by the manual's gutter equation. The crown of the street and its far side are not
    counted: a spread beyond half the street says that the crown is under water.
    """
    flow, grade = job.gutter.flow, job.street.grade
    if flow is None:
        return None
    if grade is None or grade.si <= 0:
        found = grade.shown() if grade else "nothing"
        raise InputError.of([Fault("street.grade", found, "the fall along the gutter")])
    gutter, source = _section(job)
    try:
        before, after = (
            gutter_flow(gutter, total, float(grade))
            for total in (float(flow), float(flow) + own_m3s)
        )
    except OutOfRange:
        expected = "a flow that a street carries"
        raise InputError.of([Fault("gutter.flow", flow.shown(), expected)]) from None
    return StreetStudy(gutter, source, float(grade), own_m3s, before, after)


def _section(job: Job) -> tuple[Gutter, str]:
    """Return the gutter's section: a pan flatter than the pavement makes one slope, the flatter."""
    cross, pan = float(job.gutter.cross_slope or 0), float(job.gutter.pan_slope or 0)
    width = float(job.gutter.pan_width or 0) if job.gutter.kind != "none" else 0.0
    if cross <= 0.0:
        found = job.gutter.cross_slope.shown() if job.gutter.cross_slope else "nothing"
        raise InputError.of([Fault("gutter.cross_slope", found, "the pavement's cross slope")])
    if width > 0.0 and pan >= cross:
        return Gutter(cross, PANNED[0], width, pan), PANNED[1]
    return Gutter(min(cross, pan) if width > 0.0 < pan else cross, PLAIN[0]), PLAIN[1]
