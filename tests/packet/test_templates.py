"""Templates of a town's own: the nearest is used, faulty ones are told, no file is within reach."""

from __future__ import annotations

import io
import shutil
from collections.abc import Mapping
from typing import TYPE_CHECKING

import pytest
from packets import FAILING, READY, judged
from pypdf import PdfReader
from town_forms import ROOT, TOWN, judged_in
from town_forms import town as laid

from permitkit.checks.judge import judge
from permitkit.errors import InputError
from permitkit.load.find_sheet import SheetPlaces
from permitkit.load.rule_sheet import load_layers
from permitkit.packet.assembly import town_copy
from permitkit.packet.values import values_of
from permitkit.packet.wording.folders import shipped_templates, template_folders
from permitkit.packet.wording.names import NAMES, told
from permitkit.packet.wording.tried import template_faults

if TYPE_CHECKING:
    from pathlib import Path

    from permitkit.errors import Fault
    from permitkit.packet.wording.names import Tree


def layer(folder: Path, place: str) -> Path:
    """Lay a copy of a sheet that the town follows into a folder; return its place."""
    own = folder / "jurisdictions" / place
    own.mkdir(parents=True, exist_ok=True)
    shutil.copy(ROOT / "jurisdictions" / place / "rules.toml", own)
    return own


def write(place: Path, **templates: str) -> None:
    (place / "templates").mkdir(exist_ok=True)
    for name, text in templates.items():
        (place / "templates" / f"{name}.txt").write_text(text, encoding="utf-8")


def printed(folder: Path, *wording: Path) -> str:
    """Return the text of the demo job's packet in the town of a folder."""
    made = town_copy(judged_in(folder), draft=True, folder=folder, wording=wording)
    pages = PdfReader(io.BytesIO(made.pdf)).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


# ---- which one is used


@pytest.mark.parametrize("name", ["need", "scope", "application", "restoration"])
def test_the_packet_uses_the_towns_own_template(tmp_path: Path, name: str) -> None:
    write(laid(tmp_path), **{name: "## Own wording\n\nOf {{ site.address }} we say this."})

    assert "Own wording Of 5 Curlew Way, Harrow Heights we say this." in printed(tmp_path)


def test_the_town_stands_before_what_it_follows_and_that_before_the_firm(tmp_path: Path) -> None:
    town, state = laid(tmp_path), layer(tmp_path, "us-xx")
    firm = tmp_path / "templates"
    write(tmp_path, scope="The firm's scope.", need="The firm's need.", application="The firm's.")
    write(state, scope="The state's scope.", need="The state's need.")
    write(town, scope="The town's scope.")

    text = printed(tmp_path, firm)

    assert "The town's scope." in text
    assert "The state's need." in text
    assert "The firm's." in text


def test_the_shipped_templates_come_last(tmp_path: Path) -> None:
    laid(tmp_path)
    sheets = load_layers(TOWN, SheetPlaces(job=tmp_path))

    assert template_folders(sheets) == (shipped_templates(),)


def test_a_template_may_take_in_the_shipped_one(tmp_path: Path) -> None:
    write(laid(tmp_path), need="First this.\n\n{% include 'part.txt' %}", part="Then that.")

    assert "First this. Then that." in printed(tmp_path)


# ---- what is wrong with one


def tried(folder: Path, **templates: str) -> list[Fault]:
    """Return what a town's check tells of its templates."""
    write(laid(folder), **templates)
    return list(template_faults(load_layers(TOWN, SheetPlaces(job=folder))))


WHERE = f"jurisdictions/{TOWN}/templates/scope.txt"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("One.\n{% if %}\n", 2),
        ("One.\n\n{{ site.adress }}", 3),
        ("{{ nobody }}", 1),
        ("One.\n{% for x in water.inflows %}\n{{ x.flaw }}\n{% endfor %}", 3),
        ("{{ site.address | shuot }}", 1),
    ],
)
def test_a_faulty_template_is_told_with_its_line_by_check_and_packet(
    tmp_path: Path, text: str, line: int
) -> None:
    (fault,) = tried(tmp_path, scope=text)
    with pytest.raises(InputError) as caught:
        printed(tmp_path)

    assert fault.where == f"{WHERE}: line {line}"
    assert caught.value.faults[0].where == f"{WHERE}: line {line}"


def test_a_name_nearly_right_is_offered(tmp_path: Path) -> None:
    (fault,) = tried(tmp_path, scope="{{ site.adress }}")

    assert fault.found == "'adress'"
    assert fault.fix.startswith("did you mean address")


def test_a_wrong_name_in_a_branch_that_is_seldom_taken_is_told(tmp_path: Path) -> None:
    (fault,) = tried(tmp_path, scope="{% if curb.notch %}\n{{ curb.noch }}\n{% endif %}")

    assert fault.where == f"{WHERE}: line 2"


@pytest.mark.parametrize("text", ["{{ 1 / 0 }}", "{{ 'a' + 1 }}", "{{ site | map('x') | list }}"])
def test_whatever_a_template_does_wrong_is_a_fault_of_its_file(tmp_path: Path, text: str) -> None:
    write(laid(tmp_path), scope=f"One.\n{text}")

    with pytest.raises(InputError) as caught:
        printed(tmp_path)

    assert caught.value.faults[0].where.startswith(WHERE)


@pytest.mark.parametrize(
    "text",
    [
        "{% include '../rules.toml' %}",
        "{% include '/etc/hostname' %}",
        "{{ site.__class__ }}",
        "{{ ''.__class__.__mro__[1].__subclasses__() }}",
    ],
)
def test_no_file_and_nothing_of_the_program_is_within_reach(tmp_path: Path, text: str) -> None:
    write(laid(tmp_path), scope=text)

    with pytest.raises(InputError):
        printed(tmp_path)


def test_names_that_a_template_makes_itself_are_no_fault(tmp_path: Path) -> None:
    text = """
{% macro said(thing) %}{{ thing }}{% endmacro %}
{% set count = 0 %}{% set where = site.address %}
{% with here = town.title %}{{ here }}{% endwith %}
{% for name, value in restoration.items() %}{{ name }} {{ value }} {{ loop.index }}{% endfor %}
{% for passed in outlet.passed_over if passed.way %}{{ said(passed["way"]) }}{% endfor %}
{{ said(where) }} {{ count }} {{ range(2) | list | length }}
{{ restoration.grout | default("none") }}
"""

    assert tried(tmp_path, scope=text) == []


def test_a_template_that_no_page_uses_is_told(tmp_path: Path) -> None:
    (fault,) = tried(tmp_path, scop="Hello.")

    assert fault.found == "a template 'scop', which no page uses"
    assert fault.fix == "did you mean scope?"


def test_a_template_that_is_no_text_is_told(tmp_path: Path) -> None:
    write(laid(tmp_path))
    (tmp_path / "jurisdictions" / TOWN / "templates" / "scope.txt").write_bytes(b"\xff\xfe\x00")

    (fault,) = template_faults(load_layers(TOWN, SheetPlaces(job=tmp_path)))

    assert fault.where == WHERE
    assert fault.found == "a text that is not UTF-8"


def test_the_shipped_templates_use_only_names_they_are_given(tmp_path: Path) -> None:
    place = laid(tmp_path)
    shutil.copytree(shipped_templates(), place / "templates")

    assert list(template_faults(load_layers(TOWN, SheetPlaces(job=tmp_path)))) == []
    assert {path.stem for path in shipped_templates().glob("*.txt")} == set(NAMES)


# ---- the names that are declared are those that are given


def shape(value: object, tree: Tree, place: str, seen: set[str]) -> None:
    """Note every name that a value gives, and refuse one that is not declared."""
    if isinstance(value, Mapping):
        assert isinstance(tree, Mapping), place
        for name, below in value.items():
            assert name in tree, f"{place}.{name}"
            seen.add(f"{place}.{name}")
            shape(below, tree[name], f"{place}.{name}", seen)
    elif isinstance(value, list | tuple):
        assert isinstance(tree, tuple), place
        for each in value:
            shape(each, tree[0], f"{place}[]", seen)


def every(tree: Tree, place: str) -> set[str]:
    if isinstance(tree, tuple):
        return every(tree[0], f"{place}[]")
    if not isinstance(tree, Mapping):
        return set()
    below = set().union(*(every(one, f"{place}.{name}") for name, one in tree.items()))
    return below | {f"{place}.{name}" for name in tree}


def test_the_names_declared_are_the_names_given() -> None:
    seen: set[str] = set()
    answered = judged("sorrel-flats-notch")
    asking = judge(answered.job.model_copy(update={"answer": ()}), answered.rules.sheets)
    for one in (asking, *map(judged, (*READY, *FAILING))):
        shape(values_of(one), NAMES["scope"], "", seen)

    never = {name for name in every(NAMES["scope"], "") - seen if ".restoration." not in name}
    assert never == set()


def test_names_are_told_for_a_guide() -> None:
    lines = told(NAMES["application"])

    assert "`revision`" in lines
    assert "`declarations`: a list" in lines
    assert any(line.startswith("`site`: `address`, `parcel`") for line in lines)
    assert "`curb.hole`: `bit`, `bottom`, `invert`, `strip`, `gap`, `centre`, `window`" in lines
    assert "`water.standing`: a list, each with `where`, `volume`, `depth`" in lines
