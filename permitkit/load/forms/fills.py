"""What goes into one field of a form: exactly one of seven ways."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.model.forms.form import DAYS, Ask, Choose, Say, Sign, Theirs, Tick, Write
from permitkit.model.forms.values import FORM_VALUES, ValueSort
from permitkit.model.reading import nearest
from permitkit.model.reading.spelling import listed
from permitkit.model.reading.written import Written, quoted
from permitkit.units import UnitError, from_si

if TYPE_CHECKING:
    from permitkit.model.forms.form import Fill
    from permitkit.model.forms.values import ValueTold

__all__ = ["FILLS", "read_fill"]

FILLS = ("write", "say", "tick", "choose", "sign", "ask", "theirs")
_NAMED = "a value by its name, from the list in jurisdictions/README.md"


def read_fill(table: Written, days: str) -> Fill | None:
    """Return what a field's table says goes in, or nothing where that cannot be read.

    Parameters
    ----------
    table
        The field.
    days
        How the form writes its days, where the field does not say.
    """
    ways = [name for name in FILLS if table.has(name)]
    if len(ways) != 1:
        found = f"{' and '.join(ways)} together" if ways else "nothing that goes in"
        table.fault("", found, f"one of {listed(FILLS)}")
        for name in ways:
            table.take(name)
        return None
    return {
        "write": _write,
        "say": _say,
        "tick": _tick,
        "choose": _choose,
        "sign": _sign,
        "ask": _ask,
        "theirs": _theirs,
    }[ways[0]](table, days)


def _value(table: Written, name: str, field: str) -> ValueTold | None:
    """Return the value of that name, or note that there is none."""
    told = FORM_VALUES.get(name)
    if told is None:
        table.fault(field, repr(name), _NAMED, nearest(name, FORM_VALUES))
    return told


def _write(table: Written, days: str) -> Fill | None:
    found = [_value(table, name, "write") for name in table.texts("write")]
    values = [told for told in found if told is not None]
    unit = table.text("unit")
    written = table.word("days", DAYS, days)
    if table.has("days") and not any(told.sort is ValueSort.DAY for told in values):
        table.fault("days", quoted(table.table["days"]), "nothing: no day is written here")
    if len(values) < len(found) or not values:
        return None
    if unit:
        _check_unit(table, unit, values)
    return Write(tuple(told.name for told in values), unit, written)


def _check_unit(table: Written, unit: str, values: list[ValueTold]) -> None:
    """Note a unit that the one value cannot be written in."""
    (told, *more) = values
    if more or told.sort not in {ValueSort.QUANTITY, ValueSort.MONEY}:
        table.fault("unit", repr(unit), "nothing: a unit goes with one quantity or sum alone")
    elif told.quantity is None:
        if unit != "$":
            table.fault("unit", repr(unit), 'unit = "$", for a sum without its sign')
    else:
        try:
            from_si(1.0, told.quantity, unit)
        except UnitError as error:
            table.fault("unit", error.found, error.expected, error.fix)


def _say(table: Written, _days: str) -> Fill | None:
    text = table.text("say", needed=True)
    return Say(text) if text else None


def _tick(table: Written, _days: str) -> Fill | None:
    name = table.text("tick", needed=True)
    told = _value(table, name, "tick") if name else None
    words = table.texts("is")
    if told is None:
        return None
    if told.sort is not ValueSort.WORDS:
        kin = listed(one.name for one in FORM_VALUES.values() if one.sort is ValueSort.WORDS)
        table.fault("tick", repr(name), f"a value that has words: {kin}")
    elif not words:
        table.fault("is", "nothing", f"the words that tick it: {listed(told.words) or 'ids'}")
    elif told.words:
        table.known(words, "is", told.words)
    return Tick(name, words)


def _choose(table: Written, _days: str) -> Fill | None:
    name = table.text("choose", needed=True)
    told = _value(table, name, "choose") if name else None
    options = table.members("options")
    read = {word: options.text(word, needed=True) for word in options.table}
    if told is None:
        return None
    if told.sort is not ValueSort.WORDS:
        table.fault("choose", repr(name), "a value that has words")
    elif not read:
        table.fault("options", "nothing", 'options = { "word" = "the choice of the form" }')
    elif told.words:
        options.known(read, "", told.words)
    return Choose(name, read)


def _sign(table: Written, _days: str) -> Fill | None:
    return Sign() if _true(table, "sign") else None


def _theirs(table: Written, _days: str) -> Fill | None:
    return Theirs() if _true(table, "theirs") else None


def _ask(table: Written, _days: str) -> Fill | None:
    if isinstance(table.table["ask"], bool):
        return Ask() if _true(table, "ask") else None
    what = table.text("ask", needed=True)
    return Ask(what) if what else None


def _true(table: Written, name: str) -> bool:
    if table.flag(name):
        return True
    if table.table[name] is False:
        table.fault(name, "false", f"{name} = true, or another way to fill it")
    return False
