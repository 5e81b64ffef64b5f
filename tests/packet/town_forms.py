"""Forms made for tests, and a demo job in a town that has them."""

from __future__ import annotations

import io
import shutil
from pathlib import Path
from typing import TYPE_CHECKING

import pypdfium2
from pypdf import PdfReader, PdfWriter
from pypdf.generic import (
    ArrayObject,
    DictionaryObject,
    FloatObject,
    NameObject,
    NumberObject,
    TextStringObject,
)
from reportlab.pdfgen.canvas import Canvas

from permitkit.checks.judge import judge
from permitkit.load.find_sheet import SheetPlaces
from permitkit.load.job_file import read_job
from permitkit.load.rule_sheet import load_layers
from permitkit.packet.forms.asked import FilledForm, filled_forms

if TYPE_CHECKING:
    from permitkit.checks.judge import Judged

ROOT = Path(__file__).resolve().parents[2]
EMITTER = ROOT / "demo" / "jobs" / "harrow-heights-emitter" / "job.toml"
TOWN = "harrow-heights"
HEAD = """schema = 1

[form]
number = "HH-20"
title = "Application"
edition = "2025-01"
source = "the counter"
read = 2026-03-16
declares = true
"""
LETTER = (612.0, 792.0)


def fields_pdf(*, size: tuple[float, float] = LETTER, pages: int = 1) -> bytes:
    """Return a form with one field of each kind on its first page, made as towns make them."""
    target = io.BytesIO()
    canvas = Canvas(target, pagesize=size, invariant=1)
    form = canvas.acroForm
    plain = {"x": 60, "height": 18, "width": 200, "fontSize": 9, "borderWidth": 0.5}
    canvas.drawString(60, size[1] - 30, "A form")
    for n, (name, more) in enumerate(
        (
            ("Name", {}),
            ("Narrow", {"width": 60}),
            ("Comb", {"maxlen": 10, "fieldFlags": "comb"}),
            ("Short", {"maxlen": 6}),
            ("Lines", {"height": 40, "fieldFlags": "multiline", "fontSize": 0}),
            ("Signature", {}),
            ("DateSigned", {}),
            ("TownUse", {}),
        )
    ):
        form.textfield(
            name=name, tooltip=f"the {name}", **(plain | more | {"y": size[1] - 90 - 46 * n})
        )
    for n, name in enumerate(("TickCore", "TickEmitter")):
        form.checkbox(name=name, tooltip=name, x=300, y=size[1] - 90 - 30 * n, size=12)
    for n, value in enumerate(("own", "firm")):
        form.radio(name="Who", value=value, x=300, y=size[1] - 160 - 30 * n, size=12, tooltip="who")
    form.choice(
        name="Class",
        x=300,
        y=size[1] - 250,
        width=120,
        height=18,
        value="-",
        options=["-", "Local", "Collector"],
        fieldFlags="combo",
    )
    canvas.showPage()
    for _ in range(pages - 1):
        canvas.drawString(60, 60, "more")
        canvas.showPage()
    canvas.save()
    return target.getvalue()


def flat_pdf(*, size: tuple[float, float] = LETTER, turn: int = 0) -> bytes:
    """Return a form without fields: ruled lines and a box, on a page that may lie turned."""
    target = io.BytesIO()
    canvas = Canvas(target, pagesize=size, invariant=1)
    canvas.setFont("Helvetica", 9)
    canvas.drawString(40, size[1] - 40, "A form without fields")
    for y in (120, 150, 180):
        canvas.line(56.7, size[1] - y, 300, size[1] - y)
    canvas.showPage()
    canvas.save()
    return changed(target.getvalue(), lambda writer: writer.pages[0].rotate(turn))


def changed(pdf: bytes, how: object) -> bytes:
    """Return a PDF after something was done to it."""
    writer = PdfWriter(clone_from=PdfReader(io.BytesIO(pdf)))
    how(writer)  # type: ignore[operator]
    target = io.BytesIO()
    writer.write(target)
    return target.getvalue()


def bare_widget(writer: PdfWriter, page: int, **entries: object) -> DictionaryObject:
    """Give a page a field that draws nothing of itself, as some programs make them."""
    widget = DictionaryObject(
        {
            NameObject("/Type"): NameObject("/Annot"),
            NameObject("/Subtype"): NameObject("/Widget"),
            NameObject("/F"): NumberObject(4),
        }
    )
    for name, value in entries.items():
        key = NameObject(f"/{name}")
        if isinstance(value, tuple):
            widget[key] = ArrayObject(FloatObject(part) for part in value)
        elif isinstance(value, int):
            widget[key] = NumberObject(value)
        elif isinstance(value, DictionaryObject):
            widget[key] = value
        else:
            named = str(value).startswith("/")
            widget[key] = NameObject(str(value)) if named else TextStringObject(str(value))
    reference = writer._add_object(widget)  # noqa: SLF001 - the library's own way to add one
    on = writer.pages[page]
    on[NameObject("/Annots")] = ArrayObject([*on.get("/Annots", ArrayObject()), reference])
    return widget


def mapped(*fields: str, head: str = HEAD) -> str:
    """Return a map with these fields, each its lines parted by semicolons."""
    tables = ["[[field]]\n" + "\n".join(part.strip() for part in one.split(";")) for one in fields]
    return "\n\n".join((head, *tables)) + "\n"


def town(folder: Path, **forms: tuple[bytes, str]) -> Path:
    """Lay a copy of the demo town into a folder, with these forms in place of its own."""
    place = folder / "jurisdictions" / TOWN
    place.mkdir(parents=True, exist_ok=True)
    shutil.copy(ROOT / "jurisdictions" / TOWN / "rules.toml", place)
    (place / "forms").mkdir(exist_ok=True)
    for name, (pdf, text) in forms.items():
        (place / "forms" / f"{name}.pdf").write_bytes(pdf)
        (place / "forms" / f"{name}.toml").write_text(text, encoding="utf-8")
    return place


def judged_in(folder: Path, *changes: tuple[str, str], job: Path = EMITTER) -> Judged:
    """Return the demo job, some of its words changed, judged in the town of a folder."""
    text = job.read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
        text = text.replace(old, new)
    shutil.copy(ROOT / "demo" / "firm.toml", folder)
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    read = read_job(path)
    return judge(read, load_layers(read.town, SheetPlaces(job=folder)))


FIELDS = (
    'name = "Name"; write = "applicant name"',
    'name = "Narrow"; write = "owner name"',
    'name = "Comb"; write = "proposed start"; days = "04062026"',
    'name = "Short"; write = "days of work"',
    'name = "Lines"; write = "hours of work"',
    'name = "Signature"; sign = true',
    'name = "DateSigned"; sign = true',
    'name = "TownUse"; theirs = true',
    'name = "TickCore"; tick = "outlet"; is = ["core"]',
    'name = "TickEmitter"; tick = "outlet"; is = ["emitter", "dry well"]',
    'name = "Who"; choose = "applicant"; options = { owner = "own", contractor = "firm" }',
    'name = "Class"; choose = "street class"; options = { local = "Local" }',
)
LONG = "Bartholomew Featherstonehaugh-Okonjo the Elder, and his heirs"
OWNER = ('owner = "Bram Okonjo"', f'owner = "{LONG}"')


def texts_of(pdf: bytes) -> list[str]:
    return [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]


def with_field(line: str) -> tuple[str, ...]:
    """Return the map's fields with one of them otherwise."""
    name = line.partition(";")[0]
    assert sum(one.startswith(name) for one in FIELDS) == 1
    return tuple(line if one.startswith(name) else one for one in FIELDS)


def filled(
    folder: Path, pdf: bytes, *fields: str, change: tuple[str, str] | None = None
) -> FilledForm:
    """Return a form filled for the demo job."""
    town(folder, **{"HH-20": (pdf, mapped(*fields))})
    (made,) = filled_forms(judged_in(folder, *([change] if change else [])))
    return made


def values(pdf: bytes) -> dict[str, str]:
    """Return what each field holds, by its own name."""
    found = PdfReader(io.BytesIO(pdf)).get_fields() or {}
    return {
        name.rpartition(".")[2]: str(held.get("/V", ""))
        for name, held in found.items()
        if "/FT" in held
    }


def inked(pdf: bytes, page: int = 0) -> str:
    """Return the text of a page with what its fields show, as PDFium draws it."""
    document = pypdfium2.PdfDocument(pdf)
    if document.get_formtype():
        document.init_forms()
        document[page].flatten()
    return document[page].get_textpage().get_text_bounded()


def spot(down: str, rest: str) -> str:
    return f'page = 1; across = "20 mm"; down = "{down}"; width = "90 mm"; {rest}'
