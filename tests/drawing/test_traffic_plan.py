from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

import pytest
from sheet_marks import INFO, demo, dimensions_of, faults_of, length, restudied, text_of, with_table

from permitkit.drawing.frame import drawing_room
from permitkit.drawing.scale import LETTER
from permitkit.drawing.shapes import Circle, Fill, Hatch, Role
from permitkit.drawing.sheet import flatten
from permitkit.drawing.traffic_plan import traffic_plan
from permitkit.drawing.traffic_plan.closure import closure, signs_ahead
from permitkit.drawing.traffic_plan.on_foot import closed_stations_m
from permitkit.drawing.traffic_plan.scene import scene_of
from permitkit.errors import InputError
from permitkit.model.work import WayRound

if TYPE_CHECKING:
    from permitkit.drawing.traffic_plan.scene import Scene
    from permitkit.model.job import Job

ROOM = drawing_room(LETTER.landscape)
FOOT_M = 0.3048
CLOSED = (
    "harrow-heights-core",
    "millrace-clean",
    "millrace-cured",
    "millrace-faulty",
    "sorrel-flats-notch",
    "sorrel-flats-verge",
)
TICK_LIST = {
    "street, width, lanes, parking, speed": "Tern Lane, local, 36 ft wide, 2 lanes, parking both",
    "speed": "25 mph",
    "hours and days": "Apr 27, 2026 to Apr 30, 2026; 08:00 to 16:30",
    "work space": "work space",
    "lane left": "lane left open 10 ft",
    "what is taken": "parking lane, 8 ft wide",
    "buffer": "buffer 155 ft",
    "taper length": "taper 28 ft",
    "taper asked for": "least 27 ft 9 1/2 in",
    "device spacing": "devices at most 25 ft apart",
    "sign with its distance": "\N{LEFT DOUBLE QUOTATION MARK}ROAD WORK AHEAD",
    "how far ahead": "100 ft before the taper",
    "walk closed from and to": "from station 9 ft 6 in to 14 ft 6 in",
    "days it is closed": "closed 3 days",
    "way round with its width": "way round 5 ft clear",
    "edge a cane can follow": "edges a cane can follow",
    "ramps": "temporary ramps",
    "signs before the choice point": "before the place where people choose",
    "where it goes": "in the parking lane, between two rows of edged barricades",
    "drives": "drive, 9 ft 2 in right of the outlet, kept open",
    "neighbors": "neighbors told",
    "bus stop": "no bus stop in the zone",
    "bins": "bins go out Friday",
    "corner sight": "Heron Street, 180 ft to the right; keep its corner sight free",
    "overnight": "panel barricaded and lit",
    "layout and who sets it": "layout TA-28; set by the crew's foreman",
    "whom to call at any hour": "(555) 555-0199",
    "whose lengths": "MUTCD, 11th ed.",
    "who decides": "local code and licensed practice decide",
    "scale": "NOT TO SCALE",
}


@cache
def ticked() -> str:
    return text_of(traffic_plan(*demo("millrace-clean"), INFO))


@pytest.mark.parametrize(("item", "words"), TICK_LIST.items())
def test_the_tick_list_of_people_and_traffic_is_on_the_sheet(item: str, words: str) -> None:
    assert words in ticked(), item


@pytest.mark.parametrize("name", CLOSED)
def test_a_demo_plan_takes_one_sheet_and_has_no_text_on_another(name: str) -> None:
    sheets = traffic_plan(*demo(name), INFO)

    assert len(sheets) == 1
    assert sheets[0].scale_text == "not to scale"
    assert faults_of(sheets) == []


def test_lengths_that_are_not_to_scale_are_not_drawn_as_dimensions() -> None:
    (sheet,) = traffic_plan(*demo("millrace-clean"), INFO)

    assert dimensions_of(sheet) == ()


def test_where_nothing_is_closed_there_is_no_sheet() -> None:
    assert traffic_plan(*demo("harrow-heights-emitter"), INFO) == ()


def _closing(job: Job, **fields: object) -> Job:
    return with_table(job, "traffic", **fields)


def _scene(job: Job) -> Scene:
    return scene_of(job, restudied(job), ROOM)


def test_a_walk_closed_by_itself_leaves_the_street_alone() -> None:
    job, _ = demo("millrace-clean")
    alone = _closing(job, lane_taken="none")
    study = restudied(alone)
    words = text_of(traffic_plan(alone, study, INFO))

    assert "nothing; no lane or parking is closed" in words
    assert "taper" not in words
    assert scene_of(alone, study, ROOM).taken == ()


def test_a_lane_closed_by_itself_leaves_the_walk_open() -> None:
    job, _ = demo("millrace-clean")
    lane = _closing(job, walk_closed=False, way_round=None, lane_taken="travel lane")
    sheets = traffic_plan(lane, restudied(lane), INFO)
    words = text_of(sheets)

    assert "stays open" in words
    assert "SIDEWALK CLOSED" not in words
    assert "ONE LANE ROAD AHEAD" in words
    assert faults_of(sheets) == []


@pytest.mark.parametrize("closed", [True, False])
def test_the_work_space_covers_the_walk_only_where_that_is_closed(closed: bool) -> None:  # noqa: FBT001 -- a value of the table
    job, _ = demo("sorrel-flats-verge")
    changed = _closing(job, walk_closed=closed)
    scene = _scene(changed)
    shapes = closure(scene).shapes

    (hatch,) = [shape for shape in shapes if isinstance(shape, Hatch)]
    walk = scene.strips["walk"]
    assert max(y for _, y in hatch.region) == (walk.top if closed else walk.bottom)


def test_strips_are_drawn_wider_on_larger_paper() -> None:
    job, study = demo("millrace-clean")
    small, large = (scene_of(job, study, ROOM._replace(top=top)) for top in (190.0, 300.0))

    assert large.strips["walk"].height > small.strips["walk"].height


@pytest.mark.parametrize(
    ("where", "strip"),
    [
        ("in the parking lane between barricades", "parking"),
        ("on the other side of the street, by the corner", "far walk"),
        ("over the lawn behind the walk", "lot"),
        ("through the verge on plates", "verge"),
        ("as the engineer says", "parking"),
    ],
)
def test_the_way_round_is_drawn_where_its_words_say(where: str, strip: str) -> None:
    job, _ = demo("millrace-clean")
    way = WayRound(where=where, width=length("4 ft"), detectable=False, signs_ahead=False)
    other = _closing(job, way_round=way)
    sheets = traffic_plan(other, restudied(other), INFO)

    found = _scene(other).way

    assert found is not None
    assert found.strip == strip
    assert "way round 4 ft clear, edges not detectable" in text_of(sheets)
    assert faults_of(sheets) == []


def test_a_closed_walk_without_a_way_round_says_so() -> None:
    job, _ = demo("millrace-clean")
    none = _closing(job, way_round=None)

    words = text_of(traffic_plan(none, restudied(none), INFO))

    assert "no way round is proposed" in words
    assert "none proposed" in words


def test_the_walk_is_closed_from_the_first_panel_taken_out_to_the_last() -> None:
    low, high = closed_stations_m(scene_of(*demo("millrace-clean"), ROOM)) or (0.0, 0.0)

    assert (low / FOOT_M, high / FOOT_M) == pytest.approx((9.5, 14.5))


def test_the_taper_runs_from_the_curb_to_the_edge_of_what_is_taken() -> None:
    scene = scene_of(*demo("millrace-clean"), ROOM)

    devices = [
        mark
        for mark in flatten(closure(scene).shapes)
        if isinstance(mark, Circle) and mark.fill is Fill.SOLID and mark.role is Role.PROPOSED
    ]

    taper = [mark.centre for mark in devices if mark.centre[0] >= scene.taper[0] - 1e-6]
    assert len(taper) > 3
    assert min(y for _, y in taper) == pytest.approx(scene.taken[-1].bottom)
    rises = [y for _, y in sorted(set(taper))]
    assert rises == sorted(rises)


def test_cars_beside_the_lot_drive_to_the_left_so_the_taper_lies_on_the_right() -> None:
    scene = scene_of(*demo("millrace-clean"), ROOM)

    assert scene.work[1] < scene.taper[0]


@pytest.mark.parametrize(
    ("lanes", "taken", "signs"),
    [
        (2, "parking lane", ["ROAD WORK AHEAD"]),
        (2, "none", []),
        (2, "travel lane", ["FLAGGER AHEAD (symbol)", "ONE LANE ROAD AHEAD", "ROAD WORK AHEAD"]),
        (4, "travel lane", ["lane ends (symbol)", "RIGHT LANE CLOSED AHEAD", "ROAD WORK AHEAD"]),
    ],
)
def test_signs_ahead_follow_what_is_taken(lanes: int, taken: str, signs: list[str]) -> None:
    job, _ = demo("millrace-clean")
    street = job.street.model_copy(update={"lanes": lanes, "width": length("60 ft")})
    other = _closing(job.model_copy(update={"street": street}), lane_taken=taken)

    assert [sign.text for sign in signs_ahead(_scene(other))] == signs


def test_particulars_that_are_too_long_go_to_a_sheet_of_their_own() -> None:
    job, study = demo("millrace-clean")
    long = "The panel is barricaded, lit and looked at every two hours. " * 25
    wordy = _closing(job, overnight=long)

    sheets = traffic_plan(wordy, study, INFO)

    assert len(sheets) > 1
    assert [sheet.number for sheet in sheets] == [f"{3 + n} of 10" for n in range(len(sheets))]
    assert faults_of(sheets) == []


def test_letters_that_cannot_be_drawn_are_named() -> None:
    job, study = demo("millrace-clean")
    named = _closing(job, set_by="\N{CJK UNIFIED IDEOGRAPH-6C34}")

    with pytest.raises(InputError, match="U\\+6C34"):
        traffic_plan(named, study, INFO)


def test_a_taper_that_is_not_given_is_drawn_with_the_least_asked_for() -> None:
    job, _ = demo("millrace-clean")
    open_ended = _closing(job, taper=None)

    words = text_of(traffic_plan(open_ended, restudied(open_ended), INFO))

    assert "taper, least 27 ft 9 1/2 in" in words
