"""Jobs for the checks: a demo job with a few fields and a few of its town's rules changed."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

from demo_jobs import job_path

from permitkit.checks.catalogue import CHECKS
from permitkit.checks.judge import run_checks
from permitkit.load.firm import find_firm
from permitkit.load.job_file import read_job
from permitkit.load.rule_sheet import load_layers, read_sheet
from permitkit.model.job import Job
from permitkit.model.verdict import Outcome
from permitkit.study.in_force import RulesInForce
from permitkit.study.results import Study
from permitkit.study.study import studied

if TYPE_CHECKING:
    from collections.abc import Iterable

    from permitkit.checks.finding import Weighed
    from permitkit.model.rules import Sheet

CLEAN, FAULTY, NOTCH = "millrace-clean", "millrace-faulty", "sorrel-flats-notch"
BARRED, EMITTER = "harrow-heights-core", "harrow-heights-emitter"


class _Gone:
    """What stands in a change for a field that is taken out."""

    def __repr__(self) -> str:
        return "GONE"


GONE = _Gone()
"""In place of a value: the field is taken out of the job."""

HEAD = """
schema = 1
[sheet]
place = "bench"
title = "Town of Bench"
kind = "town"
checked = 2026-01-01
due = 2027-01-01
standing = "invented"
[source.book]
title = "Bench Book"
read = 2026-01-01
"""

_JOBS: dict[str, Job] = {}
RANK = list(Outcome)
BY_SLUG = {check.slug: check for check in CHECKS}


@dataclass(frozen=True)
class Bench:
    """A job ready to be judged."""

    job: Job
    rules: RulesInForce
    study: Study

    def verdicts(self, slug: str, item: str = "") -> list[Weighed]:
        """Return what one check says, of items that hold a text."""
        found = run_checks(self.job, self.rules, self.study, (BY_SLUG[slug],))
        return [v for v in found if v.check == slug and item in v.item]

    def worst(self, slug: str, item: str = "") -> Weighed:
        """Return the worst that one check says."""
        return min(self.verdicts(slug, item), key=lambda verdict: RANK.index(verdict.outcome))


def fitted(
    base: str = CLEAN,
    changes: Mapping[str, object] | None = None,
    rules: str = "",
    *,
    alone: bool = False,
) -> Bench:
    """Return a demo job, changed, under its town with some rules in front.

    Parameters
    ----------
    base
        The demo job.
    changes
        New values by dotted path, `drain.reach.0.pipe`; a path that ends in `+` adds to a list,
        and GONE takes a field out.
    rules
        Rules in the form of a sheet, each citing `book`; without a heading they are short ones.
    alone
        Whether they are all there is, in place of standing in front of the town's.
    """
    name = (f"{base} {changes or {}!r}", rules, alone)
    if name not in _BENCHES:
        job = job_of(base, changes or {})
        study, in_force = studied(job, (_sheet(rules),) if alone else sheets(job, rules))
        _BENCHES[name] = Bench(job, in_force, study)
    return _BENCHES[name]


_BENCHES: dict[tuple[str, str, bool], Bench] = {}


@dataclass(frozen=True)
class Case:
    """One job held against one check, and what is to come of it."""

    slug: str
    outcome: Outcome
    changes: Mapping[str, object]
    rules: str
    base: str
    item: str
    alone: bool

    @property
    def name(self) -> str:
        """Return what tells it from others."""
        return f"{self.slug} {self.outcome}: {self.rules} {dict(self.changes)!r}"[:150]


def case(
    slug: str,
    outcome: Outcome,
    changes: Mapping[str, object] | None = None,
    rules: str = "",
    *,
    base: str = CLEAN,
    item: str = "",
    alone: bool = False,
) -> Case:
    """Return one case."""
    return Case(slug, outcome, changes or {}, rules, base, item, alone)


def rule(key: str, **words: object) -> str:
    """Return a rule in its short form; `from_` stands for `from`."""
    told = [f"{word.rstrip('_')} = {_value(value)}" for word, value in words.items()]
    if not words.keys() & {"ask", "no_rule", "by_reference"}:
        told.append('cite = "book 1"')
    return f"{key} = {{ {', '.join(told)} }}\n"


def limits(  # noqa: PLR0913 - a case is told by what makes it
    slug: str,
    key: str,
    end: str,
    *,
    meets: Iterable[object],
    fails: Iterable[object],
    changes: Mapping[str, object] | None = None,
    base: str = CLEAN,
    item: str = "",
    bad: Outcome = Outcome.FAILS,
    **words: object,
) -> list[Case]:
    """Return cases of one job against several limits: at it, just outside, in another unit."""
    return [
        case(slug, outcome, changes, rule(key, **{end: value}, **words), base=base, item=item)
        for outcome, values in ((Outcome.MEETS, meets), (bad, fails))
        for value in values
    ]


def sheets(job: Job, rules: str = "") -> tuple[Sheet, ...]:
    """Return a job's sheets, with one of some rules in front."""
    layers = load_layers(job.town)
    return (_sheet(rules), *layers) if rules else layers


def as_toml(table: Mapping[str, Any], path: str = "") -> str:
    """Return a table as TOML."""
    plain = {k: v for k, v in table.items() if not _is_table(v) and not _is_tables(v)}
    lines = [f"{key} = {_value(value)}" for key, value in plain.items()]
    for key, value in table.items():
        inner = f"{path}{key}"
        if _is_table(value):
            lines += [f"\n[{inner}]", as_toml(value, f"{inner}.")]
        elif _is_tables(value):
            for one in value:
                lines += [f"\n[[{inner}]]", as_toml(one, f"{inner}.")]
    return "\n".join(lines)


@cache
def _sheet(rules: str) -> Sheet:
    heading = "" if "[" in rules.split("=", maxsplit=1)[0] else "[rule]\n"
    return read_sheet((HEAD + heading + rules).encode(), Path("jurisdictions/bench/rules.toml"))


def job_of(base: str, changes: Mapping[str, object]) -> Job:
    """Return a demo job with some fields changed."""
    name = f"{base} {changes!r}"
    if name not in _JOBS:
        _JOBS[name] = _read(base, changes)
    return _JOBS[name]


def _read(base: str, changes: Mapping[str, object]) -> Job:
    table = tomllib.loads(job_path(base).read_text(encoding="utf-8"))
    firm_path = find_firm(job_path(base))
    assert firm_path is not None
    firm = tomllib.loads(firm_path.read_text(encoding="utf-8"))
    for path, value in changes.items():
        if path == "firm":
            firm = {}
        elif path.startswith("firm."):
            _put(firm, path.removeprefix("firm."), value)
        else:
            _put(table, path, value)
    with TemporaryDirectory() as folder:
        if firm:
            (Path(folder) / "firm.toml").write_text(as_toml(firm), encoding="utf-8")
        path = Path(folder) / "job.toml"
        path.write_text(as_toml(table), encoding="utf-8")
        return read_job(path)


def _put(table: Any, path: str, value: object) -> None:  # noqa: ANN401 - a table or a list
    first, _, rest = path.partition(".")
    key: Any = int(first) if first.isdigit() else first
    if rest:
        if isinstance(table, dict):
            table.setdefault(key, {})
        _put(table[key], rest, value)
    elif first.endswith("+"):
        table.setdefault(first.removesuffix("+"), []).append(value)
    elif value is GONE:
        table.pop(key, None) if isinstance(table, dict) else table.pop(key)
    else:
        table[key] = value


def _is_table(value: object) -> bool:
    return isinstance(value, dict)


def _is_tables(value: object) -> bool:
    return isinstance(value, list) and bool(value) and all(isinstance(one, dict) for one in value)


def _value(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, list):
        return f"[{', '.join(map(_value, value))}]"
    if isinstance(value, dict):
        return f"{{ {', '.join(f'{name} = {_value(one)}' for name, one in value.items())} }}"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    return str(value)
