"""How checks are declared: one list, one fault each, and nothing a sheet should say."""

from __future__ import annotations

import ast
import importlib
import inspect
import pkgutil
import re
from itertools import groupby

import pytest
from builder import fitted

from permitkit.checks import families
from permitkit.checks.catalogue import CHECKS, GATE, GATED, MARGIN_THIN
from permitkit.checks.judge import run_checks
from permitkit.checks.registry import Check, check
from permitkit.model.keys import outlet

SLUG = re.compile(r"[a-z]+(-[a-z]+)+")
PLAIN_NUMBERS = {0, 1, 2}


def declared() -> list[Check]:
    """Return every check that a module of a family declares."""
    modules = [
        importlib.import_module(f"{families.__name__}.{found.name}")
        for found in pkgutil.iter_modules(families.__path__)
    ]
    return [
        value for module in modules for value in vars(module).values() if isinstance(value, Check)
    ]


def unlisted(found: list[Check], listed: tuple[Check, ...]) -> list[str]:
    return [one.slug for one in found if not any(one is other for other in listed)]


def body(one: Check) -> ast.FunctionDef:
    tree = ast.parse(inspect.getsource(one.function))
    function = tree.body[0]
    assert isinstance(function, ast.FunctionDef)
    return function


def test_every_check_declared_is_listed() -> None:
    assert unlisted(declared(), CHECKS) == []


def test_the_test_for_unlisted_checks_can_fail() -> None:
    assert unlisted([CHECKS[0], MARGIN_THIN], CHECKS[1:]) == [CHECKS[0].slug, "margin-thin"]


def test_there_are_more_than_a_hundred_checks_each_listed_once() -> None:
    slugs = [one.slug for one in CHECKS]

    assert len(slugs) >= 100
    assert len(set(slugs)) == len(slugs)


def test_a_family_stands_together_in_the_list() -> None:
    families_met = [family for family, _ in groupby(CHECKS, key=lambda one: one.family)]

    assert len(set(families_met)) == len(families_met)
    assert set(GATED) < set(families_met)
    assert CHECKS[0] is GATE


@pytest.mark.parametrize("one", CHECKS, ids=[one.slug for one in CHECKS])
def test_a_check_names_a_fault_and_says_why(one: Check) -> None:
    assert SLUG.fullmatch(one.slug)
    assert one.function.__name__ == one.slug.replace("-", "_")
    assert one.title[0].isupper()
    assert not one.title.endswith(".")
    assert one.why[0].islower()
    assert one.why.endswith(".")
    assert one.reads or one.standard or one.slug in {"permit-missing", "form-outdated"}


@pytest.mark.parametrize("one", CHECKS, ids=[one.slug for one in CHECKS])
def test_a_check_is_short_and_holds_no_number_and_no_test_of_a_type(one: Check) -> None:
    function = body(one)
    numbers = [
        node.value
        for node in ast.walk(function)
        if isinstance(node, ast.Constant) and isinstance(node.value, int | float)
    ]
    calls = [
        node.func.id
        for node in ast.walk(function)
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    ]

    assert (function.end_lineno or 0) - function.lineno <= 30
    assert [number for number in numbers if number not in PLAIN_NUMBERS] == []
    assert "isinstance" not in calls


def test_a_check_sees_only_the_keys_it_declares() -> None:
    @check("reads-too-much", "It reads a key it does not declare", reads=(outlet.CORE_BIT,))
    def reads_too_much(_, rules, __):  # type: ignore[no-untyped-def]  # noqa: ANN001, ANN202
        yield rules[outlet.CORE_STRIP]

    bench = fitted()

    with pytest.raises(KeyError, match=r"core\.strip"):
        run_checks(bench.job, bench.rules, bench.study, (reads_too_much,))


def test_a_check_that_raises_stops_the_run() -> None:
    @check("breaks-down", "It breaks down")
    def breaks_down(*_: object):  # type: ignore[no-untyped-def]  # noqa: ANN202
        raise ZeroDivisionError

    bench = fitted()

    with pytest.raises(ZeroDivisionError):
        run_checks(bench.job, bench.rules, bench.study, (breaks_down,))


def test_a_check_takes_its_family_from_its_module_and_its_reason_from_its_docstring() -> None:
    @check("is-told", "It is told")
    def is_told(*_: object) -> tuple[()]:
        """Flag nothing.

        Why: to show
        a reason.
        """
        return ()

    assert is_told.family == "test_check_registry"
    assert is_told.why == "to show a reason."


def test_the_advice_on_margins_runs_as_no_check_of_its_own() -> None:
    assert tuple(MARGIN_THIN.function(None, None, None)) == ()  # type: ignore[arg-type]
