"""Conditions, values and sums of money in words, for pages and for faults."""

from __future__ import annotations

from permitkit.model.telling.conditions import (
    condition_text,
    ladder_text,
    threshold_text,
    when_text,
)
from permitkit.model.telling.money import line_text, term_text
from permitkit.model.telling.values import amount_text, value_text

__all__ = [
    "amount_text",
    "condition_text",
    "ladder_text",
    "line_text",
    "term_text",
    "threshold_text",
    "value_text",
    "when_text",
]
