"""What a sheet's author writes for a condition, a value or a sum of money, read into the model."""

from __future__ import annotations

from permitkit.model.reading.answers import FactAnswer, RuleAnswer, read_answer
from permitkit.model.reading.cases import CASE_WORDS, read_case
from permitkit.model.reading.conditions import read_when
from permitkit.model.reading.spelling import nearest
from permitkit.model.reading.values import read_value, value_words
from permitkit.model.reading.written import Written

__all__ = [
    "CASE_WORDS",
    "FactAnswer",
    "RuleAnswer",
    "Written",
    "nearest",
    "read_answer",
    "read_case",
    "read_value",
    "read_when",
    "value_words",
]
