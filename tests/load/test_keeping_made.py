"""What is made from the code: a new town's sheet, the guide's tables and example, the schema."""

from __future__ import annotations

import json
import re
import sys
import tomllib
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft7Validator

from permitkit.load.find_sheet import SheetPlaces, find_sheet, list_places
from permitkit.load.rule_lint import lint
from permitkit.load.rule_sheet import load_layers, load_sheet
from permitkit.load.sheet.started import NewTown, started_sheet
from permitkit.model.keys import KEYS

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests"))

from regenerate import GUIDE, SCHEMA, TABLES, filled, generated  # noqa: E402 - stands beside the tests

TOWNS = Path(__file__).parent / "towns"
VALIDATOR = Draft7Validator(json.loads(SCHEMA.read_text(encoding="utf-8")))
KNOWN = {"core.bit": "at most 4 in (County of Dale)"}


def new_town(place: str = "ford", title: str = "Town of Ford", state: str = "us-xx") -> str:
    layer = load_sheet(find_sheet(state))
    return started_sheet(NewTown(place, title, layer, date(2026, 4, 6), date(2027, 4, 6)), KNOWN)


def saved(folder: Path, text: str, place: str = "ford") -> SheetPlaces:
    path = folder / place / "rules.toml"
    path.parent.mkdir()
    path.write_text(text, encoding="utf-8")
    return SheetPlaces(job=folder)


def wrong(table: dict[str, Any]) -> list[str]:
    return [f"{error.json_path}: {error.message}" for error in VALIDATOR.iter_errors(table)]


# ---- a sheet to begin with


@pytest.mark.parametrize("state", [name for name in list_places() if name.startswith("us")])
def test_a_sheet_begun_on_any_state_loads_and_is_free_of_lint(tmp_path: Path, state: str) -> None:
    layers = load_layers("ford", saved(tmp_path, new_town(state=state)))

    assert lint(layers[0], layers[1:]) == ()
    assert layers[0].rules == {}
    assert layers[1].place == state
    assert layers[0].standing == "not verified with the town"


def test_every_key_stands_in_it_with_its_question_and_an_example() -> None:
    text = new_town()

    plain = " ".join(text.replace("\n# ", " ").split())
    for key in KEYS.values():
        assert f"# {key.name} = {{ " in text
        assert key.question in plain
    assert "# said already: at most 4 in (County of Dale)" in text


def test_its_examples_load_once_the_mark_is_off_and_a_figure_is_in(tmp_path: Path) -> None:
    lines = new_town().splitlines()
    begin = next(n for n, line in enumerate(lines) if line.startswith("# [source"))
    end = next(n for n, line in enumerate(lines) if "is a list of cases" in line)
    example = re.compile(r"# (?:[a-z_]+(?:\.[a-z_]+)? = |\[)")
    opened = [
        line.removeprefix("# ") if begin <= n < end and example.match(line) else line
        for n, line in enumerate(lines)
    ]
    text = "\n".join(opened).replace('"…', '"2').replace("= …", "= 2").replace("…", "1")

    (sheet, *_) = load_layers("ford", saved(tmp_path, text))
    assert set(sheet.rules) == set(KEYS)
    assert [permit.id for permit in sheet.permits] == ["street"]


def test_its_examples_of_cases_and_of_editions_load(tmp_path: Path) -> None:
    head, mark, long = new_town().partition("# ---- A rule with conditions")
    lines = [line for line in long.splitlines()[2:] if not line.startswith("# ----")]
    rules = "\n".join(line.removeprefix("# ") for line in lines)
    source = '[source.code]\ntitle = "Code"\nread = 2026-03-02\n[rule]\n'

    head = head.replace("[rule]", "")
    (sheet, *_) = load_layers("ford", saved(tmp_path, f"{head}{source}{rules}\n"))
    assert mark
    assert len(sheet.rules["core.bit"].editions[0].cases) == 2
    assert len(sheet.rules["pipe.size"].editions) == 2


@pytest.mark.parametrize("title", ['The "Ford"', "C:\\Ford", "Förd", "Ford [sheet]\n= 1"])
def test_a_strange_name_is_kept_as_it_is(tmp_path: Path, title: str) -> None:
    (sheet, *_) = load_layers("ford", saved(tmp_path, new_town(title=title)))

    assert sheet.title == " ".join(title.split())


# ---- the guide


def test_the_generated_files_are_current() -> None:
    stale = [
        path.name for path, text in generated().items() if path.read_text(encoding="utf-8") != text
    ]

    assert stale == [], "run: python tests/regenerate.py"


def test_a_guide_without_its_marks_is_told() -> None:
    with pytest.raises(ValueError, match="the guide has no marks <!-- keys -->"):
        filled("# A guide\n", TABLES)


def test_the_guides_example_loads_and_is_free_of_lint(tmp_path: Path) -> None:
    text = re.findall(r"```toml\n(.*?)```", GUIDE.read_text(encoding="utf-8"), re.DOTALL)[0]

    layers = load_layers("ford", saved(tmp_path, text))
    assert lint(layers[0], layers[1:]) == ()
    assert wrong(tomllib.loads(text)) == []
    assert len(layers[0].rules) > 10


def test_every_line_of_the_guides_example_that_needs_it_is_explained() -> None:
    text = re.findall(r"```toml\n(.*?)```", GUIDE.read_text(encoding="utf-8"), re.DOTALL)[0]

    assert text.count("#") > 20


def test_the_guide_names_only_commands_that_there_are() -> None:
    from permitkit.cli.town import app  # noqa: PLC0415 - only this test needs the command line

    known = {command.name or command.callback.__name__ for command in app.registered_commands
             if command.callback}  # fmt: skip
    named = set(re.findall(r"permitkit town (\w+)", GUIDE.read_text(encoding="utf-8")))

    assert named <= known
    assert {"new", "check", "show", "ask", "list", "affected"} <= named


# ---- the schema


def test_the_schema_is_one_of_its_own_kind() -> None:
    Draft7Validator.check_schema(VALIDATOR.schema)


@pytest.mark.parametrize("place", list_places())
def test_every_shipped_sheet_keeps_to_the_schema_as_shipped(place: str) -> None:
    assert wrong(tomllib.loads(find_sheet(place).read_text(encoding="utf-8"))) == []


@pytest.mark.parametrize("path", sorted(TOWNS.glob("*.toml")), ids=lambda path: path.stem)
def test_the_towns_kept_for_tests_keep_to_the_schema(path: Path) -> None:
    assert wrong(tomllib.loads(path.read_text(encoding="utf-8"))) == []


def test_a_begun_sheet_keeps_to_the_schema_and_a_misspelt_key_breaks_it() -> None:
    table = tomllib.loads(new_town())

    assert wrong(table) == []
    assert wrong(table | {"rule": {"core": {"bitt": {"no_rule": True}}}})
