"""Rain, roofs, leaders, losses and the table of pipe."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from fluids.fittings import contraction_sharp
from hypothesis import given
from hypothesis import strategies as st

from permitkit.hydraulics.bounds import OutOfRange
from permitkit.hydraulics.losses import (
    bend_loss,
    contraction_k,
    junction_rise,
)
from permitkit.hydraulics.rain import (
    IntensityTable,
    catchment_area,
    leader_flow,
    pump_roof_equivalent,
    roof_flow,
    round_of_same_area,
)

if TYPE_CHECKING:
    from collections.abc import Callable

TABLE = IntensityTable((10.0, 25.0), (300.0, 900.0, 3600.0), ((6.0, 8.0), (4.0, 5.0), (1.0, 2.0)))


@given(st.floats(0.0, 1e4), st.floats(1e-7, 1e-4))
def test_a_pump_stands_for_the_roof_that_sends_as_much(area: float, rain: float) -> None:
    assert pump_roof_equivalent(roof_flow(area, rain), rain) == pytest.approx(area)


def test_half_of_a_wall_counts_as_roof() -> None:
    assert catchment_area(100.0) == 100.0
    assert catchment_area(100.0, 30.0) == 115.0


@given(st.floats(0.03, 0.3), st.floats(1.01, 2.0))
def test_a_wider_leader_takes_more(bore: float, wider: float) -> None:
    assert leader_flow(bore * wider) > leader_flow(bore)


def test_a_rectangular_leader_counts_by_its_area() -> None:
    assert round_of_same_area(0.05, 0.08) ** 2 * 3.141592653589793 / 4 == pytest.approx(0.004)


def test_a_tabled_duration_gives_the_tabled_rain() -> None:
    assert TABLE.intensity_ms(25.0, 900.0) == pytest.approx(5.0)
    assert TABLE.intensity_ms(10.0, 300.0) == pytest.approx(6.0)
    assert TABLE.intensity_ms(10.0, 3600.0) == pytest.approx(1.0)


@given(st.floats(300.0, 3600.0), st.floats(1.0, 2.0))
def test_a_longer_rain_is_lighter(duration: float, longer: float) -> None:
    later = min(duration * longer, 3600.0)

    assert TABLE.intensity_ms(25.0, later) <= TABLE.intensity_ms(25.0, duration) * (1 + 1e-12)


def test_between_two_durations_the_line_is_straight_on_logarithms() -> None:
    middle = (300.0 * 900.0) ** 0.5

    assert TABLE.intensity_ms(10.0, middle) == pytest.approx((6.0 * 4.0) ** 0.5)


def test_a_single_duration_serves_itself() -> None:
    assert IntensityTable((10.0,), (300.0,), ((6.0,),)).intensity_ms(10.0, 300.0) == 6.0


def test_a_smooth_reducer_takes_less_than_is_counted() -> None:
    ours = contraction_k(0.0889**2, 0.1**2)

    assert ours == pytest.approx(contraction_sharp(0.1, 0.0889, method="Crane"))
    assert ours < 0.12


def test_no_change_of_size_takes_nothing() -> None:
    assert contraction_k(1.0, 1.0) == 0.0


def test_a_straight_junction_without_inflow_raises_nothing() -> None:
    assert junction_rise(0.002, 0.004, [(0.002, 0.5, 0.0)], 0.004) == 0.0


def test_an_inflow_from_the_side_raises_more_than_one_at_an_angle() -> None:
    main = (0.001, 0.25, 0.0)

    square, slanted = (
        junction_rise(0.002, 0.004, [main, (0.001, 0.25, angle)], 0.004) for angle in (90.0, 45.0)
    )

    assert square == pytest.approx(junction_rise(0.002, 0.004, [main], 0.004))
    assert 0.0 < slanted < square


def test_the_junction_rise_is_the_books_loss_less_the_velocity_heads() -> None:
    out_flow, area, in_flow, g = 0.002, 0.004, 0.0015, 9.80665
    out_speed, in_speed = out_flow / area, in_flow / area
    heads = (in_speed**2 - out_speed**2) / (2 * g)
    loss = (out_flow * out_speed - in_flow * in_speed) / (0.5 * g * 2 * area) + heads

    rise = junction_rise(out_flow, area, [(in_flow, in_speed, 0.0)], area)

    assert rise == pytest.approx(loss - heads)


BAD: list[tuple[Callable[[], object], str]] = [
    (lambda: roof_flow(1.0, 1.0, 1.5), "runoff coefficient must not be over 1, not 1.5"),
    (lambda: roof_flow(-1.0, 1.0), "area must not be below zero, not -1.0"),
    (lambda: pump_roof_equivalent(1.0, 0.0), "intensity must be more than zero, not 0.0"),
    (lambda: leader_flow(0.1, 1.5), "share must not be over 1, not 1.5"),
    (lambda: bend_loss(181.0, 1.0), "bend angle must not be over 180 degrees, not 181.0"),
    (lambda: contraction_k(2.0, 1.0), "an area of 2.0 does not fit in 1.0"),
    (lambda: IntensityTable((10.0,), (), ()), "an intensity table needs one row for each duration"),
    (
        lambda: IntensityTable((10.0,), (1.0,), ((1.0, 2.0),)),
        "an intensity table needs one number for each return period",
    ),
    (
        lambda: IntensityTable((10.0,), (2.0, 1.0), ((1.0,), (2.0,))),
        "an intensity table's durations must rise",
    ),
    (
        lambda: IntensityTable((10.0,), (1.0,), ((0.0,),)),
        "intensity table entry must be more than zero, not 0.0",
    ),
    (
        lambda: TABLE.intensity_ms(50.0, 300.0),
        "no return period of 50 years; there are 10, 25",
    ),
    (lambda: TABLE.intensity_ms(10.0, 60.0), "no duration of 60 s between 300 and 3600 s"),
]


@pytest.mark.parametrize(("call", "message"), BAD, ids=[message for _, message in BAD])
def test_rain_or_loss_that_cannot_be_is_named(call: Callable[[], object], message: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        call()

    assert str(caught.value) == message
