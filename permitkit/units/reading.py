"""The guard between what a person wrote and a quantity: nothing is guessed."""

from __future__ import annotations

import re
import unicodedata
from difflib import get_close_matches
from fractions import Fraction
from typing import TYPE_CHECKING

from permitkit.units.kinds import EXPECTED, SIGNED, Kind, UnitError, nouns
from permitkit.units.measure import Measure, measure
from permitkit.units.table import samples, spelled

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["read_measure"]

_LONGEST = 60
_INCHES_IN_A_FOOT = 12
_NO_RUN = "the run is never 0"

_WHOLE = r"(?:[1-9][0-9]{0,2}(?:,[0-9]{3})+|[0-9]{1,12})"
_PART = r"[0-9]{1,4}/[0-9]{1,4}"
_NUMBER = rf"(?:{_WHOLE}[ -]{_PART}|{_PART}|{_WHOLE}(?:\.[0-9]{{1,12}})?|\.[0-9]{{1,12}})"
_PLAIN = re.compile(rf"({_NUMBER}) ?(.*)")
_FEET_INCHES = re.compile(
    rf"({_WHOLE}) ?(?:ft|foot|feet|')(?: ?-? ?|, )({_NUMBER}) ?(?:in|inch|inches|\")"
    rf"|({_WHOLE})' ?-? ?({_NUMBER})"
    rf"|([0-9]{{1,5}})-([0-9]{{1,2}}(?:[ -]{_PART})?)"
)
_RISE_RUN = re.compile(rf"1(?: ?: ?| in | on )({_NUMBER})")
_OVER = re.compile(rf"({_NUMBER}) ?([a-z'\"]+)(?:/| in )({_NUMBER}) ?([a-z'\"]+)")

_MISWRITTEN: tuple[tuple[re.Pattern[str], str], ...] = (
    (re.compile(r"[0-9]+,[0-9].*"), "write decimals with a point, and a comma before three digits"),
    (re.compile(r"[0-9.]+ ?e ?[+-]?[0-9].*"), "write the number out, without a power of ten"),
    (re.compile(r"[^:]+:[^:]+"), "write a slope as one in so many, such as 1:48"),
    (re.compile(r"[0-9]+-[0-9].*"), "write feet and inches as 5 ft 6 in, a range as two values"),
    (re.compile(r"[0-9][0-9./]*[^0-9./].*[0-9].*"), "write one number with one unit"),
    (re.compile(r"[0-9./]*[./][0-9]*[./].*"), "write one number with one unit"),
)

_MARKS = str.maketrans(
    {
        **dict.fromkeys("\u2018\u2019\u2032\u02b9\u00b4`", "'"),
        **dict.fromkeys("\u201c\u201d\u2033\u02ba", '"'),
        **dict.fromkeys("\u2010\u2011\u2012\u2013\u2212", "-"),
    }
)
_IDLE = re.compile(r"(?<=[a-z])(?:\.|\^(?=[23]))")
_PER = re.compile(r" ?/ ?| per ")


class _Refused(Exception):  # noqa: N818 - never leaves this module, which turns it into a UnitError
    """What to write instead."""


def read_measure(text: object, kind: Kind) -> Measure:
    r"""Return the quantity a text states.

    Parameters
    ----------
    text
        A number with its unit as written on site: `3 1/2 in`, `5'-6"`, `0.5 %`, `1:48`, `35 gpm`.
        Anything that is not a text is refused.
    kind
        What it has to measure.

    Raises
    ------
    UnitError
        The text is not one number with a unit of that kind.

    Examples
    --------
    >>> read_measure("1/4 in/ft", Kind.SLOPE) == read_measure("1:48", Kind.SLOPE)
    True
    >>> read_measure("5'-6 1/2\"", Kind.LENGTH).shown()
    '5 ft 6 1/2 in'
    """
    if not isinstance(text, str):
        raise UnitError(_in_its_file(text), EXPECTED[kind], _as_text(text, kind))
    try:
        read = _read(_tidy(text), kind)
    except _Refused as refused:
        raise UnitError(_quoted(text), EXPECTED[kind], str(refused)) from None
    return Measure(read.si, read.kind, read.unit, text)


def _tidy(text: str) -> str:
    """Return the text in lower case with plain marks, plain spaces and plain fractions."""
    if not text.isascii():
        text = _plain_form("".join(map(_set_off, text.translate(_MARKS))))
    text = _IDLE.sub("", text.lower()).replace("''", '"')
    return _PER.sub("/", " ".join(text.split()))


def _plain_form(text: str) -> str:
    """Return compatibility forms spelled out: one half becomes `1/2`, a raised 2 a plain one."""
    return unicodedata.normalize("NFKC", text).replace("\u2044", "/")


def _set_off(letter: str) -> str:
    """Return a vulgar fraction with a space before it, any other letter as it is."""
    return f" {letter}" if not letter.isascii() and "/" in _plain_form(letter) else letter


def _read(tidy: str, kind: Kind) -> Measure:
    """Return the quantity of a tidied text."""
    if not tidy or len(tidy) > _LONGEST:
        raise _Refused("write one number with one unit")
    if tidy[0] == "-" and kind not in SIGNED:
        raise _Refused(f"{nouns((kind,))} is never less than zero")
    sign = -1 if tidy[0] == "-" else 1
    rest = tidy[1:].lstrip() if tidy[0] in "+-" else tidy
    for grammar, reader in _GRAMMARS.get(kind, ()):
        if match := grammar.fullmatch(rest):
            read = reader(match, kind)
            return read if sign > 0 else -read
    return _plain(rest, kind, sign)


def _number(text: str) -> Fraction:
    """Return the number a matched text stands for."""
    whole, _, part = text.replace("-", " ").replace(",", "").rpartition(" ")
    if "/" not in part:
        return Fraction(part)
    above, below = map(int, part.split("/"))
    if not below:
        raise _Refused("the lower number of a fraction is never 0")
    if whole and above >= below:
        raise _Refused(f"a fraction after a whole number is less than one, not {part}")
    return int(whole or 0) + Fraction(above, below)


def _feet_inches(match: re.Match[str], kind: Kind) -> Measure:
    """Return feet and inches; twelve inches or more after feet are refused."""
    feet, inches = (_number(group) for group in match.groups() if group is not None)
    total = measure(feet * _INCHES_IN_A_FOOT + inches, "ft-in", kind)
    if inches >= _INCHES_IN_A_FOOT:
        raise _Refused(f"inches after feet stay below 12; write {total.shown()}")
    return total


def _rise_run(match: re.Match[str], kind: Kind) -> Measure:
    """Return a slope of one in so many."""
    run = _number(match[1])
    if not run:
        raise _Refused(_NO_RUN)
    return measure(run, "1:n", kind)


def _over(match: re.Match[str], kind: Kind) -> Measure:
    """Return a slope of so much length over so much length, told as a percentage."""
    rise, rise_word, run, run_word = match.groups()
    above = _plain(f"{rise} {rise_word}", Kind.LENGTH)
    below = _plain(f"{run} {run_word}", Kind.LENGTH)
    if not below.si:
        raise _Refused(_NO_RUN)
    return Measure(above.si / below.si, kind, "%")


_GRAMMARS: dict[Kind, tuple[tuple[re.Pattern[str], Callable[[re.Match[str], Kind], Measure]], ...]]
_GRAMMARS = {
    Kind.LENGTH: ((_FEET_INCHES, _feet_inches),),
    Kind.LEVEL: ((_FEET_INCHES, _feet_inches),),
    Kind.SLOPE: ((_RISE_RUN, _rise_run), (_OVER, _over)),
}


def _plain(text: str, kind: Kind, sign: int = 1) -> Measure:
    """Return one number with one unit."""
    match = _PLAIN.fullmatch(text)
    if match is None:
        raise _Refused("begin with a number, such as 3 1/2, 0.5 or 1,450")
    unit = spelled(kind).get(match[2])
    if unit is None:
        raise _Refused(_advice(text, match[1], match[2], kind))
    return measure(sign * _number(match[1]), unit.name, kind)


def _advice(text: str, figures: str, word: str, kind: Kind) -> str:
    """Return why a word is no unit of the kind, and what to write."""
    if not word:
        return "write the unit, such as " + " or ".join(
            f"{figures} {sample}" for sample in samples(kind)
        )
    if others := tuple(k for k in Kind if k is not Kind.LEVEL and word in spelled(k)):
        return f"{word} measures {nouns(others)}"
    for shape, advice in _MISWRITTEN:
        if shape.fullmatch(text):
            return advice
    near = get_close_matches(word, spelled(kind), n=1)
    return f"{word!r} is no unit known here" + (
        f"; did you mean {spelled(kind)[near[0]].name}" if near else ""
    )


def _quoted(text: str) -> str:
    """Return a text in quotes, cut where it runs on."""
    return repr(text if len(text) <= _LONGEST else text[:_LONGEST] + "\u2026")


def _in_its_file(value: object) -> str:
    """Return a value that is no text, as its file shows it."""
    return str(value).lower() if isinstance(value, bool) else _quoted(str(value))[1:-1]


def _as_text(value: object, kind: Kind) -> str:
    """Return how to write a value that is no text."""
    if isinstance(value, bool | list | dict):
        return "write one quantity, in quotes"
    return f'write it in quotes with its unit, such as "{value} {samples(kind)[0]}"'
