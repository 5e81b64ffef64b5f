"""Every value of a job that a form may be told, by its plain name."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.packet.forms.told.people import people_and_place
from permitkit.packet.forms.told.work import work_and_dates

if TYPE_CHECKING:
    from permitkit.checks.judge import Judged
    from permitkit.packet.forms.told.known import Known

__all__ = ["form_values"]


def form_values(judged: Judged) -> dict[str, Known]:
    """Return what the job, the firm and the study say to every name that a form may use."""
    return {**people_and_place(judged), **work_and_dates(judged)}
