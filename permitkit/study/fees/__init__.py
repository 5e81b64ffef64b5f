"""Fees, deposit and bond: each line's arithmetic in words, its sum, its source."""

from __future__ import annotations

from permitkit.study.fees.lines import work_out

__all__ = ["work_out"]
