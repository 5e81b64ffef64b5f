"""A job that cannot be computed is told where, what was found and what was expected."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from study_cases import CLEAN, CURED, EMITTER, NOTCH, demo

from permitkit.errors import Fault, InputError
from permitkit.study.in_force import rules_in_force
from permitkit.study.study import study_job
from permitkit.units import Kind, measure

if TYPE_CHECKING:
    from collections.abc import Mapping

    from permitkit.model.job import Job


def with_drain(name: str, **tables: object) -> Job:
    job = demo(name)
    return job.model_copy(update={"drain": job.drain.model_copy(update=tables)})


def with_reach(number: int, **fields: object) -> Job:
    reaches = list(demo(CLEAN).drain.reach)
    reaches[number] = reaches[number].model_copy(update=fields)
    return with_drain(CLEAN, reach=tuple(reaches))


def with_table(name: str, table: str, fields: Mapping[str, object]) -> Job:
    job = demo(name)
    return job.model_copy(update={table: getattr(job, table).model_copy(update=fields)})


def faults_of(job: Job) -> tuple[Fault, ...]:
    with pytest.raises(InputError) as told:
        study_job(job, rules_in_force((), job))
    return told.value.faults


@pytest.mark.parametrize(
    ("reach", "fields", "found"),
    [
        (0, {"lower": "N2"}, "water goes round: N2 to N2"),
        (1, {"upper": "N2", "lower": "N1"}, "two unlike pipes from N2 to N1"),
        (0, {"upper": "N1", "lower": "N2"}, "node 'N1' has two ways down"),
        (1, {"upper": "outlet", "lower": "N1"}, "reach 'outlet to N1' leads away"),
    ],
)
def test_a_run_that_is_no_tree_is_told(reach: int, fields: dict[str, str], found: str) -> None:
    faults = faults_of(with_reach(reach, **fields))

    assert any(fault.found.startswith(found) for fault in faults)
    assert all(fault.where.startswith("drain.reach") for fault in faults)


def test_an_unknown_end_of_a_reach_is_named() -> None:
    (fault,) = faults_of(with_reach(0, lower="N9"))

    assert (fault.where, fault.found) == ("drain.reach", "'N9'")


def test_an_unknown_pipe_is_named_with_what_comes_near() -> None:
    (fault,) = faults_of(with_reach(0, pipe="3 in Sch 41"))

    assert (fault.where, fault.found) == ("drain.reach.pipe", "'3 in Sch 41'")
    assert fault.fix.startswith("such as ")


def test_an_inflow_at_no_node_is_named() -> None:
    inflow = demo(CLEAN).drain.inflow[0].model_copy(update={"node": "N9"})
    (fault,) = faults_of(with_drain(CLEAN, inflow=(inflow,)))

    assert (fault.where, fault.found) == ("drain.inflow.node", "'N9'")


@pytest.mark.parametrize("pipe", [None, "3 in Sch 40 PVC"])
def test_a_run_without_any_reach_has_no_way_to_the_outlet(pipe: str | None) -> None:
    job = with_drain(CLEAN, reach=(), node=(), inflow=())
    job = job.model_copy(update={"outlet": job.outlet.model_copy(update={"pipe": pipe})})
    (fault,) = faults_of(job)

    assert (fault.where, fault.found) == ("drain.reach", "no way to the outlet")


def test_a_run_that_ends_short_of_the_outlet_has_no_way_to_it() -> None:
    job = with_drain(CLEAN, reach=demo(CLEAN).drain.reach[:1])
    job = job.model_copy(update={"outlet": job.outlet.model_copy(update={"pipe": None})})
    (fault,) = faults_of(job)

    assert (fault.where, fault.found) == ("drain.reach", "no way to the outlet")


def test_a_node_that_no_reach_leaves_is_told() -> None:
    (fault,) = faults_of(with_drain(CLEAN, reach=demo(CLEAN).drain.reach[1:]))

    assert fault.found == "node 'N2' has no way to the outlet 'outlet'"


def test_an_emitter_without_its_node_is_told_how_to_give_it() -> None:
    nodes = tuple(node for node in demo(EMITTER).drain.node if node.name != "outlet")
    (fault,) = faults_of(with_drain(EMITTER, node=nodes))

    assert fault.found == "'outlet'"
    assert fault.fix == "give the outlet's ground and invert as a node named outlet"


@pytest.mark.parametrize(
    ("name", "fields", "where"),
    [
        (CLEAN, {"bit": None}, "outlet.bit"),
        (CLEAN, {"hole_bottom": None}, "outlet.hole_bottom"),
        (NOTCH, {"width": None}, "outlet.width"),
    ],
)
def test_a_missing_size_of_the_outlet_is_told(
    name: str, fields: dict[str, object], where: str
) -> None:
    (fault,) = faults_of(with_table(name, "outlet", fields))

    assert (fault.where, fault.found) == (where, "nothing")
    assert fault.fix.startswith("give ")


@pytest.mark.parametrize(
    ("table", "field", "kind", "unit"),
    [
        ("street", "speed", Kind.SPEED, "mph"),
        ("walk", "panel_length", Kind.LENGTH, "ft"),
        ("curb", "top_width", Kind.LENGTH, "in"),
    ],
)
def test_a_length_or_speed_of_nothing_is_told(
    table: str, field: str, kind: Kind, unit: str
) -> None:
    job = with_table(CURED, table, {field: measure(0, unit, kind)})
    (fault,) = faults_of(job)

    assert fault == Fault(f"{table}.{field}", f"0 {unit}", "more than nothing")
