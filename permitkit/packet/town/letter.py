"""Asking a town what its sheet leaves open: a script for the telephone, and a letter."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from permitkit.model.job import Job
from permitkit.model.rules import Sheet
from permitkit.packet.prose import prose
from permitkit.packet.town.page import town_values
from permitkit.packet.wording.folders import template_folders
from permitkit.render.blocks import NumberedList
from permitkit.study.keeping.questions import OpenQuestion
from permitkit.study.keeping.state import State

if TYPE_CHECKING:
    from collections.abc import Iterator

    from permitkit.render.blocks import Block

__all__ = ["Asking", "call_script", "letter"]


@dataclass(frozen=True, slots=True)
class Asking:
    """What is asked of a town: its sheets, the open questions, and the job that needs them.

    `wording` are the firm's own folders of templates; the town's stand in front of them.
    """

    sheets: Sequence[Sheet]
    day: date
    questions: Sequence[OpenQuestion]
    job: Job | None = None
    wording: Sequence[Path] = ()


def call_script(asking: Asking) -> tuple[Block, ...]:
    """Return the script for a call, with room for each answer."""
    return _filled("call-script", asking)


def letter(asking: Asking) -> tuple[Block, ...]:
    """Return the letter, with room for names, dates and answers."""
    return _filled("letter", asking)


def _filled(name: str, asking: Asking) -> tuple[Block, ...]:
    folders = template_folders(asking.sheets, asking.wording)
    return tuple(_counted_on(prose(name, _values(asking), folders)))


def _counted_on(blocks: Sequence[Block]) -> Iterator[Block]:
    """Yield the blocks, numbered lists counted on from one to the next."""
    following = 1
    for block in blocks:
        if isinstance(block, NumberedList):
            yield replace(block, start=following)
            following += len(block.items)
        else:
            yield block


def _values(asking: Asking) -> dict[str, object]:
    firm = asking.job.firm if asking.job else None
    site = (
        {"address": asking.job.site.address, "owner": asking.job.site.owner} if asking.job else {}
    )
    ranks: dict[int, list[dict[str, object]]] = {0: [], 1: [], 2: [], 3: []}
    for question in asking.questions:
        ranks[question.rank].append(_question(question))
    names = ("first", "blocking", "others", "seldom")
    return {
        **town_values(asking.sheets, asking.day),
        **dict(zip(names, ranks.values(), strict=True)),
        "firm": firm.model_dump(include={"name", "address", "phone", "email", "signer"})
        if firm
        else {},
        "job": site,
        "count": len(asking.questions),
    }


def _question(question: OpenQuestion) -> dict[str, object]:
    return {
        "key": question.key.name,
        "subject": question.subject,
        "text": question.key.question,
        "open": question.points,
        "known": question.known,
        "why": question.job_needs,
        "silent": question.state is State.SILENT,
    }
