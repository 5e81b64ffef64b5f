"""Which forms a job has to bring: those of its permits, and those the town lists by number."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from permitkit.drawing.info import read_by_faces
from permitkit.errors import Fault, InputError
from permitkit.load.forms.found import form_maps, stray_forms
from permitkit.model.forms.form import FormMap
from permitkit.model.keys.papers import DOCS_REQUIRED
from permitkit.model.rules import Sheet
from permitkit.packet.forms.agreement import disagreements
from permitkit.packet.forms.entries import Entry, entries
from permitkit.packet.forms.filled import fill_in
from permitkit.packet.forms.opened import open_form
from permitkit.packet.forms.told import form_values

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from pathlib import Path

    from permitkit.checks.judge import Judged
    from permitkit.packet.forms.opened import FormPdf

__all__ = ["FilledForm", "faults_of_forms", "files_of_forms", "filled_forms"]


@dataclass(frozen=True, slots=True)
class FilledForm:
    """A form filled in for a job.

    `permits` are the ids of the permits it is for; `too_long` the texts that found no room in it,
    `by_hand` what is left to a pen, `to_sign` the places where somebody signs.
    """

    form: FormMap
    pdf: bytes
    permits: tuple[str, ...] = ()
    too_long: tuple[Entry, ...] = ()
    by_hand: tuple[str, ...] = ()
    to_sign: tuple[str, ...] = ()


@dataclass
class _Asked:
    """A form that is asked for: whose, which edition where it is said, and for which permits."""

    sheet: Sheet
    edition: str
    permits: list[str] = field(default_factory=list)


def _permit_ids(sheets: Iterable[Sheet]) -> frozenset[str]:
    """Return the ids of all permits that sheets list."""
    return frozenset(permit.id for sheet in sheets for permit in sheet.permits)


def faults_of_forms(sheets: Sequence[Sheet]) -> Iterator[Fault]:
    """Yield every fault of the forms beside a sheet: maps, PDFs, and both against the sheet.

    Parameters
    ----------
    sheets
        The sheet, then those it follows.
    """
    maps, faults = form_maps(sheets[0])
    yield from faults
    permits = _permit_ids(sheets)
    for form in maps:
        yield from _opened(form, permits)[1]
    if not faults:
        yield from stray_forms(sheets[0], maps)


def _opened(form: FormMap, permits: frozenset[str]) -> tuple[FormPdf | None, tuple[Fault, ...]]:
    try:
        pdf = open_form(form.pdf)
    except InputError as error:
        return None, error.faults
    return pdf, tuple(disagreements(form, pdf, permits))


def filled_forms(judged: Judged) -> tuple[FilledForm, ...]:
    """Return the town's own forms that a job needs, filled in; none where no town has its own.

    Raises
    ------
    InputError
        With every fault of the forms that are needed: their maps, their PDFs, and letters that
        cannot be printed.
    """
    wanted = list(_wanted(judged))
    if not wanted:
        return ()
    permits, values = _permit_ids(judged.rules.sheets), form_values(judged)
    faults: list[Fault] = []
    made = []
    for form, asked in wanted:
        pdf, wrong = _opened(form, permits)
        faults += wrong
        if pdf is not None and not wrong:
            entered = entries(form, pdf, values)
            faults += _unprintable(entered)
            made.append((form, asked, pdf, entered))
    if faults:
        raise InputError(tuple(dict.fromkeys(faults)))
    return tuple(_filled(*one) for one in made)


def files_of_forms(judged: Judged) -> tuple[tuple[str, Path], ...]:
    """Return the PDFs and maps of the forms that a job needs, each with a name of its own."""
    return tuple(
        (f"form-{asked.sheet.place}-{path.name}", path)
        for form, asked in _wanted(judged)
        for path in (form.pdf, form.pdf.with_suffix(".toml"))
    )


def _filled(form: FormMap, asked: _Asked, pdf: FormPdf, entered: Sequence[Entry]) -> FilledForm:
    made, too_long = fill_in(pdf, entered, form.number)
    return FilledForm(
        form,
        made,
        tuple(asked.permits),
        too_long,
        by_hand=tuple(dict.fromkeys(entry.by_hand for entry in entered if entry.by_hand)),
        to_sign=tuple(dict.fromkeys(entry.label for entry in entered if entry.signs)),
    )


def _wanted(judged: Judged) -> Iterator[tuple[FormMap, _Asked]]:
    """Yield the maps of the forms that are asked for, in the order the sheets ask."""
    kept: dict[str, tuple[FormMap, ...]] = {}
    for (number, _), asked in _asked(judged).items():
        if asked.sheet.place not in kept:
            kept[asked.sheet.place] = _maps(asked.sheet)
        found = [form for form in kept[asked.sheet.place] if form.number == number]
        if found:
            yield _of_edition(found, number, asked), asked


def _maps(sheet: Sheet) -> tuple[FormMap, ...]:
    maps, faults = form_maps(sheet)
    if faults:
        raise InputError(tuple(faults))
    return maps


def _of_edition(found: Sequence[FormMap], number: str, asked: _Asked) -> FormMap:
    """Return the form of the edition that is asked for; the newest where none is said."""
    if not asked.edition:
        return max(found, key=lambda form: form.edition)
    for form in found:
        if form.edition == asked.edition:
            return form
    there = ", ".join(sorted(form.edition for form in found))
    where, told = f"{asked.sheet.path}: form {number}", f"edition {asked.edition}, of which none is"
    fix = "get the new form, or say the edition that is still in use"
    raise InputError((Fault(where, f"{told} in forms", f"one of {there}", fix),))


def _asked(judged: Judged) -> dict[tuple[str, str], _Asked]:
    """Return every form asked for by number, with the place whose it is.

    A document that the rules list by a form's number says which edition is in use on the day. A
    form that the firm encloses itself, filled in by its own hand, is not filled in again.
    """
    asked: dict[tuple[str, str], _Asked] = {}
    own = {paper.number for paper in judged.job.papers.attachment if paper.file}
    for needed in judged.rules.permits():
        if needed.permit.form and needed.permit.form not in own:
            key = (needed.permit.form, needed.sheet.place)
            one = asked.setdefault(key, _Asked(needed.sheet, needed.permit.form_edition))
            one.permits.append(needed.permit.id)
    for rule in judged.rules[DOCS_REQUIRED].all:
        for item in getattr(rule.value, "items", ()):
            if item.number and item.number not in own and rule.sheet is not None:
                one = asked.setdefault((item.number, rule.sheet.place), _Asked(rule.sheet, ""))
                one.edition = item.revision or one.edition
    return asked


def _unprintable(entered: Iterable[Entry]) -> Iterator[Fault]:
    """Yield the texts with letters that the packet's face does not have."""
    for entry in entered:
        for text, letters in read_by_faces([entry.text] if entry.text else []):
            yield Fault(
                f"{entry.where}: {entry.label}",
                f"{text[:40]!r} with {letters}",
                "letters of the Latin, Greek or Cyrillic alphabets",
                "write it in these in the job or the firm file",
            )
