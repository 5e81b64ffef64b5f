"""What becomes of each rule key, found in the source: judged, reckoned with, printed, or noted."""

from __future__ import annotations

import ast
import importlib
import pkgutil
from functools import cache
from pathlib import Path

from permitkit.checks.catalogue import CHECKS
from permitkit.model import keys
from permitkit.model.keys import KEYS
from permitkit.model.rules import RuleKey

__all__ = ["PRINTERS", "RECKONERS", "by_a_check", "key_uses", "used_in"]

PACKAGE = Path(__file__).resolve().parent.parent / "permitkit"
PAGE = PACKAGE / "packet" / "rules_page.py"
RECKONERS, PRINTERS = ("study",), ("packet", "drawing")


@cache
def constants() -> dict[str, set[str]]:
    """Return the names under which the code knows each key."""
    found: dict[str, set[str]] = {}
    for module in pkgutil.iter_modules(keys.__path__):
        for name, value in vars(importlib.import_module(f"{keys.__name__}.{module.name}")).items():
            if isinstance(value, RuleKey):
                found.setdefault(value.name, set()).add(name)
    return found


@cache
def names_used(parts: tuple[str, ...]) -> frozenset[str]:
    """Return every name in the source of some parts, where it is not imported."""
    files = [path for part in parts for path in (PACKAGE / part).rglob("*.py") if path != PAGE]
    nodes = [node for path in files for node in ast.walk(ast.parse(path.read_text("utf-8")))]
    plain = {node.id for node in nodes if isinstance(node, ast.Name)}
    return frozenset(plain | {node.attr for node in nodes if isinstance(node, ast.Attribute)})


def used_in(parts: tuple[str, ...], key: RuleKey) -> bool:
    """Tell whether the source of some parts names a key."""
    return not constants().get(key.name, set()).isdisjoint(names_used(parts))


def by_a_check(key: RuleKey) -> bool:
    """Tell whether a check reads a key."""
    return any(key.name in check.names for check in CHECKS)


def key_uses() -> dict[str, str]:
    """Return for every key what becomes of it, the first of these that is so."""
    return {name: _use(key) for name, key in KEYS.items()}


def _use(key: RuleKey) -> str:
    if by_a_check(key):
        return "judged"
    if used_in(RECKONERS, key):
        return "reckoned with"
    return "printed" if used_in(PRINTERS, key) else "noted"
