from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from demo_jobs import Change, changed, faults_of, told

if TYPE_CHECKING:
    from pathlib import Path

CORE = "millrace-clean"
NOTCH = "sorrel-flats-notch"
EMITTER = "harrow-heights-emitter"

CASES: tuple[tuple[str, tuple[Change, ...], str], ...] = (
    (
        "harrow-heights-core",
        (
            (
                "[[drain.reach]]",
                '[[drain.node]]\nname = "N1"\nground = "1 ft"\ninvert = "0 ft"\n\n[[drain.reach]]',
            ),
        ),
        "drain.node[2].name | 'N1' | a name no other node has | ",
    ),
    (
        CORE,
        (('ground = "101.00 ft"', 'ground = "99.00 ft"'),),
        "drain.node[1].ground | '99.00 ft' | ground no lower than the invert, 100.26 ft | ",
    ),
    (
        CORE,
        (("[[level.setup]]", '[counts]\nlength_of_pavement = "4 ft"\n\n[[level.setup]]'),),
        (
            "counts.length_of_pavement | '4 ft' | nothing, since no pavement is cut | "
            "add pavement_cut to the cut"
        ),
    ),
    (
        CORE,
        (('upper = "N2"', 'upper = "N3"'),),
        "drain.reach[1].upper | 'N3' | a node: N2, N1 | ",
    ),
    (
        CORE,
        (('lower = "N1"', 'lower = "outlt"'),),
        "drain.reach[1].lower | 'outlt' | a node: N2, N1, outlet | did you mean outlet?",
    ),
    (
        CORE,
        (('lower = "N1"', 'lower = "N2"'),),
        "drain.reach[1] | from N2 to itself | two nodes | ",
    ),
    (
        CORE,
        (('upper = "N2"\nlower = "N1"', 'upper = "N1"\nlower = "N2"'),),
        "drain.reach[2].upper | 'N1' once more | one reach away from each node | ",
    ),
    (
        CORE,
        (('length = "25 ft"', 'length = "0 ft"'),),
        "drain.reach[1].length | '0 ft' | more than nothing | ",
    ),
    (
        CORE,
        (('node = "N2"', 'node = "patio"'),),
        "drain.inflow[1].node | 'patio' | a node: N2, N1 | ",
    ),
    (
        CORE,
        (('area = "380 sq ft"\n', ""),),
        "drain.inflow[1].area | nothing | the area that drains here, or a pump | ",
    ),
    (
        "millrace-faulty",
        (
            (
                (
                    '[drain.inflow.pump]\nrate = "30 gpm"\nlift = "9 ft"\n'
                    'air_gap = "no"                      # hard-piped into the line\n'
                    'check_valve = "yes"\n'
                ),
                'area = "10 sq ft"\n',
            ),
        ),
        (
            "drain.inflow[3].pump | nothing | the pump's rate, which is never assumed | "
            'add pump = { rate = "…", lift = "…" }, timed in the pit'
        ),
    ),
    (
        EMITTER,
        (('name = "outlet"', 'name = "E"'),),
        (
            "drain.node | no node 'outlet' | the level where the emitter lies | "
            'add [[drain.node]] with name = "outlet", its ground and invert'
        ),
    ),
    (
        CORE,
        (('bit = "4 in"\n', ""),),
        "outlet.bit | nothing | what every core has | add bit",
    ),
    (
        CORE,
        (('hole_bottom = "3/8 in"', 'hole_bottom = "3/8 in"\ninvert = "0.854 in"'),),
        "outlet | hole_bottom and invert | exactly one of hole_bottom, invert, centre_below_top | ",
    ),
    (
        CORE,
        (('hole_bottom = "3/8 in"', ""),),
        "outlet | no height | exactly one of hole_bottom, invert, centre_below_top | ",
    ),
    (
        CORE,
        (('bit = "4 in"', 'bit = "7 in"'),),
        "outlet.bit | '7 in' | a hole within the curb's reveal of 6 in | measure the reveal again",
    ),
    (
        CORE,
        (('bit = "4 in"', 'bit = "0 in"'),),
        "outlet.bit | '0 in' | more than nothing | ",
    ),
    (
        NOTCH,
        (('\nwidth = "5 in"', '\nwidth = "0 in"'),),
        "outlet.width | '0 in' | more than nothing | ",
    ),
    (
        NOTCH,
        (('floor_slope = "2 %"\n', ""),),
        "outlet.floor_slope | nothing | what every notch has | add floor_slope",
    ),
    (
        NOTCH,
        (('floor_toe = "1/2 in"', 'floor_toe = "4 1/2 in"'),),
        (
            "outlet.floor_toe | '4 1/2 in' | a notch floor within the curb's reveal of 4 in | "
            "measure the reveal again"
        ),
    ),
    (
        NOTCH,
        (('roll_width = "12 in"\n', ""),),
        (
            "curb.roll_width | nothing | the width of the roll, from flow line to back | "
            "add roll_width"
        ),
    ),
    (
        CORE,
        (('reveal = ["6 in", "6 in", "6 1/8 in"]', "reveal = []"),),
        "curb.reveal | an empty list | one to three readings | ",
    ),
    (
        NOTCH,
        (('top_width = "12 in"', 'top_width = "0 in"'),),
        "curb.top_width | '0 in' | more than nothing | ",
    ),
    (
        CORE,
        (('panel_length = "5 ft"', 'panel_length = "0 ft"'),),
        "walk.panel_length | '0 ft' | more than nothing | ",
    ),
    (
        CORE,
        (('speed = "25 mph"', 'speed = "0 mph"'),),
        "street.speed | '0 mph' | more than nothing | ",
    ),
    (
        CORE,
        (('\nleft_of_run = "30 in"', '\nleft_of_run = "6 ft"'),),
        "cut.left_of_run | '6 ft' | no more than the width of the cut, 5 ft | ",
    ),
    (
        CORE,
        (('far = "37 ft 2 in"', 'far = "20 ft"'),),
        "feature[1].far | '20 ft' | a station no less than near, 21 ft 2 in | ",
    ),
    (
        CORE,
        (('right = "51 ft 6 in"', 'right = "10 ft"'),),
        "site.house.right | '10 ft' | a station beyond left, 13 ft 6 in | ",
    ),
    (
        CORE,
        (("finish = 2026-04-30", "finish = 2026-04-24"),),
        "dates.finish | 2026-04-24 | a day no earlier than the start, 2026-04-27 | ",
    ),
    (
        CORE,
        (('hours_from = "08:00"', 'hours_from = "8 am"'),),
        "traffic.hours_from | '8 am' | a time of day, such as \"08:00\" | ",
    ),
    (
        CORE,
        (('hours_to = "16:30"', 'hours_to = "24:30"'),),
        "traffic.hours_to | '24:30' | a time of day, such as \"08:00\" | ",
    ),
    (
        CORE,
        (('hours_to = "16:30"', 'hours_to = "07:30"'),),
        "traffic.hours_to | '07:30' | a time after 08:00 | ",
    ),
    (
        CORE,
        (('hours_to = "16:30"', 'hours_to = "16:30"\npause = "noon"'),),
        "traffic.pause | 'noon' | hours within those of work, such as \"11:00-13:00\" | ",
    ),
    (
        CORE,
        (('hours_to = "16:30"', 'hours_to = "16:30"\npause = "16:00-17:00"'),),
        "traffic.pause | '16:00-17:00' | hours within those of work, such as \"11:00-13:00\" | ",
    ),
    (
        CORE,
        (("called = 2026-04-21", 'called = 2026-04-21\ncalled_at = "4 pm"'),),
        "locate.called_at | '4 pm' | a time of day, such as \"15:40\" | ",
    ),
    (
        CORE,
        (('crossing = "cut"', 'crossing = "none"\ntrench_runs = "across the walk"'),),
        (
            "cut.trench_runs | 'across the walk' | a way the walk is crossed, or a trench along "
            "it | set crossing"
        ),
    ),
    (
        CORE,
        (("start = 2026-04-27", "start = 2026-04-27\nemergency = 2026-04-28"),),
        "dates.emergency | 2026-04-28 | a day no later than the start, 2026-04-27 | ",
    ),
    (
        CORE,
        (('name = "Tern Lane"', 'name = "Tern Lane"\nbetween = ["Weir Street"]'),),
        "street.between | 'Weir Street' | the cross streets at both ends of the block | ",
    ),
    (
        NOTCH,
        (('key = "water.allowed"', 'key = "water.alowed"'),),
        (
            "answer[1].key | 'water.alowed' | a rule key or a fact: … | "
            "did you mean water.allowed or outlet.allowed?"
        ),
    ),
    (
        NOTCH,
        (('stance = "allowed"', 'stance = "fine"'),),
        "answer[1].value.stance | 'fine' | one of allowed, required, barred, exempt | ",
    ),
)


@pytest.mark.parametrize(("name", "changes", "expected"), CASES)
def test_parts_that_disagree_are_told(
    name: str, changes: tuple[Change, ...], expected: str, tmp_path: Path
) -> None:
    path = changed(tmp_path, name, *changes)

    (fault,) = faults_of(path)

    place = fault.where.removeprefix(f"{path}: ")
    wanted = fault.expected if ", …" not in fault.expected else "a rule key or a fact: …"
    assert f"{place} | {fault.found} | {wanted} | {fault.fix}" == expected


def test_a_hole_larger_than_the_reveal_is_told_in_full(tmp_path: Path) -> None:
    path = changed(tmp_path, CORE, ('bit = "4 in"', 'bit = "7 in"'))

    assert told(path) == (
        "error: job.toml: outlet.bit\n"
        "  found     '7 in'\n"
        "  expected  a hole within the curb's reveal of 6 in\n"
        "  fix       measure the reveal again"
    )


def test_a_hole_as_large_as_the_reveal_is_left_to_the_checks(tmp_path: Path) -> None:
    path = changed(tmp_path, CORE, ('bit = "4 in"', 'bit = "6 in"'))

    assert faults_of(path) == ()


def test_an_outlet_above_the_house_is_left_to_the_checks(tmp_path: Path) -> None:
    path = changed(tmp_path, CORE, ('"rod 4.20 ft"', '"99.00 ft"'), ('"rod 3.94 ft"', '"99.10 ft"'))

    assert faults_of(path) == ()


def test_a_core_has_its_height_from_the_outlet_alone(tmp_path: Path) -> None:
    node = '[[drain.node]]\nname = "outlet"\nground = "100 ft"\ninvert = "99.57 ft"\n\n'
    run = "# ---- the run, from the house "
    path = changed(tmp_path, "millrace-faulty", (run, f"{node}{run}"))

    assert told(path) == (
        "error: job.toml: drain.node[1]\n"
        "  found     a node 'outlet'\n"
        "  expected  the nodes above the core, whose height [outlet] states\n"
        "  fix       take this node out"
    )


def test_a_job_without_a_run_is_told(tmp_path: Path) -> None:
    path = changed(tmp_path, CORE)
    text = path.read_text()
    start, end = text.index("[[drain.node]]"), text.index("# Ground along the run")
    path.write_text(f"{text[:start]}[drain]\n\n{text[end:]}")

    found = [fault.where.removeprefix(f"{path}: ") for fault in faults_of(path)]

    assert found == ["drain.node", "drain.reach"]


def test_a_job_without_a_drain_is_told_once(tmp_path: Path) -> None:
    path = changed(tmp_path, CORE)
    text = path.read_text()
    start, end = text.index("[[drain.node]]"), text.index("# Ground along the run")
    path.write_text(f"{text[:start]}{text[end:]}")

    found = [fault.where.removeprefix(f"{path}: ") for fault in faults_of(path)]

    assert found == ["drain"]


def test_a_single_node_needs_no_list(tmp_path: Path) -> None:
    path = changed(
        tmp_path,
        "harrow-heights-core",
        ("[[drain.node]]", "[drain.node]"),
        ("[[drain.reach]]", "[drain.reach]"),
        ("[[drain.inflow]]", "[drain.inflow]"),
        ('node = "N1"', 'node = "N2"'),
    )

    assert told(path).splitlines()[:2] == [
        "error: job.toml: drain.inflow[1].node",
        "  found     'N2'",
    ]


def test_a_street_without_a_curb_needs_no_reveal(tmp_path: Path) -> None:
    path = changed(
        tmp_path,
        EMITTER,
        ('shape = "vertical"', 'shape = "none"'),
        ('reveal = "6 in"', "reveal = []"),
    )

    assert faults_of(path) == ()


def test_hours_need_not_be_said(tmp_path: Path) -> None:
    path = changed(tmp_path, EMITTER, ('hours_from = "08:00"\n', ""))

    assert faults_of(path) == ()


def test_a_lot_without_a_house_outline_is_fine(tmp_path: Path) -> None:
    path = changed(tmp_path, EMITTER)
    text = path.read_text()
    start, end = text.index("[site.house]"), text.index("[level]")
    path.write_text(f"{text[:start]}{text[end:]}")

    assert faults_of(path) == ()


def test_tables_of_the_wrong_kind_are_told_by_their_fields_alone(tmp_path: Path) -> None:
    path = changed(tmp_path, CORE)
    text = path.read_text()
    start, end = text.index("[street]"), text.index("[[feature]]")
    path.write_text(f"street = 3\nwalk = 3\n{text[:start]}{text[end:]}".replace("[walk]", "[wall]"))

    found = {fault.where.removeprefix(f"{path}: ") for fault in faults_of(path)}

    assert found == {"street", "walk", "wall"}
