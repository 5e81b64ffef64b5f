"""Rain tables as NOAA Atlas 14 exports them, alone and named by a job."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from demo_jobs import Change, changed, faults_of
from published.rows import UNITS, book

from permitkit.errors import InputError
from permitkit.load.atlas14 import read_atlas14
from permitkit.load.job_file import read_job
from permitkit.load.rule_sheet import load_layers
from permitkit.study.study import studied

if TYPE_CHECKING:
    from pathlib import Path

TABLE: dict[str, Any] = book("hydraulics")["atlas14"]
INCH_HOUR = UNITS["in/hr"]
YEARS = ",".join(str(period) for period in TABLE["periods"])
HEAD = """Point precipitation frequency estimates ({unit})
NOAA Atlas 14 Volume 8 Version 2
Data type: Precipitation intensity
Time series type: Partial duration
Project area: Midwestern States
Location name (ESRI Maps): Monument, Colorado, USA
Station Name: None
Latitude: 39.0000 Degree
Longitude: -105.0000 Degree
Elevation (USGS): None None


PRECIPITATION FREQUENCY ESTIMATES
{columns}
"""
BY_YEARS = f"by duration for ARI (years):, {YEARS}"
LINE_OF_5_MIN, LINE_OF_10_MIN = "line 15", "line 16"
RAIN_OF_JOB = '[rain]\ntable = "rain.csv"\nperiod = "{}"\nduration = "{}"\n'


def lines() -> list[str]:
    spans = [span.replace(" ", "-") for span in TABLE["durations"]]
    return [
        f"{span}:, {','.join(map(str, row))}"
        for span, row in zip(spans, TABLE["rows"], strict=True)
    ]


def export(
    folder: Path, *changes: Change, unit: str = "inches/hour", columns: str = BY_YEARS
) -> Path:
    """Write a table as it is exported, each old text, found once, replaced by the new."""
    text = HEAD.format(unit=unit, columns=columns) + "\n".join(lines()) + "\n\nDate/time (GMT): x\n"
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    path = folder / "rain.csv"
    path.write_text(text, encoding="utf-8")
    return path


def told(path: Path) -> list[str]:
    with pytest.raises(InputError) as caught:
        read_atlas14(path)
    folder = f"{path.parent}/"
    return [
        " | ".join((f.where.replace(folder, ""), f.found, f.expected)) for f in caught.value.faults
    ]


def test_every_number_of_the_table_is_read_back(tmp_path: Path) -> None:
    table = read_atlas14(export(tmp_path)).table

    for span, row in zip(TABLE["durations"], TABLE["rows"], strict=True):
        number, unit = span.split()
        for period, printed in zip(TABLE["periods"], row, strict=True):
            value = table.intensity_ms(period, float(number) * UNITS[unit])
            assert value / INCH_HOUR == pytest.approx(printed)


def test_between_two_durations_it_runs_straight_on_logarithms(tmp_path: Path) -> None:
    table = read_atlas14(export(tmp_path)).table

    middle = table.intensity_ms(25, (5 * 60 * 10 * 60) ** 0.5)

    assert middle / INCH_HOUR == pytest.approx((6.92 * 5.07) ** 0.5)


def test_the_basis_tells_volume_series_and_place(tmp_path: Path) -> None:
    basis = read_atlas14(export(tmp_path)).basis

    assert basis == (
        "NOAA Atlas 14 Volume 8 Version 2, partial duration, Monument, Colorado, USA, "
        "latitude 39.0000 Degree, longitude -105.0000 Degree"
    )


def test_a_place_without_a_name_is_told_by_its_coordinates(tmp_path: Path) -> None:
    path = export(tmp_path, ("Location name (ESRI Maps): Monument, Colorado, USA\n", ""))

    assert read_atlas14(path).place == "latitude 39.0000 Degree, longitude -105.0000 Degree"


@pytest.mark.parametrize(
    ("unit", "metres"), [("inches", 0.0254), ("mm", 0.001), ("millimeters", 0.001)]
)
def test_a_table_of_depths_becomes_one_of_intensities(
    tmp_path: Path, unit: str, metres: float
) -> None:
    depths = "5-min:, 1,2\n10-min:, 1.5,3\n60-min:, 2,4\n"
    text = HEAD.format(unit=unit, columns="by duration for ARI (years):, 2,10") + depths
    path = tmp_path / "depths.csv"
    path.write_text(text, encoding="utf-8")

    table = read_atlas14(path).table

    assert table.intensity_ms(10, 600.0) == pytest.approx(3 * metres / 600.0)


def test_a_table_by_yearly_chance_is_read_by_one_over_it(tmp_path: Path) -> None:
    chances = [f"1/{period}" for period in TABLE["periods"]]
    path = export(tmp_path, columns=f"by duration for AEP:, {','.join(chances)}")

    assert read_atlas14(path).table.intensity_ms(25, 900.0) / INCH_HOUR == pytest.approx(4.12)


def test_a_byte_order_mark_is_passed_over(tmp_path: Path) -> None:
    path = export(tmp_path)
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes())

    assert read_atlas14(path).table.periods_years[0] == 1


@pytest.mark.parametrize(
    ("change", "fault"),
    [
        (
            ("Point precipitation frequency estimates", "Wind"),
            (
                "rain.csv: line 1 | 'Wind (inches/hour)' | Point precipitation frequency estimates "
                "(inches/hour)"
            ),
        ),
        (
            ("(inches/hour)", "(feet/hour)"),
            "rain.csv: line 1 | 'feet/hour' | inches or mm, or one of them an hour",
        ),
        (
            ("NOAA Atlas 14 Volume 8 Version 2", "An atlas"),
            "rain.csv: line 2 | 'An atlas' | NOAA Atlas 14 Volume, and which",
        ),
        (
            ("by duration for ARI", "for ARI"),
            (
                "rain.csv | no such line | a line 'by duration for ARI (years):' with the return "
                "periods"
            ),
        ),
        (
            ("1,2,5,10,25,50", "1,2,5,ten,25,50"),
            "rain.csv: line 14 | 'ten' | a return period, such as 25 or 1/25",
        ),
        (
            ("1,2,5,10,25,50", "1,2,10,5,25,50"),
            (
                "rain.csv: line 14 | 1, 2, 10, 5, 25, 50, 100, 200, 500, 1000 | "
                "return periods that rise"
            ),
        ),
        (
            ("5-min:, 2.87", "soon:, 2.87"),
            f"rain.csv: {LINE_OF_5_MIN} | 'soon' | a duration such as 15-min",
        ),
        (
            ("2.87,", "2.87x,"),
            f"rain.csv: {LINE_OF_5_MIN}, 5-min | '2.87x' | a number over zero",
        ),
        (("2.87,", "-2.87,"), f"rain.csv: {LINE_OF_5_MIN}, 5-min | '-2.87' | a number over zero"),
        (("2.87,", "nan,"), f"rain.csv: {LINE_OF_5_MIN}, 5-min | 'nan' | a number over zero"),
        (
            ("2.87,", ""),
            f"rain.csv: {LINE_OF_5_MIN}, 5-min | 9 numbers | 10, one for each return period",
        ),
        (
            ("2.87,3.48", "3.48,2.87"),
            (
                f"rain.csv: {LINE_OF_5_MIN} | one that falls | numbers that rise with the "
                "return period"
            ),
        ),
        (
            ("10-min:", "5-min:"),
            (
                f"rain.csv: {LINE_OF_10_MIN} | a duration no longer than the one before | "
                "durations that rise"
            ),
        ),
        (
            ("10.2\n", "20.2\n"),
            (
                f"rain.csv: {LINE_OF_10_MIN} | a number that does | "
                "intensities that never rise as the duration grows"
            ),
        ),
    ],
)
def test_a_table_that_is_not_as_exported_is_told_where(
    tmp_path: Path, change: Change, fault: str
) -> None:
    if change[0].startswith("5-min"):
        change = (f"\n{change[0]}", f"\n{change[1]}")

    assert fault in told(export(tmp_path, change))


def test_all_faults_are_told_at_once(tmp_path: Path) -> None:
    faults = told(export(tmp_path, ("2.87,", "x,"), ("2.55,", "y,"), ("(inches/hour)", "(z)")))

    assert len(faults) == 3


def test_a_table_without_a_line_of_numbers_is_told(tmp_path: Path) -> None:
    path = tmp_path / "rain.csv"
    path.write_text(HEAD.format(unit="inches/hour", columns=BY_YEARS), encoding="utf-8")

    assert told(path) == ["rain.csv | no line of numbers | a line for each duration"]


def test_an_empty_file_and_one_that_is_not_there_are_told(tmp_path: Path) -> None:
    path = tmp_path / "rain.csv"
    path.write_text("", encoding="utf-8")

    assert told(path)[0].startswith("rain.csv: line 1 | '' | Point precipitation")
    assert told(tmp_path / "none.csv") == ["none.csv | no file | a file that is there"]


def job_with(folder: Path, *rain: str) -> Path:
    export(folder)
    text = RAIN_OF_JOB.format(*rain) if rain else ""
    return changed(folder, "harrow-heights-core", ("[level]", f"{text}\n[level]"))


def test_a_job_takes_its_rain_from_the_table_beside_it(tmp_path: Path) -> None:
    rain = read_job(job_with(tmp_path, "25-year", "15 min")).rain

    assert rain.intensity is not None
    assert rain.intensity.shown() == "4.12 in/hr"
    assert rain.source is not None
    assert rain.source.startswith("NOAA Atlas 14 Volume 8 Version 2, partial duration, Monument")


@pytest.mark.parametrize(
    ("duration", "inches"), [("0.25 hours", 4.12), ("1 hr", 1.59), ("1 day", 0.171)]
)
def test_a_duration_is_read_in_any_of_its_units(
    tmp_path: Path, duration: str, inches: float
) -> None:
    rain = read_job(job_with(tmp_path, "25 yr", duration)).rain

    assert float(rain.intensity or 0) / INCH_HOUR == pytest.approx(inches)


def test_the_study_computes_with_it_and_tells_its_basis(tmp_path: Path) -> None:
    job = read_job(job_with(tmp_path, "100-year", "10 min"))
    silent = tuple(sheet for sheet in load_layers(job.town) if sheet.kind != "town")

    rain = studied(job, silent)[0].water.rain

    assert (rain.intensity_ms or 0) / INCH_HOUR == pytest.approx(6.82)
    assert (rain.period, rain.duration, rain.missing) == ("100-year", "10 min", ())
    assert "Volume 8" in rain.source


@pytest.mark.parametrize(
    ("rain", "where", "expected"),
    [
        (("25-year", "a while"), "rain.duration", "a duration such as 15 min, 2 hr or 1 day"),
        (("often", "15 min"), "rain.period", "a return period such as 25-year"),
        (("30-year", "15 min"), "rain", "a period and a duration of the table"),
        (("25-year", "2 min"), "rain", "a period and a duration of the table"),
    ],
)
def test_what_is_not_in_the_table_is_told_where_it_was_asked_for(
    tmp_path: Path, rain: tuple[str, str], where: str, expected: str
) -> None:
    (fault,) = faults_of(job_with(tmp_path, *rain))

    assert fault.where.endswith(f": {where}")
    assert fault.expected.startswith(expected)


def test_a_table_needs_a_period_and_a_duration_and_no_intensity_beside_it(tmp_path: Path) -> None:
    export(tmp_path)
    own = '[rain]\ntable = "rain.csv"\nintensity = "4 in/hr"\n\n[level]'

    faults = faults_of(changed(tmp_path, "harrow-heights-core", ("[level]", own)))

    wheres = [fault.where.rpartition(": ")[2] for fault in faults]
    assert wheres == ["rain.period", "rain.duration", "rain.intensity"]


def test_faults_of_table_and_job_come_together(tmp_path: Path) -> None:
    rain = RAIN_OF_JOB.format("25-year", "15 min") + "\n[level]"

    faults = faults_of(changed(tmp_path, "harrow-heights-core", ("[level]", rain)))

    assert [fault.found for fault in faults] == ["no file"]
