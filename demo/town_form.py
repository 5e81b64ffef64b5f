"""Draw the form of an invented town, HH-20 of Harrow Heights: `python demo/town_form.py`.

It is written beside the town's sheet, whose map of it is kept by hand. Like any form of a town, it
is an ordinary PDF with fields, made without a thought for who fills it in.
"""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from permitkit.render.fonts import BOLD, REGULAR
from permitkit.render.pdf import new_canvas

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

FORM = Path(__file__).resolve().parents[1] / "jurisdictions" / "harrow-heights" / "forms"
WIDTH, HEIGHT = 612.0, 792.0
LEFT, RIGHT = 54.0, 558.0
TITLE = "Application for a grading and drainage permit"
DECLARED = (
    "Only roof, footing, sump and yard water enters this line. The work is done to the details of",
    "the town, and the applicant keeps walk and gutter safe and clean until the town takes over.",
)


class Box(NamedTuple):
    """A field to write in: its name, what the form prints over it, and where it stands."""

    name: str
    label: str
    left: float
    width: float
    most: int = 0
    comb: bool = False


ROWS: tuple[tuple[str, tuple[tuple[Box, ...], ...]], ...] = (
    (
        "1  Applicant",
        (
            (Box("Applicant", "Name of applicant", 54, 300), Box("Phone", "Telephone", 366, 192)),
            (Box("Address", "Address", 54, 300), Box("Mail", "Mail address", 366, 192)),
            (
                Box("License", "Town license no.", 54, 96),
                Box("Insurer", "Insurance company", 162, 192),
                Box("Policy", "Policy no.", 366, 100),
                Box("PolicyEnds", "Ends (mm/dd/yyyy)", 478, 80),
            ),
        ),
    ),
    (
        "2  Place of work",
        (
            (
                Box("Site", "Street address", 54, 300),
                Box("Parcel", "Parcel no.", 366, 192, 12, comb=True),
            ),
            (Box("Owner", "Owner of the lot", 54, 300), Box("OwnerPhone", "Telephone", 366, 192)),
            (
                Box("Cross", "Nearest cross street", 54, 192),
                Box("CrossFeet", "Distance (ft)", 258, 96),
            ),
        ),
    ),
)
TICKS = (
    ("WorkEmitter", "emitter in the lawn"),
    ("WorkDryWell", "dry well"),
    ("WorkLateral", "lateral to a storm main"),
    ("WorkPlug", "old curb hole plugged"),
    ("WorkWalk", "walk opened"),
)
WATERS = (
    ("WaterRoof", "roof"),
    ("WaterFooting", "footing drain"),
    ("WaterSump", "sump pump"),
    ("WaterYard", "yard"),
)


def label(canvas: Canvas, text: str, x: float, y: float, *, size: float = 7.5) -> None:
    """Print what the form says over a field."""
    canvas.setFont(REGULAR, size)
    canvas.drawString(x, y, text)


def heading(canvas: Canvas, text: str, y: float) -> None:
    """Print the heading of a section over its rule."""
    canvas.setFont(BOLD, 9.5)
    canvas.drawString(LEFT, y, text)
    canvas.setLineWidth(0.6)
    canvas.line(LEFT, y - 4, RIGHT, y - 4)


def field(canvas: Canvas, box: Box, y: float, *, height: float = 17, lines: bool = False) -> None:
    """Print a label, and below it a field to write in."""
    label(canvas, box.label, box.left, y + height + 2.5)
    canvas.acroForm.textfield(
        name=box.name,
        tooltip=box.label,
        x=box.left,
        y=y,
        width=box.width,
        height=height,
        fontName="Helvetica",
        fontSize=9,
        borderStyle="solid",
        borderWidth=0.5,
        fillColor=None,
        maxlen=box.most or None,
        fieldFlags="multiline" if lines else "comb" if box.comb else "",
    )


def tick(canvas: Canvas, name: str, text: str, x: float, y: float) -> None:
    """Print a box to tick, and its words."""
    canvas.acroForm.checkbox(
        name=name,
        tooltip=text,
        x=x,
        y=y,
        size=11,
        buttonStyle="check",
        borderWidth=0.5,
        fillColor=None,
    )
    label(canvas, text, x + 15, y + 2.5, size=8.5)


def applicant_kind(canvas: Canvas, y: float) -> None:
    """Print the row of round buttons that says who applies."""
    label(canvas, "The applicant is", 300, y + 2.5, size=8.5)
    for n, kind in enumerate(("owner", "contractor", "utility")):
        x = 372 + 66 * n
        canvas.acroForm.radio(
            name="ApplicantIs",
            value=kind,
            tooltip="who applies",
            x=x,
            y=y,
            size=11,
            buttonStyle="circle",
            shape="circle",
            borderWidth=0.5,
            fillColor=None,
        )
        label(canvas, kind, x + 14, y + 2.5, size=8.5)


def street_class(canvas: Canvas, y: float) -> None:
    """Print the list of classes of street."""
    label(canvas, "Class of street", 366, y + 19.5)
    canvas.acroForm.choice(
        name="StreetClass",
        tooltip="Class of street",
        x=366,
        y=y,
        width=192,
        height=17,
        options=["-", "Local street", "Collector", "Arterial"],
        value="-",
        fontSize=9,
        borderWidth=0.5,
        fillColor=None,
        fieldFlags="combo",
    )


def work(canvas: Canvas, top: float) -> float:
    """Print the section about the work; return the height it ends at."""
    heading(canvas, "3  Work", top)
    for n, (name, text) in enumerate(TICKS):
        tick(canvas, name, text, LEFT + 172 * (n % 3), top - 22 - 17 * (n // 3))
    field(
        canvas, Box("Described", "Description", LEFT, RIGHT - LEFT), top - 92, height=38, lines=True
    )
    y = top - 122
    field(canvas, Box("Pipe", "Pipe", LEFT, 192), y)
    field(canvas, Box("PipeFeet", "Length of pipe (ft)", 258, 96), y)
    field(canvas, Box("Flow", "Design flow (gpm)", 366, 92), y)
    field(canvas, Box("Trench", "Trench in street (ft)", 470, 88), y)
    label(canvas, "Water from", LEFT, y - 16, size=8.5)
    for n, (name, text) in enumerate(WATERS):
        tick(canvas, name, text, LEFT + 60 + 90 * n, y - 19)
    return y - 44


def money(canvas: Canvas, top: float) -> float:
    """Print the section about dates and money; return the height it ends at."""
    heading(canvas, "4  Dates and sums", top)
    y = top - 40
    field(canvas, Box("Start", "Start (mmddyyyy)", LEFT, 96, 8, comb=True), y)
    field(canvas, Box("Finish", "Finish (mmddyyyy)", 162, 96, 8, comb=True), y)
    for n, (name, text) in enumerate(
        (("Cost", "Estimated cost ($)"), ("Fee", "Fee ($)"), ("Deposit", "Deposit ($)"))
    ):
        field(canvas, Box(name, text, 270 + 98 * n, 90), y)
    return y - 24


def signed(canvas: Canvas, top: float) -> None:
    """Print the declaration, the places to sign, and what the town fills in itself."""
    heading(canvas, "5  Declaration", top)
    for n, line in enumerate(DECLARED):
        label(canvas, line, LEFT, top - 17 - 10 * n, size=8.5)
    y = top - 66
    field(canvas, Box("SignatureApplicant", "Signature of applicant", LEFT, 300), y, height=22)
    field(canvas, Box("SignedOn", "Date signed", 366, 192), y, height=22)
    field(canvas, Box("SignatureOwner", "Signature of owner", LEFT, 300), y - 36, height=22)
    field(canvas, Box("OwnerSignedOn", "Date signed", 366, 192), y - 36, height=22)
    heading(canvas, "For the town", y - 58)
    field(canvas, Box("TownNumber", "Permit no.", LEFT, 192), y - 94)
    field(canvas, Box("TownBy", "Received by", 258, 192), y - 94)


def drawn() -> bytes:
    """Return the form."""
    target = BytesIO()
    size = (WIDTH / 72 * 25.4, HEIGHT / 72 * 25.4)
    canvas = new_canvas(target, size, title=f"HH-20: {TITLE}", author="Town of Harrow Heights")
    canvas.setFont(BOLD, 13)
    canvas.drawString(LEFT, 742, TITLE)
    label(canvas, "Town of Harrow Heights, Building and grading desk", LEFT, 728, size=9)
    canvas.setFont(REGULAR, 8)
    canvas.drawRightString(RIGHT, 742, "Form HH-20, edition 2025-01")
    y = 704.0
    for title, rows in ROWS:
        heading(canvas, title, y)
        if title.startswith("1"):
            applicant_kind(canvas, y - 1)
        for row in rows:
            y -= 36
            for box in row:
                field(canvas, box, y)
        if title.startswith("2"):
            street_class(canvas, y)
        y -= 22
    signed(canvas, money(canvas, work(canvas, y)))
    canvas.showPage()
    canvas.save()
    return target.getvalue()


def main() -> None:
    """Write the form beside the town's sheet."""
    FORM.mkdir(exist_ok=True)
    path = FORM / "HH-20.pdf"
    path.write_bytes(drawn())
    print(path.relative_to(FORM.parents[2]))


if __name__ == "__main__":
    main()
