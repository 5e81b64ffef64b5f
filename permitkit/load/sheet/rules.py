"""The rules of a sheet, in their short and their long form, and the permits it lists."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.keys import KEYS
from permitkit.model.reading import Written, nearest, read_case, read_when
from permitkit.model.reading.cites import read_cite
from permitkit.model.rules import Edition, Permit, Rule, Stage

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from datetime import date

    from permitkit.model.rules import Case, RuleKey, Source

__all__ = ["read_permits", "read_rules"]


def read_rules(top: Written, shown: str, sources: Mapping[str, Source]) -> dict[str, Rule]:
    """Return the sheet's rules by key, each with its editions oldest first."""
    rules = dict(_short_rules(top, shown, sources))
    long: dict[str, list[Edition]] = {}
    for key, edition, table in _editions(top, shown, sources):
        if key.name in rules:
            table.fault("", f"{key.name} in [rule] as well", "one form for each rule")
        else:
            _check_date(long.get(key.name, []), edition.since, table)
            long.setdefault(key.name, []).append(edition)
    return rules | {name: Rule(KEYS[name], tuple(editions)) for name, editions in long.items()}


def _short_rules(
    top: Written, shown: str, sources: Mapping[str, Source]
) -> Iterator[tuple[str, Rule]]:
    """Yield the rules of the short form: one case or several in order, always in force."""
    families = top.members("rule")
    families.where = f"{shown}: rule"
    for family in families.table:
        members = families.members(family)
        members.where = f"{shown}: rule {family}"
        for name in members.table:
            cases, key = _short_rule(members, f"{family}.{name}", name, shown, sources)
            if key and cases:
                yield key.name, Rule(key, (Edition(None, cases),))


def _short_rule(
    members: Written, full: str, name: str, shown: str, sources: Mapping[str, Source]
) -> tuple[tuple[Case, ...], RuleKey | None]:
    key = _key(full, Written({}, f"{shown}: rule {full}", members.faults), "")
    if not isinstance(members.table.get(name), list):
        table = members.table_of(name)
        tables = [table] if table is not None else []
    else:
        tables = members.tables(name)
    cases = [read_case(table, key, sources) for table in tables] if key else []
    return tuple(case for case in cases if case), key


def _key(name: str, table: Written, field: str) -> RuleKey | None:
    """Return the key of that name, or note that there is none."""
    key = KEYS.get(name)
    if key is None:
        family, _, _ = name.partition(".")
        kin = [known for known in KEYS if known.partition(".")[0] == family]
        expected = f"a rule of the family {family}: {', '.join(kin)}" if kin else "a rule's key"
        table.fault(field, f"a rule {name!r}", expected, nearest(name, KEYS))
    return key


def _editions(
    top: Written, shown: str, sources: Mapping[str, Source]
) -> Iterator[tuple[RuleKey, Edition, Written]]:
    """Yield the editions of the long form, in the order they are written."""
    for n, table in enumerate(top.tables("edition"), 1):
        table.where = f"{shown}: edition {n}"
        name = table.text("key", needed=True)
        key = _key(name, table, "key") if name else None
        since = table.day("since")
        if key is None:
            continue
        begun = f" since {since}" if since else ""
        table.where = f"{shown}: edition {n}, {name}{begun}"
        cases = [
            read_case(_placed(case, f"{table.where}: case {m}"), key, sources)
            for m, case in enumerate(table.tables("case"), 1)
        ]
        table.take("note")
        table.close()
        yield key, Edition(since, tuple(case for case in cases if case)), table


def _placed(table: Written, where: str) -> Written:
    table.where = where
    return table


def _check_date(earlier: list[Edition], since: date | None, table: Written) -> None:
    """Note an edition that begins no later than the one before it."""
    if not earlier:
        return
    last = earlier[-1].since
    if since is None:
        table.fault("since", "nothing", "the day this later edition begins")
    elif last is not None and since <= last:
        found = "the same day twice" if since == last else f"{since} below {last}"
        table.fault("since", found, "editions oldest first, each on a later day")


def read_permits(top: Written, shown: str, sources: Mapping[str, Source]) -> tuple[Permit, ...]:
    """Return the permits the sheet lists."""
    permits: list[Permit] = []
    for n, table in enumerate(top.tables("permit"), 1):
        table.where = f"{shown}: permit {n}"
        permit = Permit(
            table.text("id", needed=True),
            table.text("title", needed=True),
            table.text("issuer", needed=True),
            read_when(table, Stage.SIZE),
            form=table.text("form"),
            form_edition=table.text("form_edition"),
            cite=read_cite(table, sources),
            note=table.text("note"),
        )
        if any(permit.id == other.id for other in permits):
            table.fault("id", repr(permit.id), "a short name no other permit of this sheet has")
        table.close()
        permits.append(permit)
    return tuple(permits)
