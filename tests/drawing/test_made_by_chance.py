"""A thousand jobs made by chance, on every view: no text on another, nothing cut off, all to scale.

The ordinary run takes a few of them; `-m slow` takes them all.
"""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from chart_marks import chart_faults, chart_sheet
from random_jobs import random_job, random_study
from sheet_marks import INFO, collisions, demo, faults_of, length, struck

from permitkit.drawing.curb_section import curb_section
from permitkit.drawing.frame import drawing_room
from permitkit.drawing.front_view import front_view
from permitkit.drawing.profile import profile
from permitkit.drawing.scale import A3, A4, LETTER, TABLOID
from permitkit.drawing.shapes import Anchor, Box, Label, Line, Role
from permitkit.drawing.site_sketch import site_sketch
from permitkit.drawing.traffic_plan import traffic_plan
from permitkit.drawing.walk_cut import walk_cut

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from permitkit.drawing.info import SheetInfo
    from permitkit.drawing.sheet import Sheet
    from permitkit.model.job import Job
    from permitkit.study.results import Study

    View = Callable[[Job, Study, SheetInfo], tuple[Sheet, ...]]

PAPERS = (LETTER, TABLOID, A4, A3)
HALF_MM = 0.05
PARKED = {"parking lane", "shoulder"}
VIEWS: dict[str, View] = {
    "site sketch": lambda job, study, info: site_sketch(job, study, info, hand_dig_m=0.5),
    "curb section": curb_section,
    "front view": front_view,
    "profile": lambda job, study, info: profile(job, study, info, 0.4572),
    "walk cut": walk_cut,
    "traffic plan": traffic_plan,
    "window chart": lambda job, study, _: chart_sheet(job, study),
}


@cache
def made(seed: int) -> tuple[Job, Study]:
    job = random_job(seed)
    return job, random_study(job)


def faults(view: str, seed: int) -> Iterator[str]:
    """Yield what is wrong with the sheets that a view makes of a seed's job."""
    job, study = made(seed)
    sheets = VIEWS[view](job, study, replace(INFO, paper=PAPERS[seed % 4]))
    if view == "window chart":
        found: Iterable[str] = chart_faults(job, study)
    else:
        found = faults_of(sheets)
    yield from (f"seed {seed}: {fault}" for fault in found)
    if view == "profile":
        yield from (f"seed {seed}: {fault}" for fault in off_axis(sheets))
    if view == "traffic plan" and sheets:
        yield from (f"seed {seed}: {fault}" for fault in untold(job, study, sheets))


def off_axis(sheets: Iterable[Sheet]) -> Iterator[str]:
    """Yield the levels and stations of a profile that do not stand where their scale puts them."""
    for sheet in sheets:
        scale = re.match(r"horizontal (.*?), vertical (.*?),", sheet.scale_text)
        if scale is None:
            continue
        across, up = (_ratio(text) for text in scale.groups())
        unit = "m" if any(label.text == "in m" for label in sheet.labels) else "ft"
        levels = [
            (float(length(f"{label.text} {unit}")), label.box.centre[1])
            for label in sheet.labels
            if label.anchor is Anchor.E and re.fullmatch(r"-?\d+\.\d+", label.text)
        ]
        stations = [
            (float(length(label.text.lstrip("-"))) * (-1 if "-" in label.text else 1), label.at[0])
            for label in sheet.labels
            if label.anchor is Anchor.N and re.fullmatch(r"-?[\d.]+ (ft|m)", label.text)
        ]
        for rows, ratio in ((levels, up), (stations, across)):
            for one, other in pairwise(sorted(rows)):
                if abs((other[1] - one[1]) - 1000 * ratio * (other[0] - one[0])) > HALF_MM:
                    yield f"{sheet.title}: {one} and {other} are off scale"


def _ratio(scale: str) -> float:
    """Return a scale such as `1 in = 10 ft` or `1:100` as a number."""
    if ":" in scale:
        one, many = scale.split(":")
        return int(one) / int(many)
    paper, ground = (float(length(part)) for part in scale.split("="))
    return paper / ground


def untold(job: Job, study: Study, sheets: Iterable[Sheet]) -> Iterator[str]:
    """Yield what a traffic plan leaves out, or draws in another order than it has on the street."""
    labels = [label for sheet in sheets for label in sheet.labels]
    words = " ".join(re.sub(r"\s+", " ", label.text) for label in labels)
    traffic = study.traffic
    if job.traffic.walk_closed and "SIDEWALK CLOSED" not in words:
        yield "no sign for people on foot"
    if job.traffic.lane_taken == "none":
        return
    for name, needed in (("taper", True), ("buffer", traffic.buffer_m is not None)):
        if needed and f"{name} " not in words and f"{name}, " not in words:
            yield f"no {name}"
    at = {word: _x(labels, word) for word in ("buffer ", "taper")}
    if traffic.buffer_m is not None and not at["buffer "] < at["taper"]:
        yield "the buffer does not stand between work and taper"
    if "ROAD WORK AHEAD" not in words:
        yield "no sign ahead"


def _x(labels: Iterable[Label], word: str) -> float:
    """Return how far right the text on the street that begins with a word stands."""
    drawn = [label for label in labels if label.text.startswith(word) and label.backing]
    return min(label.box.centre[0] for label in drawn)


@pytest.mark.parametrize("seed", range(30))
@pytest.mark.parametrize("view", VIEWS)
def test_a_job_made_by_chance_has_no_fault_on_its_sheets(view: str, seed: int) -> None:
    assert list(faults(view, seed)) == []


@pytest.mark.slow
@pytest.mark.parametrize("fifty", range(20))
@pytest.mark.parametrize("view", VIEWS)
def test_a_thousand_jobs_made_by_chance_have_no_fault(view: str, fifty: int) -> None:
    seeds = range(fifty * 50, fifty * 50 + 50)

    assert [fault for seed in seeds for fault in faults(view, seed)] == []


@cache
def clean(view: str) -> Sheet:
    """Return the first sheet of a view of the clean demo job, which has no fault."""
    return VIEWS[view](*demo("millrace-clean"), INFO)[0]


@pytest.mark.parametrize("view", VIEWS)
def test_a_planted_text_on_a_text_is_found_on_every_view(view: str) -> None:
    sheet = clean(view)
    victim = sheet.labels[0]
    planted = Label("planted", victim.box.centre, Anchor.C)

    found = collisions(replace(sheet, shapes=(*sheet.shapes, planted)))

    assert collisions(sheet) == []
    assert any({victim.text, planted.text} == set(pair) for pair in found)


@pytest.mark.parametrize("view", [view for view in VIEWS if view != "window chart"])
def test_a_planted_stroke_through_a_text_or_out_of_the_room_is_found(view: str) -> None:
    sheet = clean(view)
    room = drawing_room(LETTER.landscape)
    at = (room.left + 30.0, room.bottom + 5.0)
    box = Label("planted", at).box
    stroke = Line((box.left, box.centre[1]), (box.right, box.centre[1]), Role.EXISTING)
    stray = Line(room.centre, (room.right + 20.0, room.top), Role.EXISTING)
    bare = replace(sheet, shapes=(Label("planted", at), stroke, stray), width_mm=279.4)
    bare = replace(bare, height_mm=215.9)

    assert struck(bare) == ["planted"]
    assert struck(sheet) == []
    assert any("leaves its room" in fault for fault in faults_of([bare]))


def test_a_level_off_its_place_and_a_plan_without_its_signs_are_found() -> None:
    moved = clean("profile")
    level = next(label for label in moved.labels if label.text == "100.00")
    others = tuple(shape for shape in moved.shapes if shape != level)
    moved = replace(moved, shapes=(*others, replace(level, at=(level.at[0], level.at[1] + 0.2))))
    plan = clean("traffic plan")
    signless = replace(plan, shapes=tuple(s for s in plan.shapes if "AHEAD" not in str(s)))

    assert list(off_axis([clean("profile")])) == []
    assert any("100.00" not in fault and "off scale" in fault for fault in off_axis([moved]))
    assert "no sign ahead" in list(untold(*demo("millrace-clean"), [signless]))


def test_the_random_jobs_reach_every_way_and_every_curb() -> None:
    jobs = [made(seed)[0] for seed in range(120)]

    kinds = {job.outlet.kind for job in jobs}
    shapes = {job.curb.shape for job in jobs}
    many = max(len(job.drain.inflow) for job in jobs)
    assert {"core", "notch", "existing hole", "culvert under walk"} <= kinds
    assert {"emitter", "dry well", "storm lateral"} <= kinds
    assert shapes == {"vertical", "granite", "sloping", "rolled", "half-round", "none"}
    assert any(job.drain.verge for job in jobs)
    assert many >= 12
    assert {job.traffic.lane_taken for job in jobs} >= {"none", "parking lane", "travel lane"}
    assert {job.units for job in jobs} == {"us", "metric"}
    assert {float(job.site.frontage) for job in jobs} >= {5 * 0.3048, 900 * 0.3048}


def test_a_chart_whose_bars_leave_its_box_is_found() -> None:
    sheet = clean("window chart")
    box = Box(0.0, 0.0, sheet.width_mm, sheet.height_mm)

    assert list(chart_faults(*demo("millrace-clean"))) == []
    assert list(chart_faults(*demo("millrace-clean"), box.grown(-20.0))) != []
