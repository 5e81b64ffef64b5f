"""Papers that go in behind the sheets, and the files that ride inside the office copy."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from permitkit.errors import Fault, InputError
from permitkit.packet.forms.asked import files_of_forms
from permitkit.packet.parts import Part, table
from permitkit.packet.say import day
from permitkit.packet.wording.folders import templates_of
from permitkit.render.blocks import Heading

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence
    from pathlib import Path

    from permitkit.checks.judge import Judged
    from permitkit.model.papers import Attachment
    from permitkit.packet.forms.asked import FilledForm
    from permitkit.render.blocks import Block

__all__ = ["attached_files", "enclosures"]

_LARGEST = 50_000_000


def _read(folder: Path, name: str) -> bytes:
    path = folder / name
    if not path.is_file():
        raise InputError(
            (
                Fault(
                    f"attachment {name}",
                    "no such file beside the job",
                    "a PDF",
                    "put it there or take `file` out",
                ),
            )
        )
    content = path.read_bytes()
    if len(content) > _LARGEST or not content.startswith(b"%PDF"):
        raise InputError(
            (
                Fault(
                    f"attachment {name}",
                    "not a PDF, or larger than 50 MB",
                    "a PDF",
                    "print it to PDF",
                ),
            )
        )
    return content


_MADE = frozenset({"sketch", "calculation", "traffic plan"})


def _where(paper: Attachment, filled: Collection[str]) -> str:
    if paper.file:
        return "follows"
    made = paper.kind in _MADE or paper.number in filled
    return "in this packet" if made else "separate"


def enclosures(judged: Judged, folder: Path, forms: Sequence[FilledForm] = ()) -> tuple[Part, ...]:
    """Return the list of enclosures and photographs, then each enclosed PDF.

    Parameters
    ----------
    judged
        The job, judged.
    folder
        Where its files stand.
    forms
        The town's forms that stand in the packet already.
    """
    papers = judged.job.papers
    filled = {one.form.number for one in forms}
    listed = [(a.title, a.kind, a.number or "", _where(a, filled)) for a in papers.attachment]
    photos = [(p.shows, day(p.taken), p.caption or "") for p in papers.photo]
    blocks: list[Block] = []
    if listed:
        blocks += [
            Heading("Papers", level=2),
            table(("Title", "Kind", "Number", "Where"), listed, (70, 50, 30, 24)),
        ]
    if photos:
        blocks += [
            Heading("Photographs", level=2),
            table(("Shows", "Taken", "Caption"), photos, (50, 30, 94)),
        ]
    if not blocks:
        return ()
    files = tuple(
        Part("enclosures", a.title, file=_read(folder, a.file)) for a in papers.attachment if a.file
    )
    return (Part("enclosures", "Enclosures", tuple(blocks)), *files)


def attached_files(judged: Judged, files: Sequence[Path]) -> tuple[tuple[str, bytes], ...]:
    """Return what lets anyone rebuild and compare: job, firm, sheets, forms, wording, verdicts.

    Parameters
    ----------
    judged
        The job, judged.
    files
        The files it was read from.
    """
    verdicts = [
        {
            "check": v.check,
            "item": v.item,
            "outcome": v.outcome.value,
            "proposed": v.proposed,
            "limit": v.limit,
            "source": v.source,
            "cure": v.cure,
        }
        for v in judged.verdicts
    ]
    made = [("verdicts.json", json.dumps(verdicts, indent=2, ensure_ascii=False).encode())]
    made += [(f"rules-{sheet.place}.toml", sheet.data) for sheet in judged.rules.sheets]
    made += [(name, path.read_bytes()) for name, path in files_of_forms(judged)]
    made += [
        (f"template-{sheet.place}-{path.name}", path.read_bytes())
        for sheet in judged.rules.sheets
        for path in sorted(templates_of(sheet).glob("*.txt"))
    ]
    made += [(path.name, path.read_bytes()) for path in files]
    return tuple(made)
