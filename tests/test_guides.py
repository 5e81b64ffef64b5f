"""The guides are true: commands, files, names, exit codes, layers and outputs are as they say."""

from __future__ import annotations

import importlib
import json
import re
import shlex
import tomllib
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from test_layers import LAYERS
from typer.main import get_command
from typer.testing import CliRunner

from permitkit.checks.catalogue import CHECKS
from permitkit.cli.main import app
from permitkit.errors import Exit
from permitkit.model.keys import KEYS
from permitkit.model.papers import Answer, WaiverAsked
from permitkit.model.verdict import Outcome
from permitkit.units import Kind, UnitError, read_measure

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).resolve().parent.parent
GUIDES = ("README.md", "DEVELOPERS.md")
PLACES = ("permitkit", "jurisdictions", "templates", "tests", "demo", ".ci")
EXAMPLE = "jurisdictions/ford/"
FENCE = re.compile(r"^ *```(\w*)\n(.*?)^ *```$", re.MULTILINE | re.DOTALL)
COUNT = re.compile(
    r"\d+(?= (?:faults|open|waivers|advice|met|do not))|(?<=\()(?:[0-9a-f]{12}|\d+)(?=\))"
)


@cache
def guide(name: str) -> str:
    return (ROOT / name).read_text(encoding="utf-8")


def plain(name: str) -> str:
    """Return a guide without its fenced blocks."""
    return FENCE.sub("", guide(name))


def fenced(name: str, language: str) -> list[str]:
    return [text for found, text in FENCE.findall(guide(name)) if found == language]


def spans(name: str) -> list[str]:
    """Return what stands between back ticks."""
    return re.findall(r"`([^`\n]+)`", plain(name))


def section(name: str, title: str) -> str:
    """Return the text under a heading, down to the next of any level."""
    found = re.search(
        rf"^#+ {re.escape(title)}\n(.*?)(?=^#|\Z)", plain(name), re.MULTILINE | re.DOTALL
    )
    assert found is not None, f"no heading {title!r} in {name}"
    return found[1]


def rows(text: str) -> list[list[str]]:
    """Return the cells of every table row but the heads and the rules under them."""
    lines = [line.strip("| ") for line in text.splitlines() if line.startswith("|")]
    cells = [[cell.strip() for cell in re.split(r" \| ", line)] for line in lines]
    rules = {n for n, row in enumerate(cells) if set("".join(row)) <= {"-"}}
    return [row for n, row in enumerate(cells) if not {n, n + 1} & rules]


# ---- what the first page owes its reader


def test_the_readme_states_the_job_in_its_first_paragraph() -> None:
    title, first, _ = guide("README.md").split("\n\n", 2)

    assert title == "# permitkit"
    assert "\n" not in first
    assert "permit" in first
    assert len(first.split()) >= 60


def test_the_readme_has_the_two_commands_that_set_everything_up() -> None:
    commands = [block.strip() for block in fenced("README.md", "sh")]

    assert commands == ["python3 demo/run.py", "python3 tests/run.py"]


def test_the_developers_guide_names_the_four_commands_of_the_runner() -> None:
    runner = (ROOT / "tests" / "run.py").read_text(encoding="utf-8")
    calls = [re.findall(r'"([^"]+)"', call) for call in re.findall(r"call\(python, (.*)\)", runner)]
    told = [line.split() for line in fenced("DEVELOPERS.md", "sh")[1].splitlines()]

    assert len(calls) == 4
    assert [line[1 : 1 + len(call)] for line, call in zip(told, calls, strict=True)] == calls


# ---- commands


def tree(command: Any, words: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:  # noqa: ANN401 - the command library's own
    """Yield every command that does something, with its words."""
    below = getattr(command, "commands", None)
    if not below:
        yield words, command
        return
    for name, one in below.items():
        yield from tree(one, (*words, name))


COMMANDS = dict(tree(get_command(app)))


def called(line: str) -> tuple[str, ...] | None:
    """Return the words of the command a line calls, or nothing where it calls none there is."""
    words = shlex.split(line.removeprefix("$ "))[1:]
    return next((key for n in (2, 1) if (key := tuple(words[:n])) in COMMANDS), None)


def calls(name: str) -> list[str]:
    """Return every call of permitkit in a guide."""
    consoles = [line for text in fenced(name, "console") for line in text.splitlines()]
    typed = [line for line in consoles if line.startswith("$ permitkit ")]
    return typed + [span for span in spans(name) if span.startswith("permitkit ")]


@pytest.mark.parametrize("name", GUIDES)
def test_every_command_named_is_there_with_its_options(name: str) -> None:
    assert calls(name)
    for line in calls(name):
        words = called(line)
        assert words is not None, line
        known = {option for parameter in COMMANDS[words].params for option in parameter.opts}
        options = set(re.findall(r"(?<= )--?[a-z]+", line))
        assert options <= known, line


def test_a_command_that_is_not_there_is_found_out() -> None:
    assert called("permitkit chekc JOB") is None
    assert called("permitkit town mend PLACE") is None
    assert called("$ permitkit town check ford") == ("town", "check")


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_every_command_tells_its_help_and_stands_in_the_table(words: tuple[str, ...]) -> None:
    done = CliRunner().invoke(app, [*words, "--help"])
    table = [called(row[0].strip("`")) for row in rows(section("README.md", "Commands"))]

    assert done.exit_code == 0
    assert words in table


def masked(text: str) -> str:
    """Return a text without the counts and digests that every new check or sheet changes."""
    return COUNT.sub("#", text)


@pytest.mark.parametrize(
    "console",
    [c for c in fenced("README.md", "console") if not c.startswith("$ permitkit packet")],
    ids=lambda console: console.splitlines()[0],
)
def test_the_outputs_shown_are_what_the_commands_print(
    console: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(ROOT)
    line, _, shown = console.partition("\n")
    done = CliRunner().invoke(app, shlex.split(line)[2:])

    told = masked(done.output)
    parts = re.split(r"^ *\.\.\.\n", masked(shown), flags=re.MULTILINE)
    for part in (part.strip("\n") for part in parts if part.strip()):
        assert part in told
        told = told.partition(part)[2]


@pytest.mark.parametrize(
    ("line", "shown"),
    [
        (line, shown)
        for console in fenced("README.md", "console")
        for line, _, shown in (said.partition("\n") for said in console.split("$ ") if said)
        if line.startswith("permitkit packet")
    ],
    ids=lambda text: text.splitlines()[0],
)
def test_the_packets_shown_have_as_many_pages(
    line: str, shown: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    words = [str(ROOT / word) if "/" in word else word for word in shlex.split(line)[1:]]

    done = CliRunner().invoke(app, words)

    assert done.output.endswith(shown.rpartition("...\n")[2].rstrip() + "\n")


# ---- files and names


def paths(text: str) -> list[str]:
    """Return the files and folders that a text names, in back ticks or as links."""
    named = re.findall(r"`([^`\s]+)`", text) + re.findall(r"\]\(([^)\s]+)\)", text)
    return [
        path
        for path in named
        if (path.split("/")[0] in PLACES and "/" in path) or re.fullmatch(r"[A-Za-z]+\.md", path)
        if not path.startswith(EXAMPLE) and not set(path) & set("<*…")
    ]


@pytest.mark.parametrize("name", GUIDES)
def test_every_file_named_is_there(name: str) -> None:
    found = paths(plain(name))

    assert len(found) > 5
    assert [path for path in found if not (ROOT / path).exists()] == []


def test_the_search_for_files_finds_planted_ones() -> None:
    text = "see `permitkit/no_such.py`, [that](tests/none.py), `<place>/rules.toml` and `FILE.md`"

    assert paths(text) == ["permitkit/no_such.py", "FILE.md", "tests/none.py"]


def there(dotted: str) -> bool:
    """Tell whether a name can be reached by importing."""
    words = dotted.split(".")
    for n in range(len(words), 0, -1):
        try:
            thing: Any = importlib.import_module(".".join(words[:n]))
        except ModuleNotFoundError:
            continue
        for word in words[n:]:
            thing = getattr(thing, word, None)
        return thing is not None
    return False


def dotted_names(name: str) -> list[str]:
    return [span for span in spans(name) if re.fullmatch(r"permitkit(\.\w+)+", span)]


def test_every_function_and_class_the_developers_guide_names_is_there() -> None:
    assert len(dotted_names("DEVELOPERS.md")) > 20
    assert [name for name in dotted_names("DEVELOPERS.md") if not there(name)] == []


def test_a_name_that_is_not_there_is_found_out() -> None:
    assert there("permitkit.checks.judge.judge")
    assert not there("permitkit.checks.judge.no_such")
    assert not there("permitkit.no_such.judge")


def test_every_rule_key_in_the_table_of_kinds_is_declared() -> None:
    families = {key.family for key in KEYS.values()}
    written = section("DEVELOPERS.md", "How each kind of rule is written")
    named = re.findall(r"\b([a-z]+)\.([a-z_]+)\b", " ".join(re.findall(r"`([^`]+)`", written)))
    keys = {f"{family}.{rest}" for family, rest in named if family in families}

    assert len(keys) > 10
    assert keys - set(KEYS) == set()


def test_the_layers_are_those_the_test_of_layers_holds_to() -> None:
    told = {row[1].strip("`"): int(row[0]) for row in rows(section("DEVELOPERS.md", "The house"))}

    assert told == {part: n for part, n in LAYERS.items() if not part.startswith("__")}


# ---- what programs lean on


def test_the_exit_codes_are_those_of_the_code() -> None:
    told = [int(row[0]) for row in rows(section("README.md", "Exit codes"))]

    assert told == sorted(int(code) for code in Exit)


def test_the_fields_for_programs_are_those_that_are_printed() -> None:
    whole, each = section("README.md", "Verdicts for programs").split("Each verdict:")
    job = ROOT / "demo" / "jobs" / "millrace-clean" / "job.toml"

    found = json.loads(CliRunner().invoke(app, ["check", str(job), "--json"]).output)

    assert [row[0].strip("`") for row in rows(whole)] == list(found)
    assert [row[0].strip("`") for row in rows(each)] == list(found["verdicts"][0])
    assert set(found["counts"]) == {str(outcome) for outcome in Outcome}
    assert all(f"`{outcome}`" in each for outcome in Outcome)
    assert all(f"`{field}`" in whole for field in (*found["town"], *found["job"]))


def test_the_fields_of_the_water_are_those_that_are_printed() -> None:
    told = section("README.md", "Verdicts for programs").partition("in each name")[2]
    job = ROOT / "demo" / "jobs" / "millrace-clean" / "job.toml"

    found = json.loads(CliRunner().invoke(app, ["water", str(job), "--json"]).output)

    assert re.findall(r"`(\w+)`", told) == list(found)


# ---- what authors copy


def quantities() -> list[str]:
    listed = section("README.md", "Quantities").partition("Feet and inches may be mixed")[0]
    return re.findall(r'`"([^`]+)"`', listed)


def readable(text: str) -> bool:
    for kind in Kind:
        try:
            read_measure(text, kind)
        except UnitError:
            continue
        return True
    return False


def test_every_quantity_shown_can_be_read() -> None:
    assert len(quantities()) > 10
    assert [text for text in quantities() if not readable(text)] == []
    assert not readable("12 inchworms")


def test_the_answer_and_the_waiver_shown_can_be_read() -> None:
    written: dict[str, list[dict[str, Any]]] = {}
    for block in fenced("README.md", "toml"):
        written |= tomllib.loads(block)

    (answer,) = (Answer(**one) for one in written["answer"])
    (waiver,) = (WaiverAsked(**one) for one in written["waiver"])

    assert answer.key in KEYS
    assert waiver.check in {check.slug for check in CHECKS}
