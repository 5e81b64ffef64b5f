"""Small rule sheets for tests: a head that is right, and what a test adds to it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from permitkit.errors import InputError
from permitkit.load.rule_sheet import read_sheet

if TYPE_CHECKING:
    from permitkit.errors import Fault
    from permitkit.model.rules import Case, Sheet

FORD = "jurisdictions/ford/rules.toml"
RULE = "[rule]\n"
HEAD = """
schema = 1
[sheet]
place = "ford"
title = "Town of Ford"
kind = "town"
checked = 2026-03-02
due = 2027-03-01
standing = "invented"
[source.code]
title = "Ford Code"
read = 2026-03-02
"""


def sheet(text: str, head: str = HEAD) -> Sheet:
    return read_sheet((head + text).encode(), Path(FORD))


def faults(text: str, head: str = HEAD) -> tuple[Fault, ...]:
    with pytest.raises(InputError) as raised:
        sheet(text, head)
    return raised.value.faults


def fault(text: str, head: str = HEAD) -> Fault:
    found = faults(text, head)
    assert len(found) == 1, "\n".join(line for each in found for line in each.lines())
    return found[0]


def cases(key: str, text: str) -> tuple[Case, ...]:
    """Return the cases of a key that a sheet holds with this text added."""
    return sheet(text).rules[key].editions[-1].cases


def case(key: str, text: str) -> Case:
    """Return the one case of a key written in the short form."""
    only = cases(key, f"[rule]\n{key} = {{ {text}, cite = 'code 1' }}\n")
    assert len(only) == 1
    return only[0]


def edition(key: str, *bodies: str, since: str = "") -> str:
    """Return a rule in the long form: one edition of these cases."""
    begun = f"since = {since}\n" if since else ""
    return f'[[edition]]\nkey = "{key}"\n{begun}' + "".join(
        f"[[edition.case]]\n{body}\n" for body in bodies
    )
