"""Lists a sheet writes: sentences, things asked for, an order of preference, insurance."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from permitkit.model.reading.dates import CLOCKS, read_notice
from permitkit.model.reading.written import Written, quoted
from permitkit.model.values import Cover, Insurance, Item, Items, Order, Sentences

if TYPE_CHECKING:
    from permitkit.model.rules import RuleKey

__all__ = ["read_insurance", "read_items", "read_order", "read_sentences"]


def read_sentences(table: Written, _key: RuleKey) -> Sentences:
    """Return the sentences to print."""
    return Sentences(table.texts("say"))


def read_order(table: Written, _key: RuleKey) -> Order:
    """Return the order of preference; a step named twice is a fault."""
    steps = table.texts("order")
    if len(set(steps)) < len(steps):
        table.fault("order", quoted(list(steps)), "each step once")
    return Order(steps, reason_needed=table.flag("reason_needed", default=True))


def read_items(table: Written, _key: RuleKey) -> Items:
    """Return the things asked for; a plain text is a thing with nothing but its name."""
    value = table.take("items")
    rows = value if isinstance(value, list) else [value]
    if not rows:
        table.fault("items", "an empty list", "at least one thing", "say no_rule = true instead")
    read = [_read_item(table, row, n) for n, row in enumerate(rows, 1)]
    return Items(tuple(item for item in read if item is not None))


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
    item = Item(
        name,
        number=written.text("number"),
        revision=written.text("revision"),
        notice=notice,
        note=written.text("note"),
        clock=notice.clock if notice else written.word("clock", CLOCKS),
        only_if=written.text("only_if").removeprefix("only if ").removeprefix("if "),
    )
    written.close()
    return item


def read_insurance(table: Written, _key: RuleKey) -> Insurance:
    """Return the covers asked for."""
    return Insurance(tuple(_read_cover(row) for row in table.tables("covers")))


def _read_cover(row: Written) -> Cover:
    """Return one cover, its limit in money or set by the state's law."""
    each, by_law = row.money("each"), row.flag("by_law")
    if each is None and not by_law:
        row.fault("", "no limit", "each = a sum for every occurrence, or by_law = true")
    cover = Cover(
        row.text("kind", needed=True),
        each if each is not None else Decimal(0),
        aggregate=row.money("aggregate"),
        person=row.money("person"),
        by_law=by_law,
        note=row.text("note"),
    )
    row.close()
    return cover
