"""The drawn parts: site sketch, curb section, profile, walk cut with notes, people and traffic."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from permitkit.drawing.curb_section import curb_section
from permitkit.drawing.info import SheetInfo, day_text
from permitkit.drawing.profile import profile
from permitkit.drawing.revision import revised_sheets
from permitkit.drawing.scale import A3, A4, LETTER, TABLOID
from permitkit.drawing.site_sketch import site_sketch
from permitkit.drawing.traffic_plan import traffic_plan
from permitkit.drawing.walk_cut import walk_cut
from permitkit.model.keys.papers import DOCS_DETAILS, SAY_CAUTIONS, SAY_CONDITIONS
from permitkit.model.keys.run import UTILITY_TOLERANCE
from permitkit.packet.office import concrete
from permitkit.packet.parts import Part
from permitkit.packet.prose import prose
from permitkit.packet.say import sentences

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path
    from typing import Any

    from permitkit.checks.judge import Judged
    from permitkit.drawing.scale import Paper
    from permitkit.drawing.sheet import Sheet
    from permitkit.model.job import Job

__all__ = ["drawing_paper_of", "drawn_parts", "paper_of", "sheet_info"]

_PAPERS = {"letter": LETTER, "tabloid": TABLOID, "A4": A4, "A3": A3}


def paper_of(job: Job) -> Paper:
    """Return the paper of a job's texts: Letter, or A4 where its author measures in metres."""
    return A4 if job.units == "metric" else LETTER


def drawing_paper_of(job: Job) -> Paper:
    """Return the paper of a job's drawings: what it asks for, or that of its texts."""
    return _PAPERS[job.paper] if job.paper else paper_of(job)


def sheet_info(judged: Judged) -> SheetInfo:
    """Return what every drawing's title block says."""
    job = judged.job
    details = [
        f"{item.number}{' rev. ' + item.revision if item.revision else ''}"
        for rule in judged.rules[DOCS_DETAILS].all
        for item in getattr(rule.value, "items", ())
        if item.number
    ]
    return SheetInfo(
        town=judged.rules.sheets[0].title,
        applicant=job.firm.name if job.firm else job.site.owner,
        prepared_by=job.firm.signer if job.firm else "not given",
        date=day_text(job.filing),
        revision=job.revision,
        paper=drawing_paper_of(job),
        detail=", ".join(dict.fromkeys(details)),
    )


_View = Callable[[SheetInfo], "tuple[Sheet, ...]"]


def _drawn(views: Sequence[_View], info: SheetInfo, of: int) -> tuple[tuple[Sheet, ...], ...]:
    """Return every view's sheets, numbered through as if there were `of` in all."""
    number, out = 1, []
    for view in views:
        sheets = view(info.numbered(number, of))
        number += len(sheets)
        out.append(sheets)
    return tuple(out)


def _all_drawn(
    views: Sequence[_View], info: SheetInfo, usual: int
) -> tuple[tuple[Sheet, ...], ...]:
    """Draw once for the usual number of sheets, and again only where it turns out another."""
    drawn = _drawn(views, info, usual)
    total = sum(len(sheets) for sheets in drawn)
    return drawn if total == usual else _drawn(views, info, total)


def _views_drawn(judged: Judged) -> tuple[tuple[Sheet, ...], ...]:
    """Return the sheets of the five views: sketch, curb, profile, walk cut, traffic."""
    job, study = judged.job, judged.study
    least = judged.rules[UTILITY_TOLERANCE].least
    hand_dig = None if least is None else float(least)
    views: tuple[_View, ...] = (
        lambda info: _plan_sheets(judged, info, hand_dig),
        lambda info: curb_section(job, study, info),
        lambda info: profile(job, study, info, hand_dig_m=hand_dig),
        lambda info: walk_cut(job, study, info),
        lambda info: traffic_plan(job, study, info),
    )
    usual = len(views) + (1 if study.cut.walk_area_m2 > 0 else 0)
    return _all_drawn(views, sheet_info(judged), usual)


def _marked(judged: Judged, former: Judged | None) -> tuple[tuple[Sheet, ...], ...]:
    """Return the views' sheets, with a bar beside what changed since the job as last sent."""
    drawn = _views_drawn(judged)
    if former is None:
        return drawn
    before = [sheet for sheets in _views_drawn(former) for sheet in sheets]
    return tuple(revised_sheets(before, sheets, judged.job.revision) for sheets in drawn)


def drawn_parts(
    judged: Judged,
    values: Mapping[str, Any],
    former: Judged | None = None,
    wording: Sequence[Path] = (),
) -> tuple[Part, ...]:
    """Return the drawn parts; the restoration notes follow, and words where nothing is drawn.

    Parameters
    ----------
    judged
        The job, judged.
    values
        What the wording may speak of.
    former
        The job as it went in last time, where this is a later round.
    wording
        Folders of templates that stand in front of the shipped ones.
    """
    noted = {
        **values,
        "conditions": sentences(judged, SAY_CONDITIONS),
        "cautions": sentences(judged, SAY_CAUTIONS),
    }
    sketch, section, run, cut, traffic = _marked(judged, former)
    words = () if traffic else prose("traffic", values, wording)
    notes = prose("restoration", noted, wording)
    parts = (
        Part("site sketch", "Site sketch", sheets=sketch),
        Part("curb section", "Curb section", sheets=section),
        Part("profile", "Drain profile", sheets=run),
        Part("walk cut", "Walk cut and restoration", sheets=cut),
        Part("traffic", "People on foot and traffic", words, traffic),
        Part("notes", "Restoration notes and conditions", (*notes, *concrete(judged))),
    )
    return tuple(part for part in parts if part.blocks or part.sheets)


def _plan_sheets(judged: Judged, info: SheetInfo, hand_dig_m: float | None) -> tuple[Sheet, ...]:
    """Return the site sketch; its plan at the outlet only where no walk-cut plan shows the same."""
    alone = judged.study.cut.walk_area_m2 <= 0
    return site_sketch(judged.job, judged.study, info, hand_dig_m=hand_dig_m, at_outlet=alone)
