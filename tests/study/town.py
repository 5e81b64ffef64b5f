"""A small town and a small job for tests of which rule holds."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING, Any

from permitkit.load.rule_sheet import read_sheet
from permitkit.model.job import Job
from permitkit.study.in_force import RulesInForce, rules_in_force

if TYPE_CHECKING:
    from permitkit.model.rules import Sheet

JOB = """
schema = 1
town = "ford"
filing = 2026-04-06
[site]
address = "1 Mill Lane"
owner = "A. Owner"
frontage = "60 ft"
row_line_offset = "12 ft"
[street]
name = "Mill  Lane"
speed = "25 mph"
width = "36 ft"
parking = "none"
[level]
benchmark = "curb top"
benchmark_level = "100 ft"
[curb]
shape = "vertical"
reveal = "6 in"
top_width = "6 in"
[gutter]
kind = "catch"
flow_line = "99.5 ft"
[verge]
width = "5 ft"
[walk]
width = "5 ft"
panel_length = "5 ft"
joint_left_of_run = "30 in"
cross_slope = "2 %"
level_curb_side = "100.1 ft"
level_house_side = "100.2 ft"
[[drain.node]]
name = "N1"
ground = "101 ft"
invert = "100 ft"
[[drain.reach]]
upper = "N1"
lower = "outlet"
length = "40 ft"
pipe = "3 in Sch 40 PVC"
[[drain.inflow]]
name = "roof"
node = "N1"
kind = "roof"
area = "500 sq ft"
[outlet]
kind = "core"
station = "12 ft"
bit = "4 in"
invert = "1 in"
[cut]
[restoration]
[traffic]
walk_closed = true
[dates]
start = 2026-04-27
finish = 2026-04-30
"""

HEAD = """
schema = 1
[sheet]
place = "{place}"
title = "{title}"
kind = "{kind}"
office = "{office}"
checked = 2026-03-02
due = 2027-03-01
[source.code]
title = "{title} Code"
read = 2026-03-02
"""


def sheet(
    text: str, title: str = "Ford", kind: str = "town", *, office: str = "", head: str = ""
) -> Sheet:
    """Return a sheet with this text added to a plain head; `head` is more of its `[sheet]`."""
    place = title.lower()
    top = HEAD.format(place=place, title=title, kind=kind, office=office)
    whole = top.replace("[source", f"{head}\n[source", 1) + text
    return read_sheet(whole.encode(), Path(f"jurisdictions/{place}/rules.toml"))


def state(text: str) -> Sheet:
    """Return a sheet of the layer below."""
    return sheet(text, "Yonder", "state")


def job(**tables: dict[str, Any] | str | list[Any] | Any) -> Job:  # noqa: ANN401 - as a file holds
    """Return the small job, with fields of its tables replaced or new tables added."""
    table = tomllib.loads(JOB, parse_float=Decimal)
    for name, value in tables.items():
        both = isinstance(value, dict) and isinstance(table.get(name), dict)
        table[name] = table[name] | value if both else value
    return Job.model_validate(table)


def rules(*sheets: Sheet | str, **tables: Any) -> RulesInForce:  # noqa: ANN401 - as a file holds
    """Return the rules in force for the small job under these sheets, the town's first."""
    layers = [sheet(text) if isinstance(text, str) else text for text in sheets]
    return rules_in_force(layers, job(**tables))


def edition(key: str, *bodies: str, since: str = "") -> str:
    """Return a rule in the long form: one edition of these cases."""
    begun = f"since = {since}\n" if since else ""
    cases = "".join(f"[[edition.case]]\n{body}\n" for body in bodies)
    return f'[[edition]]\nkey = "{key}"\n{begun}{cases}'


def base(when: str, inches: int) -> str:
    """Return a case on the base under a walk, cited by its number."""
    return f"{when}\nat_least = '{inches} in'\ncite = 'code {inches}'"
