"""The forms that lie beside a sheet: `<place>/forms/*.toml`, each with its PDF."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.errors import Fault, InputError
from permitkit.load.find_sheet import folder_of
from permitkit.load.forms.form_map import read_form_map
from permitkit.load.toml_text import shown_path
from permitkit.model.reading import nearest
from permitkit.model.values import Items

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from permitkit.model.forms.form import FormMap
    from permitkit.model.rules import Sheet

__all__ = ["FOLDER", "asked_by", "form_maps", "forms_folder", "stray_forms"]

FOLDER = "forms"


def forms_folder(sheet: Sheet) -> Path:
    """Return the folder of a sheet's forms, which need not be there."""
    return folder_of(sheet.file) / FOLDER


def form_maps(sheet: Sheet) -> tuple[tuple[FormMap, ...], list[Fault]]:
    """Return the maps beside a sheet that can be read, by file name, and the faults of all."""
    found, faults = [], []
    for path in sorted(forms_folder(sheet).glob("*.toml")):
        try:
            read, wrong = read_form_map(path)
        except InputError as error:
            read, wrong = None, list(error.faults)
        faults += wrong
        if read is not None:
            found.append(read)
    return tuple(found), faults


def asked_by(sheet: Sheet) -> dict[str, set[str]]:
    """Return the forms that a sheet names, in any edition, each with the editions it asks for."""
    asked: dict[str, set[str]] = {}
    for permit in sheet.permits:
        if permit.form:
            asked.setdefault(permit.form, set()).add(permit.form_edition)
    rule = sheet.rules.get("docs.required")
    for edition in rule.editions if rule else ():
        for case in edition.cases:
            for item in case.value.items if isinstance(case.value, Items) else ():
                if item.number:
                    asked.setdefault(item.number, set()).add(item.revision)
    return asked


def stray_forms(sheet: Sheet, maps: Sequence[FormMap]) -> Iterator[Fault]:
    """Yield what is wrong between a sheet and the forms beside it.

    A map that no permit and no document names, two for one edition, an edition that is asked for
    and is not there, and a PDF without a map.
    """
    asked = asked_by(sheet)
    for form in maps:
        if form.number not in asked:
            expected = "the number of a form that the sheet names, in [[permit]] or docs.required"
            yield Fault(
                f"{form.path}: form.number", repr(form.number), expected, _near(form, asked)
            )
    kept: dict[tuple[str, str], FormMap] = {}
    for form in maps:
        other = kept.setdefault((form.number, form.edition), form)
        if other is not form:
            found = f"{form.number} of {form.edition}, as in {other.path}"
            yield Fault(f"{form.path}: form", found, "one map for each edition of a form")
    yield from _missing_editions(sheet, asked, {form.number for form in maps}, set(kept))
    yield from _without_map(sheet)


def _near(form: FormMap, asked: dict[str, set[str]]) -> str:
    return nearest(form.number, asked) or (f"the sheet names {', '.join(asked)}" if asked else "")


def _missing_editions(
    sheet: Sheet, asked: dict[str, set[str]], numbers: set[str], kept: set[tuple[str, str]]
) -> Iterator[Fault]:
    for number, editions in asked.items():
        for edition in sorted(editions - {""}):
            if number in numbers and (number, edition) not in kept:
                there = ", ".join(sorted(of for name, of in kept if name == number))
                yield Fault(
                    f"{sheet.path}: form {number}",
                    f"edition {edition}, of which no form lies in {FOLDER}",
                    f"the edition that lies there, {there}",
                    "get the new form, or say the edition that is still in use",
                )


def _without_map(sheet: Sheet) -> Iterator[Fault]:
    for path in sorted(forms_folder(sheet).glob("*.pdf")):
        if not path.with_suffix(".toml").is_file():
            where = shown_path(path)
            wanted = f"its map beside it, {path.stem}.toml"
            yield Fault(where, "no map", wanted, f"permitkit town fields {where} begins one")
