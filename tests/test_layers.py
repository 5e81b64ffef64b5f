"""The shape of the house: who may import whom, and how large things may grow."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parent.parent / "permitkit"
LAYERS = {
    "units": 0,
    "errors": 0,
    "model": 1,
    "hydraulics": 1,
    "geometry": 1,
    "load": 2,
    "study": 2,
    "checks": 3,
    "drawing": 3,
    "render": 4,
    "packet": 5,
    "cli": 6,
    "__main__": 7,
    "__init__": 0,
}
FILES = sorted(PACKAGE.rglob("*.py"))
TESTS_FOLDER = Path(__file__).resolve().parent
TESTS = sorted(TESTS_FOLDER.rglob("*.py"))


def part_of(path: Path) -> str:
    return path.relative_to(PACKAGE).with_suffix("").parts[0]


def imported_parts(tree: ast.Module) -> list[tuple[int, str]]:
    found = []
    for node in ast.walk(tree):
        names = []
        if isinstance(node, ast.ImportFrom) and node.module and node.level == 0:
            names = [node.module]
            if node.module == "permitkit":
                names = [f"permitkit.{alias.name}" for alias in node.names]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        for name in names:
            top, _, rest = name.partition(".")
            if top == "permitkit" and rest:
                found.append((node.lineno, rest.split(".")[0]))
    return found


def breaks(own: str, other: str) -> bool:
    if own == other or other not in LAYERS:
        return False
    return LAYERS[other] >= LAYERS[own]


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_module_imports_only_lower_layers(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    own = part_of(path)

    wrong = [
        f"{path.relative_to(PACKAGE)}:{line} {own} imports {other}"
        for line, other in imported_parts(tree)
        if breaks(own, other)
    ]

    assert wrong == []


@pytest.mark.parametrize(
    ("own", "other", "bad"),
    [
        ("checks", "drawing", True),
        ("model", "hydraulics", True),
        ("load", "model", False),
        ("units", "model", True),
        ("packet", "render", False),
    ],
)
def test_the_layer_rule_itself_can_fail(own: str, other: str, bad: bool) -> None:  # noqa: FBT001
    assert breaks(own, other) is bad


def length_of(function: ast.FunctionDef) -> int:
    """Return the lines of a function's body, its docstring left out."""
    documented = ast.get_docstring(function) is not None and len(function.body) > 1
    return (function.end_lineno or 0) - function.body[documented].lineno + 1


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_no_file_is_over_four_hundred_lines_and_no_function_over_forty(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    functions = [n for n in ast.walk(ast.parse(text)) if isinstance(n, ast.FunctionDef)]

    assert len(text.splitlines()) <= 400
    assert [function.name for function in functions if length_of(function) > 40] == []


def test_the_length_of_a_function_leaves_its_docstring_out() -> None:
    (function,) = ast.parse('def one():\n    """Two\n    lines."""\n    a = 1\n    return a').body

    assert isinstance(function, ast.FunctionDef)
    assert length_of(function) == 2


@pytest.mark.parametrize("path", TESTS, ids=lambda path: str(path.relative_to(TESTS_FOLDER)))
def test_no_file_of_tests_is_over_four_hundred_lines(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 400


def test_no_folder_has_more_than_twelve_modules() -> None:
    crowded = {
        str(folder.relative_to(PACKAGE)): count
        for folder in [PACKAGE, *PACKAGE.rglob("*")]
        if folder.is_dir()
        if (count := len([p for p in folder.glob("*.py") if p.name != "__init__.py"])) > 12
    }

    assert crowded == {}
