"""Where the rain comes from, what lies over the run, and a run that branches."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from study_cases import (
    CLEAN,
    FOOT,
    GPM,
    INCH,
    altered,
    demo,
    near,
    node_at,
    rules_saying,
    study_job_of,
    study_with,
)

from permitkit.study.study import study_job
from permitkit.study.water.rain import rain_basis
from permitkit.units import Kind, measure

if TYPE_CHECKING:
    import random


class TestRain:
    """Where the rain comes from, and what its basis lacks."""

    def test_the_jobs_own_rain_counts_where_the_sheet_is_silent(self) -> None:
        table = '[rain]\nintensity = "2.0 in/hr"\nperiod = "10-year"\n\n[outlet]\nkind = "core"'
        job = altered(CLEAN, ('[outlet]\nkind = "core"', table))

        rain = rain_basis(job, rules_saying(""))

        assert rain.intensity_ms == pytest.approx(2.0 * INCH / 3600)
        assert rain.missing == ("duration", "source")

    def test_without_any_rain_the_pump_alone_flows_and_all_of_the_basis_is_missing(self) -> None:
        study = study_job(demo(CLEAN), rules_saying(""))

        assert study.water.rain.missing == ("intensity", "return period", "duration", "source")
        assert near(study.water.total_m3s / GPM, "12.0")

    def test_half_of_a_wall_counts_with_its_roof(self) -> None:
        roof = 'kind = "roof"\narea = "380 sq ft"'
        study = study_with(CLEAN, (roof, roof + '\nwall_area = "100 sq ft"'))

        assert study.water.inflows[0].area_m2 / FOOT**2 == pytest.approx(430)

    def test_a_yard_runs_off_by_its_coefficient(self) -> None:
        yard = 'kind = "yard"\nrunoff = "50 %"\nrunoff_source = "handbook"\narea = "380 sq ft"'
        study = study_with(CLEAN, ('kind = "roof"\narea = "380 sq ft"', yard))

        assert near(study.water.inflows[0].flow_m3s / GPM, "7.9")

    def test_the_towns_gutter_depth_goes_before_the_jobs(self) -> None:
        rules = rules_saying('gutter.depth = { at_most = "4 in", cite = "pw 1" }')
        levels = study_job(demo(CLEAN), rules).water.gutter_levels_m

        assert (levels["running"] - levels["free"]) / INCH == pytest.approx(4.0)


TREE = """
[[drain.node]]
name = "L"
ground = "100.90 ft"
invert = "100.30 ft"

[[drain.node]]
name = "K"
ground = "100.95 ft"
invert = "100.45 ft"

[[drain.reach]]
upper = "L"
lower = "N1"
length = "12 ft"
pipe = "3 in Sch 40 PVC"

[[drain.reach]]
upper = "K"
lower = "L"
length = "9 ft"
pipe = "3 in Sch 40 PVC"

[[drain.inflow]]
name = "side downspout"
node = "K"
kind = "roof"
area = "120 sq ft"

# Ground along the run, from the curb face."""
BRANCHED = altered(CLEAN, ("\n# Ground along the run, from the curb face.", TREE))


class TestSurfaces:
    """What lies over a reach."""

    @pytest.mark.parametrize(
        ("own", "found"),
        [
            ("lawn", ("curb", "verge", "walk", "lawn")),
            ("walk", ("curb", "verge", "walk", "lawn")),
            ("drive", ("curb", "verge", "walk", "drive")),
            ("planting", ("curb", "verge", "walk", "planting")),
        ],
    )
    def test_behind_the_walk_a_reach_lies_under_its_own_surface(
        self, own: str, found: tuple[str, ...]
    ) -> None:
        job = demo(CLEAN)
        upper, lower = job.drain.reach
        reaches = (upper, lower.model_copy(update={"surface": own}))
        drain = job.drain.model_copy(update={"reach": reaches})

        assert study_job_of(job.model_copy(update={"drain": drain})).water.reaches[0].surfaces == (
            found
        )

    def test_a_walk_that_is_part_of_a_driveway_is_a_drive_as_well(self) -> None:
        job = demo(CLEAN)
        walk = job.walk.model_copy(update={"use": "driveway"})
        study = study_job_of(job.model_copy(update={"walk": walk}))

        assert study.water.reaches[0].surfaces == ("curb", "verge", "walk", "drive", "lawn")

    def test_a_walk_at_the_curb_has_no_verge(self) -> None:
        job = demo(CLEAN)
        verge = job.verge.model_copy(update={"width": measure(0, "ft", Kind.LENGTH)})
        study = study_job_of(job.model_copy(update={"verge": verge}))

        assert study.water.reaches[0].surfaces == ("curb", "walk", "lawn")
        assert study.cut.slab[0].station_m / FOOT == pytest.approx(0.5)


class TestTree:
    """A run with a lateral."""

    def test_flows_add_downstream(self) -> None:
        study = study_job_of(BRANCHED)
        flows = {r.name: r.flow_m3s for r in study.water.reaches}

        assert flows["K to L"] == flows["L to N1"]
        assert flows["N1 to outlet"] == pytest.approx(study.water.total_m3s)

    def test_the_trunk_is_the_longest_way_and_stations_follow_each_branch(self) -> None:
        study = study_job_of(BRANCHED)
        stations = {node.name: node.station_m / FOOT for node in study.water.nodes}

        assert stations["K"] == pytest.approx(41.5 + 12 + 9)
        assert [name for name, _ in study.water.fall.needs_m] == ["N2 to N1", "N1 to outlet"]

    def test_an_opening_not_given_is_the_ground(self) -> None:
        lateral = node_at(study_job_of(BRANCHED), "L")

        assert (lateral.opening_m, lateral.opening_kind) == (lateral.ground_m, "ground")

    @given(st.randoms(use_true_random=False))
    def test_the_order_of_nodes_and_reaches_does_not_matter(self, chance: random.Random) -> None:
        drain = BRANCHED.drain
        mixed = {
            name: tuple(chance.sample(parts, len(parts)))
            for name, parts in (("node", drain.node), ("reach", drain.reach))
        }
        job = BRANCHED.model_copy(update={"drain": drain.model_copy(update=mixed)})

        assert study_job_of(job).water == study_job_of(BRANCHED).water

    def test_a_lateral_that_holds_water_is_a_pool_of_its_own(self) -> None:
        study = study_with(
            CLEAN,
            (
                "\n# Ground along the run, from the curb face.",
                TREE.replace('invert = "100.45 ft"', 'invert = "100.20 ft"'),
            ),
        )

        assert [pool.where for pool in study.water.standing] == ["K"]
        assert near(study.water.standing[0].depth_m / INCH, "1.2")
