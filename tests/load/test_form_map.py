"""The map of a form as it is read: what goes into a field, and every fault of a file at once."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from permitkit.load.forms.form_map import read_form_map
from permitkit.model.forms.form import Ask, Choose, Say, Sign, Spot, Theirs, Tick, Write

if TYPE_CHECKING:
    from permitkit.errors import Fault
    from permitkit.model.forms.form import FormMap

HEAD = """schema = 1
[form]
number = "PW-7"
title = "Street opening"
edition = "2025-09"
source = "the counter"
read = 2026-03-02
"""


def read(folder: Path, fields: str = "", head: str = HEAD) -> tuple[FormMap | None, list[Fault]]:
    path = folder / "PW-7.toml"
    path.write_text(f"{head}\n{fields}", encoding="utf-8")
    return read_form_map(path)


def sound(folder: Path, *fields: str) -> FormMap:
    form, faults = read(folder, "\n".join(f"[[field]]\n{one}" for one in fields))
    assert faults == []
    assert form is not None
    return form


def fault_of(folder: Path, field: str) -> Fault:
    form, faults = read(folder, f"[[field]]\n{field}")
    assert form is None
    (fault,) = faults
    return fault


def test_the_head_says_which_edition_of_which_form_it_is(tmp_path: Path) -> None:
    form = sound(tmp_path)

    assert (form.number, form.edition, form.read) == ("PW-7", "2025-09", date(2026, 3, 2))
    assert form.pdf == tmp_path / "PW-7.pdf"
    assert not form.declares


@pytest.mark.parametrize(
    ("written", "fill"),
    [
        ('write = "owner name"', Write(("owner name",), "", "Apr 6, 2026")),
        ('write = ["street", "parcel"]', Write(("street", "parcel"), "", "Apr 6, 2026")),
        ('write = "pipe length"\nunit = "ft"', Write(("pipe length",), "ft", "Apr 6, 2026")),
        ('write = "fee"\nunit = "$"', Write(("fee",), "$", "Apr 6, 2026")),
        ('write = "proposed start"\ndays = "04062026"', Write(("proposed start",), "", "04062026")),
        ('say = "none"', Say("none")),
        ('tick = "outlet"\nis = ["core", "notch"]', Tick("outlet", ("core", "notch"))),
        ('tick = "permits"\nis = ["street"]', Tick("permits", ("street",))),
        ('choose = "applicant"\noptions = { owner = "1" }', Choose("applicant", {"owner": "1"})),
        ("sign = true", Sign()),
        ("ask = true", Ask()),
        ('ask = "the sewer\'s depth"', Ask("the sewer's depth")),
        ("theirs = true", Theirs()),
    ],
)
def test_a_field_is_filled_in_one_of_seven_ways(tmp_path: Path, written: str, fill: object) -> None:
    (field,) = sound(tmp_path, f'name = "A"\n{written}').fields

    assert field.fill == fill


def test_a_place_on_paper_is_read_in_any_unit(tmp_path: Path) -> None:
    (field,) = sound(
        tmp_path,
        'page = 2\nacross = "1 in"\ndown = "50 mm"\nwidth = "9 cm"\nlines = 2\npitch = "8 mm"\n'
        'write = "fee"',
    ).fields

    assert field.spot == Spot(2, pytest.approx(0.0254), 0.05, 0.09, 0.0025, 2, 0.008)


PLACE = 'page = 1\nacross = "1 in"\ndown = "1 in"\nwidth = "1 in"\n'


@pytest.mark.parametrize(
    ("field", "place", "found"),
    [
        ('name = "A"', "", "nothing that goes in"),
        ('name = "A"\nwrite = "fee"\nsign = true', "", "write and sign together"),
        ('write = "fee"', "", "neither a name nor a place"),
        (f'name = "A"\nwrite = "fee"\n{PLACE}', "", "a name and a place"),
        ('name = "A"\nwrite = "ownr name"', ".write", "'ownr name'"),
        ('name = "A"\nwrite = "owner name"\nunit = "ft"', ".unit", "'ft'"),
        ('name = "A"\nwrite = "pipe length"\nunit = "gpm"', ".unit", "'gpm'"),
        ('name = "A"\nwrite = "fee"\nunit = "EUR"', ".unit", "'EUR'"),
        ('name = "A"\nwrite = "fee"\ndays = "04062026"', ".days", "'04062026'"),
        ('name = "A"\nwrite = "proposed start"\ndays = "6.4.26"', ".days", "'6.4.26'"),
        ('name = "A"\ntick = "fee"\nis = ["a"]', ".tick", "'fee'"),
        ('name = "A"\ntick = "outlet"', ".is", "nothing"),
        ('name = "A"\ntick = "outlet"\nis = ["cor"]', ".is", "'cor'"),
        ('name = "A"\nchoose = "fee"\noptions = { a = "b" }', ".choose", "'fee'"),
        ('name = "A"\nchoose = "outlet"', ".options", "nothing"),
        ('name = "A"\nchoose = "outlet"\noptions = { cor = "b" }', ".options", "'cor'"),
        ('name = "A"\nsign = false', ".sign", "false"),
        ('name = "A"\nask = ""', ".ask", "''"),
        ('name = "A"\nask = true\nprint = 1', ".print", "a field 'print'"),
        ('name = "DateSigned"\nwrite = "filing date"', "", "'DateSigned', filled in"),
        ('name = "A"\nlabel = "Signature"\nsay = "x"', "", "'A Signature', filled in"),
        (f'{PLACE}letters = "1 mm"\nwrite = "fee"', ".letters", "'1 mm'"),
        (f'{PLACE}lines = 2\nwrite = "fee"', ".pitch", "nothing"),
        (f'{PLACE}lines = 0\nwrite = "fee"', ".lines", "0"),
        (f'{PLACE.replace("page = 1", "page = 0")}write = "fee"', ".page", "0"),
        ('page = 1\nacross = "1 in"\nwidth = "1 in"\nwrite = "fee"', ".down", "nothing"),
        (
            f'{PLACE}letters = "3 mm"\ntick = "outlet"\nis = ["core"]',
            ".letters",
            "a height of letters",
        ),
    ],
)
def test_a_field_that_cannot_be_read_is_told(
    tmp_path: Path, field: str, place: str, found: str
) -> None:
    fault = fault_of(tmp_path, field)

    assert fault.where.partition(": ")[2].endswith(place)
    assert fault.where.partition(": ")[2].startswith("field 1")
    assert fault.found == found


def test_a_value_nearly_right_is_offered(tmp_path: Path) -> None:
    fault = fault_of(tmp_path, 'name = "A"\nwrite = "applicants name"')

    assert fault.fix == "did you mean applicant name or applicant phone?"


def test_a_printed_name_beside_a_signature_may_be_written(tmp_path: Path) -> None:
    (field,) = sound(tmp_path, 'name = "SignaturePrintedName"\nwrite = "signer"').fields

    assert field.fill == Write(("signer",), "", "Apr 6, 2026")


def test_a_field_named_twice_is_told(tmp_path: Path) -> None:
    _, faults = read(
        tmp_path, '[[field]]\nname = "A"\nask = true\n[[field]]\nname = "A"\nask = true'
    )

    assert [fault.found for fault in faults] == ["'A' again, after field 1, 'A'"]


def test_all_faults_of_a_map_come_at_once(tmp_path: Path) -> None:
    _, faults = read(tmp_path, "[[field]]\n[[feild]]\n", head="schema = 2\n[form]\nnumber = 7\n")

    wheres = [fault.where.partition(": ")[2] for fault in faults]
    assert wheres == [
        "schema",
        "form.read",
        "form.number",
        "form.title",
        "form.edition",
        "form.source",
        "field 1",
        "field 1",
        "feild",
    ]


def test_the_map_that_the_guide_shows_can_be_read(tmp_path: Path) -> None:
    guide = (Path(__file__).parents[2] / "jurisdictions" / "README.md").read_text(encoding="utf-8")
    (shown,) = (
        block.partition("```")[0]
        for block in guide.split("```toml\n")
        if 'number = "PW-7"' in block
    )
    path = tmp_path / "PW-7.toml"
    path.write_text(shown, encoding="utf-8")

    form, faults = read_form_map(path)

    assert faults == []
    assert form is not None
    assert {type(field.fill) for field in form.fields} == {
        Ask,
        Choose,
        Say,
        Sign,
        Theirs,
        Tick,
        Write,
    }
