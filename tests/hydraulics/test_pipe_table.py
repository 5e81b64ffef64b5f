"""The table of pipe, and finding one in words."""

from __future__ import annotations

import pytest

from permitkit.hydraulics.materials import PIPES, Pipe, UnknownPipe, find_pipe
from permitkit.hydraulics.section import Box, Round

INCH = 0.0254


@pytest.mark.parametrize("pipe", PIPES.values(), ids=PIPES)
def test_a_pipe_has_a_wall_a_roughness_and_a_source(pipe: Pipe) -> None:
    assert pipe.wall_m > 0.0
    assert pipe.bore_height_m <= pipe.bore_by_least_wall_m <= pipe.outside_height_m
    assert 0.009 <= pipe.n <= 0.025
    assert pipe.source
    assert pipe.n_source
    assert pipe.joint
    assert pipe.known in {"seen", "memory"}


@pytest.mark.parametrize("pipe", PIPES.values(), ids=PIPES)
def test_a_pipe_is_found_by_key_and_by_name(pipe: Pipe) -> None:
    assert find_pipe(pipe.key) is pipe
    assert find_pipe(pipe.name) is pipe
    assert find_pipe(pipe.name.upper()) is pipe


@pytest.mark.parametrize(
    ("words", "key"),
    [
        ("3 in Sch 40", "3-sch40"),
        ('3" schedule 40 PVC', "3-sch40"),
        ("sch40 4 in", "4-sch40"),
        ("4 in SDR-35", "4-sdr35"),
        ("4 in thin-wall drain", "4-d2729"),
        ("4 in corrugated", "4-hdpe"),
        ("dual wall HDPE 6 in", "6-hdpe-dual"),
        ("4 in corrugated, smooth interior", "4-hdpe-dual"),
        ("5 x 2 x 3/16 in steel tube", "tube-5x2"),
        ('5" by 2" box tube', "tube-5x2"),
    ],
)
def test_words_as_written_on_site_are_understood(words: str, key: str) -> None:
    assert find_pipe(words).key == key


@pytest.mark.parametrize(
    ("words", "near"),
    [
        ("5 in Sch 40", "4-sch40"),
        ("3 in SDR 35", "4-sdr35"),
        ("3-sch4", "3-sch40"),
        ("4 in shc 40 pvc", "4-sch40"),
    ],
)
def test_an_unknown_pipe_is_told_with_near_ones(words: str, near: str) -> None:
    with pytest.raises(UnknownPipe) as caught:
        find_pipe(words)

    assert near in caught.value.near
    assert str(caught.value) == f"no pipe {words!r}; near: {', '.join(caught.value.near)}"


def test_where_nothing_is_near_all_are_told() -> None:
    with pytest.raises(KeyError) as caught:
        find_pipe("copper")

    assert isinstance(caught.value, UnknownPipe)
    assert caught.value.near == tuple(PIPES)


def test_the_smaller_of_two_bores_governs() -> None:
    pipe = find_pipe("3-sch40")

    assert pipe.section == Round(3.042 * INCH)
    assert pipe.bore_by_least_wall_m == pytest.approx(3.068 * INCH)
    assert pipe.outside_height_m == pytest.approx(3.5 * INCH)


def test_a_tube_is_a_box_inside() -> None:
    tube = find_pipe("tube-5x2")

    assert tube.section == Box(4.625 * INCH, 1.625 * INCH)
    assert tube.wall_m == pytest.approx(3 / 16 * INCH)


def test_no_standard_makes_a_three_inch_dual_wall_pipe_or_sdr_35() -> None:
    assert "3-hdpe-dual" not in PIPES
    assert "3-sdr35" not in PIPES
