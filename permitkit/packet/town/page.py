"""A town's rules as a page to read: subject by subject, with where each stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.keys.subjects import by_subject
from permitkit.model.telling import ladder_text, when_text
from permitkit.packet.parts import facts, table
from permitkit.packet.prose import prose
from permitkit.packet.wording.folders import template_folders
from permitkit.render.blocks import Bullets, Heading, Paragraph, escape
from permitkit.study.keeping.said import left_open, said, sheet_state, told

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from datetime import date
    from pathlib import Path

    from permitkit.model.rules import Permit, RuleKey, Sheet, Source
    from permitkit.render.blocks import Block
    from permitkit.study.keeping.said import Said
    from permitkit.study.keeping.state import SheetState

__all__ = ["town_page", "town_values"]

_WIDTHS = (30, 48, 36)


def town_values(sheets: Sequence[Sheet], day: date) -> dict[str, object]:
    """Return what the wording about a town may name."""
    town, state = sheets[0], sheet_state(sheets, day)
    values = {
        "title": town.title,
        "place": town.place,
        "standing": town.standing or "not verified with the town",
        "verified": town.verified,
        "office": town.office or town.title,
        "address": town.office_address,
        "phone": town.office_phone,
        "email": town.office_email,
        "checked": town.checked.isoformat(),
        "age": state.age,
        "due": town.due.isoformat(),
        "overdue": state.overdue,
    }
    return {"town": values, "day": day.isoformat()}


def town_page(
    sheets: Sequence[Sheet], day: date, wording: Sequence[Path] = ()
) -> tuple[Block, ...]:
    """Return a town's rules in force on a day as a page to read.

    Parameters
    ----------
    sheets
        The town's sheet first, then the layers it follows.
    day
        The day whose editions are printed.
    wording
        The firm's own folders of templates, nearest first; the town's stand in front of them.
    """
    return (
        *prose("town-page", town_values(sheets, day), template_folders(sheets, wording)),
        _particulars(sheets, day),
        *_permits(sheets),
        *_rules(sheets, day),
        *_left_open(sheets, day),
        Heading("Sources", level=2),
        *_sources(sheets),
    )


def _particulars(sheets: Sequence[Sheet], day: date) -> Block:
    town, state = sheets[0], sheet_state(sheets, day)
    counts = ", ".join(f"{count} {name}" for name, count in state.counts.items())
    closings = (f"{shut.isoformat()} {why}" for shut, why in town.closings.items())
    others = (f"{street.text} ({street.authority})" for street in town.listed_streets)
    paved = (f"{street} {laid.isoformat()}" for street, laid in town.paved.items())
    return facts(
        [
            ("Standing", town.standing),
            ("Last held against its sources", f"{town.checked.isoformat()}{_ago(state)}"),
            ("Due for another look", f"{town.due.isoformat()}{' OVERDUE' * state.overdue}"),
            ("Office", ", ".join(filter(None, (town.office, town.office_address)))),
            ("Telephone", town.office_phone),
            ("Electronic mail", town.office_email),
            ("Builds on", ", ".join(sheet.title for sheet in sheets[1:])),
            ("Questions", counts),
            ("Closed, besides public holidays", "; ".join(closings)),
            ("Streets of another authority", "; ".join(others)),
            ("Streets with the day they were paved", "; ".join(paved)),
            ("Rule sheet", f"{town.path} ({town.digest[:12]})"),
        ]
    )


def _ago(state: SheetState) -> str:
    return f", {state.age} ago" if state.days_old >= 0 else ""


def _permits(sheets: Sequence[Sheet]) -> Iterator[Block]:
    rows = [_permit_row(permit) for sheet in sheets for permit in sheet.permits]
    if rows:
        yield Heading("Permits", level=2)
        yield table(("Permit", "Needed", "Where it stands"), rows, _WIDTHS, dense=True)


def _permit_row(permit: Permit) -> tuple[str, str, str]:
    form = f"form {permit.form} {permit.form_edition}".rstrip() if permit.form else ""
    needed = (when_text(permit.when), form, permit.note)
    stands = permit.cite.text if permit.cite else permit.issuer
    return f"{permit.title}, {permit.issuer}", "; ".join(filter(None, needed)), stands


def _rules(sheets: Sequence[Sheet], day: date) -> Iterator[Block]:
    """Yield a table for each subject on which something is said."""
    for subject, keys in by_subject():
        words = {key: said(key, sheets, day) for key in keys}
        rows = [_row(key, found, sheets[0]) for key, found in words.items() if found]
        if rows:
            yield Heading(escape(subject), level=2)
            yield table(("Question", "Rule", "Where it stands"), rows, _WIDTHS, dense=True)


def _row(key: RuleKey, words: Sequence[Said], town: Sheet) -> tuple[str, str, str]:
    sources = dict.fromkeys(_source(word, town) for word in words)
    return key.question, _rule_text(key, words), "\n".join(sources)


def _rule_text(key: RuleKey, words: Sequence[Said]) -> str:
    """Return the cases in words, one to a line, each with who may waive it and its note."""
    lines = [f"{text}{_beside(word)}" for text, word in zip(told(key, words), words, strict=True)]
    return "\n".join(filter(None, (*lines, left_open(key, words))))


def _beside(word: Said) -> str:
    ladder = ladder_text(word.case.waivable_by, word.case.waiver_needs)
    waived = f"; may be waived by {ladder}" if ladder else ""
    note = word.case.note
    return f"{waived} ({note})" if note and note not in word.text else waived


def _source(word: Said, town: Sheet) -> str:
    other = "" if word.sheet is town or not word.case.cite else f" ({word.sheet.title})"
    return f"{word.source}{other}"


def _left_open(sheets: Sequence[Sheet], day: date) -> Iterator[Block]:
    """Yield the questions on which nothing is said."""
    silent = [key for _, keys in by_subject() for key in keys if not said(key, sheets, day)]
    expected: Mapping[str, list[RuleKey]] = {
        "Nothing is known yet: ask": [key for key in silent if not key.plain],
        "Nothing is known, and many towns never write it down": [k for k in silent if k.plain],
    }
    for head, keys in expected.items():
        if keys:
            yield Heading(head, level=2)
            yield Bullets(tuple(escape(key.question) for key in keys))


def _sources(sheets: Sequence[Sheet]) -> Iterator[Block]:
    rows = [_source_row(source) for sheet in sheets for source in sheet.sources.values()]
    if rows:
        yield table(("Document", "When", "Where", "Note"), rows, (36, 22, 40, 36), dense=True)
    else:
        yield Paragraph("None is named yet.")


def _source_row(source: Source) -> tuple[str, str, str, str]:
    dated = f", dated {source.dated}" if source.dated else ""
    return source.title, f"read {source.read.isoformat()}{dated}", source.address, source.note
