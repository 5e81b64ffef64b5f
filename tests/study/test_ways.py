"""Ways of letting the water go, built and computed on the run of one job."""

from __future__ import annotations

import pytest
from study_cases import (
    CLEAN,
    CORE_BARRED,
    EMITTER,
    FAULTY,
    FOOT,
    INCH,
    NOTCH,
    demo,
    rules_of,
    rules_saying,
    study_of,
)
from ways_cases import VERGE, hole_already_there, lines_of, of, of_job

from permitkit.checks.judge import judge
from permitkit.load.rule_sheet import load_layers
from permitkit.study.in_force import rules_in_force
from permitkit.study.study import studied
from permitkit.study.ways import compare_ways, ways_in_words

NAMES = {CLEAN: "core", NOTCH: "notch", EMITTER: "emitter", VERGE: "notch"}


@pytest.mark.parametrize("name", NAMES)
def test_what_the_job_proposes_is_computed_as_it_stands(name: str) -> None:
    ways = of(name)
    (proposed,) = [way for way in ways.values() if way.proposed]
    water = study_of(name).water

    assert proposed.kind == NAMES[name]
    assert proposed.found is not None
    assert proposed.found.fall_m == pytest.approx(water.fall.available_m)
    assert proposed.found.spare_m == pytest.approx(water.fall.spare_m)
    assert proposed.job == demo(name)


@pytest.mark.parametrize("name", [CLEAN, NOTCH, EMITTER, CORE_BARRED, FAULTY])
def test_every_way_is_built_or_has_its_reason(name: str) -> None:
    for way in of(name).values():
        assert bool(way.reason) != bool(way.found or way.pit)
        assert way.applies != bool(way.reason)


@pytest.mark.parametrize("name", [CLEAN, NOTCH, EMITTER])
def test_every_way_is_a_job_that_is_computed_to_the_same_numbers(name: str) -> None:
    for way in of(name).values():
        if way.job is not None and way.found is not None:
            again = studied(way.job, load_layers(way.job.town))[0]
            assert way.job.outlet.kind == way.kind
            assert again.water.fall.available_m == pytest.approx(way.found.fall_m)
            assert again.water.total_m3s == pytest.approx(study_of(name).water.total_m3s)


def test_a_run_taken_to_an_emitter_ends_at_the_right_of_way_with_its_rim_at_the_ground() -> None:
    way = of(CLEAN)["emitter"]
    assert way.job is not None
    emitter = way.job.outlet.emitter
    assert emitter is not None

    assert float(emitter.to_row) == pytest.approx(0.0, abs=1e-9)
    assert float(emitter.rim) / FOOT == pytest.approx(100.22, abs=0.03)
    assert float(emitter.rise or 0) / INCH == pytest.approx(3.5 - 0.229)
    assert float(emitter.to_house) / FOOT == pytest.approx(42 - 11.5)
    (last,) = [r for r in way.job.drain.reach if r.lower == "outlet"]
    assert float(last.length) / FOOT == pytest.approx(41.5 - 11.5)


def test_a_run_carried_on_to_the_curb_is_as_much_longer_and_falls_farther() -> None:
    core, emitter = of(EMITTER)["core"], of(EMITTER)["emitter"]
    assert core.job is not None
    assert core.found is not None
    assert emitter.found is not None
    lengths = [float(job.drain.reach[-1].length) for job in (core.job, demo(EMITTER))]
    behind = float(demo(EMITTER).site.row_line_offset) + float(
        demo(EMITTER).outlet.emitter.to_row  # type: ignore[union-attr]
    )

    assert lengths[0] - lengths[1] == pytest.approx(behind)
    assert core.found.fall_m > emitter.found.fall_m
    assert core.found.rise_m == 0.0 < emitter.found.rise_m


def test_a_core_stands_as_low_as_every_rule_lets_it() -> None:
    core = of(CLEAN, ('kind = "core"', 'kind = "existing hole"'))["core"]
    assert core.job is not None
    study, _ = studied(core.job, load_layers("millrace"))
    assert study.curb is not None
    assert study.curb.hole is not None

    hole = study.curb.hole

    assert hole.bottom_m == pytest.approx(hole.window.low.height_m)
    assert hole.bit_m == pytest.approx(hole.fitting_bits_m[0])


def test_a_notch_is_as_wide_as_its_pipe_and_as_low_and_flat_as_the_town_lets_it() -> None:
    ways = of(NOTCH, ('kind = "notch"\nstation', 'kind = "culvert under walk"\nstation'))
    notch = ways["notch"]
    assert notch.job is not None

    assert float(notch.job.outlet.width or 0) / INCH == pytest.approx(5.0)
    assert float(notch.job.outlet.floor_toe or 0) == 0.0
    assert float(notch.job.outlet.floor_slope or 0) == pytest.approx(0.01)


def test_a_tube_is_the_smallest_that_carries_the_flow_and_begins_behind_the_walk() -> None:
    way = of(CLEAN)["culvert under walk"]
    assert way.water is not None
    tube = way.water.reaches[0]

    assert (tube.upper, tube.lower) == ("behind walk", "outlet")
    assert tube.pipe.key == "tube-5x2"
    assert tube.full_flow_m3s >= tube.flow_m3s
    assert (tube.station_high_m) / FOOT == pytest.approx(10.5)


def test_water_stands_in_the_line_behind_an_emitter_and_not_behind_a_curb() -> None:
    ways = of(CLEAN)
    assert ways["emitter"].found is not None
    assert ways["core"].found is not None

    assert ways["emitter"].found.standing_m3 > 0.0
    assert ways["emitter"].found.standing_m / INCH == pytest.approx(3.27, abs=0.01)
    assert ways["core"].found.standing_m3 == 0.0


def test_standing_water_at_a_curb_is_told_with_its_depth() -> None:
    found = of(FAULTY)["core"].found
    assert found is not None

    assert found.standing_m / INCH == pytest.approx(1.32, abs=0.01)
    assert found.overloaded


@pytest.mark.parametrize(
    ("name", "changes", "kind", "reason"),
    [
        (CLEAN, (), "notch", "a notch is sawn in a rolled curb; this one is vertical"),
        (CLEAN, (), "dry well", "no soak rate was tested in a bored hole"),
        (NOTCH, (), "core", "a core would break out of the rolled curb"),
        (EMITTER, (), "storm lateral", "the level of the storm main (140 ft away) is not known"),
        (VERGE, (), "core", "no pipe is laid that could lead it there"),
        (
            FAULTY,
            (),
            "culvert under walk",
            "no flat tube that is sold carries the flow at this fall",
        ),
        (
            EMITTER,
            (('shape = "vertical"', 'shape = "none"'),),
            "core",
            "there is no curb",
        ),
        (
            EMITTER,
            (('shape = "vertical"', 'shape = "none"'),),
            "culvert under walk",
            "there is no curb and walk to pass under",
        ),
        (
            CLEAN,
            (('front_offset = "42 ft"', 'front_offset = "11 ft 6 in"'),),
            "emitter",
            "no room for it between the right-of-way line and the house",
        ),
    ],
)
def test_a_way_that_cannot_be_built_says_why(
    name: str, changes: tuple[tuple[str, str], ...], kind: str, reason: str
) -> None:
    assert of(name, *changes)[kind].reason == reason


def test_a_pipe_too_wide_for_the_curb_says_so() -> None:
    line = 'length = "41 ft 6 in"\npipe = "3 in Sch 40 PVC"'
    wide = line.replace("3 in Sch 40", "6 in Sch 40")
    hole = 'pipe = "3 in Sch 40 PVC"\nbit'
    ways = of(CLEAN, (line, wide), (hole, hole.replace("3 in", "6 in")), hole_already_there())

    assert ways["core"].reason == (
        "no hole that takes 6 in Sch 40 PVC fits a 6 in curb and the town's rules"
    )


def test_a_round_pipe_over_the_back_of_a_rolled_curb_says_so() -> None:
    tube = 'length = "9 ft"\npipe = "5 x 2 x 3/16 in steel tube"'
    ways = of(
        NOTCH,
        (tube, 'length = "9 ft"\npipe = "4 in Sch 40 PVC"'),
        ('kind = "notch"\nstation', 'kind = "culvert under walk"\nstation'),
    )

    assert ways["notch"].reason == "4 in Sch 40 PVC stands over the back of a 4 in curb"


def test_water_that_enters_nearer_to_the_street_bars_a_way_short_of_it() -> None:
    near = ('lower = "outlet"\nlength = "41 ft 6 in"', 'lower = "outlet"\nlength = "9 ft"')

    assert of(CLEAN, near)["emitter"].reason.endswith("enters nearer to the street than that")


def test_a_way_that_cannot_be_computed_says_where() -> None:
    job = demo(CLEAN)
    nodes = tuple(
        node.model_copy(update={"name": "behind walk"}) if node.name == "N1" else node
        for node in job.drain.node
    )
    reaches = tuple(
        reach.model_copy(
            update={end: "behind walk" for end in ("upper", "lower") if getattr(reach, end) == "N1"}
        )
        for reach in job.drain.reach
    )
    inflows = tuple(
        inflow.model_copy(update={"node": "behind walk"}) if inflow.node == "N1" else inflow
        for inflow in job.drain.inflow
    )
    parts = {"node": nodes, "reach": reaches, "inflow": inflows}
    named = job.model_copy(update={"drain": job.drain.model_copy(update=parts)})

    assert of_job(named)["culvert under walk"].reason.startswith("drain.node: the name")


class TestEmitterDistances:
    """The distances that the town wants an emitter kept at."""

    def test_it_stands_back_from_line_and_walk_as_the_town_wants(self) -> None:
        ways = of(CORE_BARRED)
        emitter = ways["emitter"].job.outlet.emitter  # type: ignore[union-attr]
        rules = rules_of(CORE_BARRED)
        least = rules["emitter.to_row"].limit.at_least if rules["emitter.to_row"].known else None

        assert emitter is not None
        assert float(emitter.to_row) >= float(least or 0) - 1e-9  # type: ignore[arg-type]

    def test_it_stands_near_enough_to_the_house_where_there_is_a_greatest(self) -> None:
        job = demo(CLEAN)
        rules = rules_saying('emitter.to_house = { at_most = "20 ft", cite = "pw 1" }')
        (way,) = [way for way in compare_ways(job, rules) if way.kind == "emitter"]
        emitter = way.job.outlet.emitter  # type: ignore[union-attr]

        assert emitter is not None
        assert float(emitter.to_house) / FOOT == pytest.approx(20.0)

    def test_without_a_house_it_stands_at_the_line(self) -> None:
        job = demo(CLEAN)
        bare = job.model_copy(update={"site": job.site.model_copy(update={"house": None})})
        emitter = of_job(bare)["emitter"].job.outlet.emitter  # type: ignore[union-attr]

        assert emitter is not None
        assert float(emitter.to_house) / FOOT == pytest.approx(66.5 - 11.5)


class TestDryWell:
    """A pit on the lot."""

    def test_it_is_told_by_the_floor_that_keeps_pace_and_one_storm(self) -> None:
        pit = of(EMITTER)["dry well"].pit
        water = study_of(EMITTER).water
        assert pit is not None

        assert pit.floor_m2 / FOOT**2 == pytest.approx(540 * 3.6 / 0.3)
        assert pit.storm_m3 == pytest.approx(water.total_m3s * 600)

    def test_a_soak_rate_without_its_unit_is_no_rate(self) -> None:
        rate = next(line for line in lines_of(EMITTER) if line.startswith("soil_soak_rate"))
        ways = of(EMITTER, (rate, 'soil_soak_rate = "slow"'))

        assert ways["dry well"].reason.startswith("no soak rate")

    def test_a_storm_of_no_told_duration_has_no_volume(self) -> None:
        job = demo(EMITTER)
        silent = tuple(sheet for sheet in load_layers(job.town) if sheet.kind != "town")
        rules = rules_in_force(silent, job)
        (pit,) = [way for way in compare_ways(job, rules) if way.kind == "dry well"]

        assert pit.pit is not None
        assert pit.pit.storm_m3 is None
        row = next(row for row in ways_in_words(job, (pit,)))
        assert row[4] == "-"

    def test_a_dry_well_that_is_proposed_is_computed_as_a_run(self) -> None:
        ways = of(EMITTER, *_as_dry_well())

        assert ways["dry well"].proposed
        assert ways["dry well"].found is not None
        assert ways["dry well"].goes == "into the dry well"


def _as_dry_well() -> tuple[tuple[str, str], ...]:
    return (('kind = "emitter"\nstation', 'kind = "dry well"\nstation'),)


def test_comparing_changes_nothing_of_the_job_and_its_verdicts() -> None:
    job, layers = demo(CLEAN), load_layers("millrace")
    before = judge(job, layers)

    compare_ways(job, before.rules)

    assert judge(job, layers).verdicts == before.verdicts
