"""The ways of letting the water go, compared side by side on the same run."""

from permitkit.study.ways.compare import compare_ways
from permitkit.study.ways.way import DryWell, Way
from permitkit.study.ways.words import WAYS_HEADS, ways_in_words, ways_set_aside

__all__ = [
    "WAYS_HEADS",
    "DryWell",
    "Way",
    "compare_ways",
    "ways_in_words",
    "ways_set_aside",
]
