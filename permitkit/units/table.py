"""Every unit an author may write: its spellings, its step in print, its name to Pint."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import partial
from itertools import islice, product

from permitkit.units.kinds import Kind, UnitError

__all__ = ["UNITS", "Form", "Unit", "samples", "second_unit", "spelled", "unit_named"]


class Form(StrEnum):
    """How a number of a unit is written."""

    DECIMAL = "decimal"
    FRACTION = "fraction"
    FEET_INCHES = "feet-inches"
    RISE_RUN = "rise-run"


@dataclass(frozen=True, slots=True, eq=False)
class Unit:
    """One unit and the way its numbers are written.

    Parameters
    ----------
    kinds
        The kinds it measures.
    name
        The style, one of a closed set; also what is printed, unless `label` is given.
    pint
        The unit as Pint spells it, the one source of its size.
    step
        The step it is printed to, in the unit.
    spellings
        What an author may write for it besides the name: lower case, without points, `/` for per.
    other
        The unit that tells the same once more for a reader with another tape.
    form
        How its numbers are written.
    times
        How many of `pint` make one, where Pint's own unit is not the one meant.
    grouped
        Whether thousands are set off by commas.
    label
        What is printed after the number, where that is not the name.
    """

    kinds: tuple[Kind, ...]
    name: str
    pint: str
    step: Fraction
    spellings: tuple[str, ...] = ()
    other: str = ""
    form: Form = Form.DECIMAL
    times: int = 1
    grouped: bool = False
    label: str = ""

    @property
    def in_fractions(self) -> bool:
        """Return whether its numbers are written in halves, quarters, eighths."""
        return self.form in {Form.FRACTION, Form.FEET_INCHES}


def _each(*parts: tuple[str, ...]) -> tuple[str, ...]:
    """Return every way of joining one word of each part."""
    return tuple(map("".join, product(*parts)))


_INCH = ("in", "inch", "inches")
_FOOT = ("ft", "foot", "feet")
_YARD = ("yd", "yard", "yards")
_MILE = ("mi", "mile", "miles")
_METER = ("m", "meter", "meters", "metre", "metres")
_GALLON = ("gal", "gallon", "gallons", "us gal", "us gallons")
_LITER = ("l", "liter", "liters", "litre", "litres")
_POUND = ("lb", "lbs", "pound", "pounds")
_SQUARE = ("sq ", "sq", "square ")
_CUBIC = ("cu ", "cu", "cubic ")
_BY_HOUR, _BY_MINUTE, _BY_SECOND = ("/h", "/hr", "/hour"), ("/min", "/minute"), ("/s", "/sec")

_ONE, _TENTH, _CENT, _MIL = Fraction(1), Fraction(1, 10), Fraction(1, 100), Fraction(1, 1000)
_TENTH_MIL, _SIXTEENTH = Fraction(1, 10000), Fraction(1, 16)

_length = partial(Unit, (Kind.LENGTH, Kind.LEVEL))
_area = partial(Unit, (Kind.AREA,))
_volume = partial(Unit, (Kind.VOLUME,))
_slope = partial(Unit, (Kind.SLOPE,))
_flow = partial(Unit, (Kind.FLOW,))
_velocity = partial(Unit, (Kind.VELOCITY,))
_speed = partial(Unit, (Kind.SPEED,))
_intensity = partial(Unit, (Kind.INTENSITY,))
_strength = partial(Unit, (Kind.STRENGTH,))
_angle = partial(Unit, (Kind.ANGLE,))
_temperature = partial(Unit, (Kind.TEMPERATURE,))
_mass = partial(Unit, (Kind.MASS,))

UNITS: tuple[Unit, ...] = (
    _length("ft", "foot", _CENT, (*_FOOT, "'", "lf", "lin ft"), "ft-in"),
    _length("in", "inch", _SIXTEENTH, (*_INCH, '"'), "ft", Form.FRACTION),
    _length("ft-in", "inch", _SIXTEENTH, (), "ft", Form.FEET_INCHES),
    _length("mm", "millimeter", _ONE, _each(("milli",), _METER[1:]), "in"),
    _length("cm", "centimeter", _TENTH, _each(("centi",), _METER[1:]), "in"),
    _length("m", "meter", _MIL, _METER, "ft-in"),
    _length("yd", "yard", _CENT, _YARD, "ft"),
    _length("mi", "mile", _CENT, _MILE, "ft"),
    _length("km", "kilometer", _MIL, _each(("kilo",), _METER[1:]), "mi"),
    _area("sq ft", "foot**2", _TENTH, ("sf", "ft2", *_each(_SQUARE, _FOOT)), "m2", grouped=True),
    _area("sq yd", "yard**2", _TENTH, ("sy", "yd2", *_each(_SQUARE, _YARD)), "m2", grouped=True),
    _area("sq in", "inch**2", _TENTH, ("in2", *_each(_SQUARE, _INCH)), "sq ft", grouped=True),
    # Pint's own acre is laid out in survey feet.
    _area("acre", "foot**2", _MIL, ("ac", "acres"), "sq ft", times=43560),
    _area("mm2", "millimeter**2", _ONE, _each(_SQUARE, ("mm",)), "sq in"),
    _area("cm2", "centimeter**2", _TENTH, _each(_SQUARE, ("cm",)), "sq in"),
    _area("m2", "meter**2", _CENT, _each(_SQUARE, _METER), "sq ft"),
    _area("ha", "hectare", _MIL, ("hectare", "hectares"), "acre"),
    _volume("gal", "gallon", _TENTH, _GALLON, "cu ft", grouped=True),
    _volume("cu ft", "foot**3", _CENT, ("cf", "ft3", *_each(_CUBIC, _FOOT)), "gal", grouped=True),
    _volume("cu yd", "yard**3", _CENT, ("cy", "yd3", *_each(_CUBIC, _YARD)), "m3", grouped=True),
    _volume("cu in", "inch**3", _TENTH, ("in3", *_each(_CUBIC, _INCH)), "gal", grouped=True),
    _volume("L", "liter", _TENTH, _LITER, "gal"),
    _volume("m3", "meter**3", _MIL, _each(_CUBIC, _METER), "cu yd"),
    Unit((Kind.SLOPE, Kind.RATIO), "%", "percent", _CENT, ("percent", "pct"), "in/ft"),
    _slope(
        "in/ft",
        "inch/foot",
        _SIXTEENTH,
        _each((*_INCH, '"'), ("/",), (*_FOOT, "'")),
        "%",
        Form.FRACTION,
    ),
    _slope("1:n", "dimensionless", _TENTH, (), "%", Form.RISE_RUN),
    _slope("ft/ft", "foot/foot", _TENTH_MIL, _each((*_FOOT, "'"), ("/",), (*_FOOT, "'")), "%"),
    _slope("m/m", "meter/meter", _TENTH_MIL, (), "%"),
    _slope("mm/m", "millimeter/meter", _TENTH, (), "%"),
    _flow("gpm", "gallon/minute", _TENTH, _each(_GALLON, _BY_MINUTE), "cfs"),
    _flow("cfs", "foot**3/second", _MIL, _each(("ft3", *_each(_CUBIC, _FOOT)), _BY_SECOND), "gpm"),
    _flow("gph", "gallon/hour", _ONE, _each(_GALLON, _BY_HOUR), "gpm"),
    _flow("L/s", "liter/second", _CENT, _each(_LITER, _BY_SECOND), "gpm"),
    _flow("L/min", "liter/minute", _TENTH, _each(_LITER, _BY_MINUTE), "gpm"),
    _flow("m3/h", "meter**3/hour", _CENT, _each(("m3",), _BY_HOUR), "gpm"),
    _flow("m3/s", "meter**3/second", _TENTH_MIL, _each(("m3",), _BY_SECOND), "cfs"),
    _velocity("ft/s", "foot/second", _CENT, ("fps", *_each(_FOOT, _BY_SECOND)), "m/s"),
    _velocity("m/s", "meter/second", _CENT, _each(_METER, _BY_SECOND), "ft/s"),
    _speed("mph", "mile/hour", _ONE, _each(_MILE, _BY_HOUR), "km/h"),
    _speed("km/h", "kilometer/hour", _ONE, ("kmh", "kph", *_each(("km",), _BY_HOUR)), "mph"),
    _intensity("in/hr", "inch/hour", _CENT, _each((*_INCH, '"'), _BY_HOUR), "mm/h"),
    _intensity("mm/h", "millimeter/hour", _TENTH, _each(("mm",), _BY_HOUR), "in/hr"),
    _strength("psi", "psi", _ONE, _each(_POUND, ("/in2", "/sq in")), "MPa", grouped=True),
    _strength("MPa", "megapascal", _TENTH, ("n/mm2",), "psi"),
    _strength("ksi", "ksi", _CENT, (), "MPa"),
    _strength(
        "psf", "force_pound/foot**2", _ONE, _each(_POUND, ("/ft2", "/sq ft")), "kPa", grouped=True
    ),
    _strength("kPa", "kilopascal", _TENTH, ("kn/m2",), "psf"),
    _angle("deg", "degree", _TENTH, ("degree", "degrees", "°")),
    _temperature(
        "degF",
        "degree_Fahrenheit",
        _TENTH,
        ("f", "°f", "° f", "deg f", "degrees f"),
        "degC",
        label="deg F",
    ),
    _temperature(
        "degC",
        "degree_Celsius",
        _TENTH,
        ("c", "°c", "° c", "deg c", "degrees c"),
        "degF",
        label="deg C",
    ),
    _mass("lb", "pound", _TENTH, _POUND, "kg", grouped=True),
    _mass("kg", "kilogram", _TENTH, ("kilogram", "kilograms"), "lb"),
    _mass("ton", "short_ton", _CENT, ("tons",), "lb"),
    Unit((Kind.RATIO,), "", "dimensionless", _MIL),
)

_BY_NAME = {(kind, unit.name): unit for unit in UNITS for kind in unit.kinds}
_FIRST = {kind: unit for unit in reversed(UNITS) for kind in unit.kinds}
_BY_SPELLING = {
    kind: {
        word: unit
        for unit in UNITS
        if kind in unit.kinds and unit.form not in {Form.FEET_INCHES, Form.RISE_RUN}
        for word in (unit.name.lower(), *unit.spellings)
    }
    for kind in Kind
}


def unit_named(name: str, kind: Kind) -> Unit:
    """Return the unit of that style for a kind; no name means the kind's first unit.

    Raises
    ------
    UnitError
        The kind has no such unit.
    """
    unit = _BY_NAME.get((kind, name))
    if unit is not None:
        return unit
    if not name:
        return _FIRST[kind]
    known = ", ".join(word for of, word in _BY_NAME if of is kind and word)
    raise UnitError(repr(name), f"a unit of {kind}", f"write one of {known}")


def second_unit(name: str, kind: Kind) -> str:
    """Return the unit that tells a quantity once more, or nothing where none is of use."""
    other = unit_named(name, kind).other
    return other if (kind, other) in _BY_NAME else ""


def samples(kind: Kind) -> tuple[str, ...]:
    """Return the units to show in advice: the first two of the kind."""
    known = (unit.label or unit.name for unit in UNITS if kind in unit.kinds)
    return tuple(islice(filter(None, known), 2))


def spelled(kind: Kind) -> dict[str, Unit]:
    """Return every spelling an author may use for a kind, with its unit."""
    return _BY_SPELLING[kind]
