"""Lists a sheet writes: sentences, things asked for, an order of preference, insurance."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.reading.dates import read_clock, read_length, read_notice
from permitkit.model.reading.written import Written, quoted
from permitkit.model.values import Cover, Insurance, Item, Items, Order, Sentences
from permitkit.model.vocabulary.papers import policy_kind
from permitkit.model.words import PolicyKind, choices

if TYPE_CHECKING:
    from permitkit.model.rules import RuleKey

__all__ = [
    "COVER_SUMS",
    "ITEM_WORDS",
    "read_insurance",
    "read_items",
    "read_order",
    "read_sentences",
]

ITEM_WORDS = (
    "name",
    "number",
    "revision",
    "notice",
    "earliest",
    "cutoff",
    "after",
    "clock",
    "note",
    "only_if",
)
COVER_SUMS = ("each", "aggregate", "person", "project")


def read_sentences(table: Written, _key: RuleKey) -> Sentences:
    """Return the sentences to print."""
    return Sentences(table.texts("say"))


def read_order(table: Written, key: RuleKey) -> Order:
    """Return the order of preference, in known words; a step named twice is a fault."""
    steps = table.texts("order")
    known = table.known_or_own if key.own_words else table.known
    steps = known(steps, "order", key.words)
    if len(set(steps)) < len(steps):
        table.fault("order", quoted(list(steps)), "each step once")
    return Order(steps, reason_needed=table.flag("reason_needed", default=True))


def read_items(table: Written, key: RuleKey) -> Items:
    """Return the things asked for; a plain text is a thing with nothing but its name."""
    value = table.take("items")
    rows = value if isinstance(value, list) else [value]
    if not rows:
        table.fault("items", "an empty list", "at least one thing", "say no_rule = true instead")
    read = [_read_item(table, row, n) for n, row in enumerate(rows, 1)]
    items = tuple(item for item in read if item is not None)
    if key.words:
        table.known((item.name for item in items), "items", key.words)
    return Items(items)


def _read_item(table: Written, row: object, n: int) -> Item | None:
    """Return one thing asked for."""
    if isinstance(row, str) and row.strip():
        row = {"name": row}
    if not isinstance(row, dict):
        table.fault("items", quoted(row), 'names, such as ["sketch", { name = "bond" }]')
        return None
    written = Written(row, f"{table.at('items')}[{n}]", table.faults)
    name = written.text("name", needed=True)
    notice = read_notice(written, "notice") if written.has("notice") else None
    after = read_length(written, "after") if written.has("after") else None
    timed = notice or after
    item = Item(
        name,
        number=written.text("number"),
        revision=written.text("revision"),
        notice=notice,
        note=written.text("note"),
        clock=timed.clock if timed else read_clock(written),
        after=after,
        only_if=written.text("only_if").removeprefix("only if ").removeprefix("if "),
    )
    written.close(also=ITEM_WORDS)
    return item


def read_insurance(table: Written, _key: RuleKey) -> Insurance:
    """Return the covers asked for."""
    return Insurance(tuple(_read_cover(row) for row in table.tables("covers")))


def _read_cover(row: Written) -> Cover:
    """Return one cover, its limits in money or set by the state's law."""
    kind = policy_kind(row.text("kind", needed=True))
    if kind:
        row.known_or_own((kind,), "kind", choices(PolicyKind))
    cover = Cover(
        kind,
        row.money("each"),
        aggregate=row.money("aggregate"),
        person=row.money("person"),
        by_law=row.flag("by_law"),
        note=row.text("note"),
        project=row.money("project"),
    )
    if not cover.by_law and not any(row.has(name) for name in COVER_SUMS):
        expected = "each = a sum for every occurrence, aggregate, person or project, or by_law"
        row.fault("", "no limit", expected)
    row.close()
    return cover
