"""Quantities as people write them on site: read once, held exactly, written back their way."""

from __future__ import annotations

from permitkit.units.kinds import Kind, UnitError
from permitkit.units.measure import Measure, from_si, measure, same
from permitkit.units.money import read_money, write_money
from permitkit.units.reading import read_measure
from permitkit.units.telling import apart, both_ways, write_measure

__all__ = [
    "Kind",
    "Measure",
    "UnitError",
    "apart",
    "both_ways",
    "from_si",
    "measure",
    "read_measure",
    "read_money",
    "same",
    "write_measure",
    "write_money",
]
