"""The take-off of the office copy: concrete also in the bags a crew buys."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from packets import judged

from permitkit.packet.office import office_parts
from permitkit.render.blocks import Table

if TYPE_CHECKING:
    from permitkit.checks.judge import Judged

CLEAN = judged("millrace-clean")


def concrete(of: Judged) -> str:
    """Return the row of concrete as plain text."""
    (part,) = [part for part in office_parts(of) if part.key == "take-off"]
    rows = [row for block in part.blocks if isinstance(block, Table) for row in block.rows]
    (row,) = [row for row in rows if row[0] == "Concrete"]
    return " | ".join(row)


def with_concrete(volume_m3: float) -> Judged:
    cut = replace(CLEAN.study.cut, concrete_m3=volume_m3)
    return replace(CLEAN, study=replace(CLEAN.study, cut=cut))


def test_a_panel_is_told_in_bags_of_eighty_pounds() -> None:
    assert concrete(CLEAN) == (
        "Concrete | 8.3 cu ft | "
        "net, add for waste: about 14 bags of 80 lb at 0.6 cu ft each (ASTM C387)"
    )


def test_a_metric_author_buys_the_same_bags_by_the_kilogram() -> None:
    metric = CLEAN.job.model_copy(update={"units": "metric"})

    assert "about 14 bags of 36 kg at 17 L each" in concrete(replace(CLEAN, job=metric))


def test_little_concrete_is_one_bag() -> None:
    assert "about one bag of 80 lb" in concrete(with_concrete(0.01))
