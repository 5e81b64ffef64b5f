"""The sentences of a profile: where the fall goes, and the notes beside the drawing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.info import held, loosened
from permitkit.drawing.lettering import wrapped
from permitkit.drawing.profile.crossings import crossing_words
from permitkit.drawing.shapes import LEAST_LETTERING_MM
from permitkit.drawing.sheet_parts.written import rain_text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from permitkit.drawing.profile.course import Course

__all__ = ["fall_words", "notes", "sentences"]

_LISTED = 4
_NOTHING_M = 1e-9


def sentences(course: Course, width_mm: float) -> tuple[str, ...]:
    """Return the lines under the title: where the fall goes, and what the run crosses."""
    texts = filter(None, (fall_words(course), crossing_words(course)))
    return tuple(
        loosened(line)
        for text in texts
        for line in wrapped(held(text), width_mm, LEAST_LETTERING_MM)
    )


def fall_words(course: Course) -> str:
    """Return where the fall goes: what there is, what each reach needs, what is spare."""
    fall, write = course.study.water.fall, course.figures
    first, last = course.trunk[-1], course.trunk[0]
    length = write.distance(first.station_m - last.station_m)
    have = (
        f"Fall budget: {first.name} {write.at_level(fall.start_level_m)} less outlet "
        f"{write.at_level(fall.outlet_level_m)} leaves {write.height(fall.available_m)} "
        f"over {length}."
    )
    return f"{have} {_needs(course)}"


def _needs(course: Course) -> str:
    """Return what the least slopes take of the fall, and what is left."""
    fall, write = course.study.water.fall, course.figures.height
    total = sum(need for _, need in fall.needs_m)
    if total <= _NOTHING_M:
        return "No least slope is set, so none of it is spoken for."
    each = [f"{name} {write(need)}" for name, need in fall.needs_m]
    listed = ", ".join(each) if len(each) <= _LISTED else f"all {len(each)} reaches {write(total)}"
    left = "spare" if fall.spare_m >= -_NOTHING_M else "short"
    return f"At the least slopes allowed: {listed}; {left} {write(abs(fall.spare_m))}."


def notes(course: Course, hand_dig_m: float | None, untold: Sequence[str] = ()) -> tuple[str, ...]:
    """Return the notes beside the drawing.

    Parameters
    ----------
    course
        What is drawn.
    hand_dig_m
        How near a marked line digging must be by hand; None where it is not known. [m]
    untold
        Reaches in words that found no room under the drawing.
    """
    return (
        *_digging(course, hand_dig_m),
        *(f"{words}." for words in untold),
        *(f"Standing water at {p.where}: {course.pool_words(p)}." for p in course.pools_aside),
        _water(course),
        "Local code and licensed practice decide.",
    )


def _water(course: Course) -> str:
    """Return the flow and rain that the water line is for."""
    water, write = course.study.water, course.figures
    words = f"Water line: {write.flow(water.outlet_flow_m3s)}"
    rain = water.rain
    if rain.intensity_ms is not None:
        basis = ", ".join(part for part in (rain.period, rain.duration) if part) or rain.source
        words += f", rain {rain_text(write, rain.intensity_ms)} ({basis})"
    return f"{words}, gutter running." if course.curb else f"{words}."


def _digging(course: Course, hand_dig_m: float | None) -> Iterator[str]:
    """Yield how marked lines are kept whole."""
    along = [u for u in course.job.utility if u.along == "run"]
    for utility in along:
        depth = f"{utility.depth.shown()} deep" if utility.depth else "depth not known"
        yield f"{utility.kind} runs beside the pipe, {depth}."
    if not course.job.utility:
        yield "No buried lines are known to cross the run; call before you dig."
        return
    ticket = course.job.locate.ticket
    called = f"locate ticket {ticket}" if ticket else "call the locates before digging"
    within = f" within {course.figures.height(hand_dig_m)} of a mark" if hand_dig_m else " at marks"
    yield f"Dig by hand{within}; {called}."
