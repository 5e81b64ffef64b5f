"""Curbs, cores and slabs come out as codes print them, or as worked by hand from their sizes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from published.rows import UNITS, Row, rows

from permitkit.geometry.core import CoreHole
from permitkit.geometry.curb import (
    CurbProfile,
    Pan,
    Rounds,
    curb_and_gutter,
    vertical_curb,
)
from permitkit.geometry.panels import WalkCut, bag_yield_m3, bags_for
from permitkit.geometry.span import Joints, Span

if TYPE_CHECKING:
    from collections.abc import Callable

ROWS = rows("curbs")
Given = dict[str, Any]


def plain(g: Given) -> CurbProfile:
    batter = (g["bottom"] - g["top"]) / g["depth"]
    base = g["depth"] - g["reveal"]
    return vertical_curb(g["reveal"], g["top"], base, batter, Rounds(top_m=g["top_radius"]))


def combined(g: Given) -> CurbProfile:
    pan = Pan(g["pan"], g.get("lip_rise", 0.0) / g["pan"], g["thickness"])
    rounds = Rounds(g.get("toe", 0.0), g.get("top_radius", 0.0))
    return curb_and_gutter(g["reveal"], g["top"], pan, g["batter"], rounds)


def sloping(g: Given) -> CurbProfile:
    pan = Pan(g["pan"], 0.0, g["thickness"])
    return curb_and_gutter(g["reveal"], g["top"], pan, g["run"] / g["reveal"])


def height(profile: CurbProfile) -> float:
    levels = [y for _, y in profile.outline_points()]
    return max(levels) - min(levels)


def hole(g: Given) -> CoreHole:
    bit = g["bit"]
    pipe = g.get("pipe", bit)
    return CoreHole(g.get("reveal", 2.0 * bit), g.get("bottom", 0.0), bit, pipe, pipe)


def slab(g: Given) -> float:
    cut = Span(0.0, g["length"])
    walk = WalkCut(Joints(0.0, g["length"]), cut, cut, g["width"], g["width"])
    return walk.volume_m3(g["thickness"])


def slab_bags(g: Given) -> float:
    return bags_for(slab(g) * (1.0 + g["waste"]), g["bag"])


QUANTITIES: dict[str, Callable[[Given], float]] = {
    "vertical curb area": lambda g: plain(g).area_m2,
    "buried depth": lambda g: height(plain(g)) - g["reveal"],
    "curb and gutter area": lambda g: combined(g).area_m2,
    "curb and gutter back": lambda g: height(combined(g)),
    "sloping face run": lambda g: sloping(g).face_at(g["reveal"] / 2.0),
    "battered face": lambda g: combined(g).face_at(g["reveal"]),
    "width over all": lambda g: combined(g).back_m - combined(g).lip_m,
    "grout": lambda g: hole(g).grout_m3(g["through"]),
    "gap": lambda g: hole(g).gap_m,
    "strip": lambda g: hole(g).strip_m,
    "slab net": slab,
    "slab bags": slab_bags,
    "bag yield": lambda g: bag_yield_m3(g["bag"]),
    "bags in a yard": lambda g: bags_for(UNITS["yd3"], g["bag"]),
}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_a_size_comes_out_as_printed(row: Row) -> None:
    result = QUANTITIES[row.quantity](row.given)

    assert row.misses_by(result) <= 1e-9, result / UNITS[row.unit]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_a_size_well_off_is_caught(row: Row) -> None:
    assert row.misses_by(1.3 * QUANTITIES[row.quantity](row.given)) > 0.0


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)
def test_a_curb_row_says_where_it_stands(row: Row) -> None:
    assert row.known in {"seen", "memory"}
    assert all((row.source, row.edition, row.place))
