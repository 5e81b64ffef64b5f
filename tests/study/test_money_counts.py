"""What money is counted by: told from the cut and the dates, or stated by the job."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from demo_jobs import JOBS
from test_fees import fees, row
from town import edition, sheet

from permitkit.errors import InputError
from permitkit.load.job_file import read_job
from permitkit.study.study import studied

if TYPE_CHECKING:
    from pathlib import Path

    from permitkit.model.job import Job

DEMO = (JOBS / "millrace-clean" / "job.toml").read_text(encoding="utf-8")
STREET = DEMO.replace("[cut]\n", '[cut]\npavement_cut = "2 ft"\ncurb_removed = "3 ft"\n', 1)


def made(text: str, folder: Path) -> Job:
    file = folder / "job.toml"
    file.write_text(text, encoding="utf-8")
    return read_job(file)


def charged(job: Job, per: str) -> str:
    """Return how one unit is counted for a job, at a dollar each."""
    line = f"line = [{{ name = 'a', rate = 1, per = '{per}' }}]"
    study, _ = studied(job, [sheet(edition("fees.lines", f"{line}\ncite = 'code 1'"))])
    return study.fees.fees.rows[0].arithmetic


TOLD = [
    ("surface opened", "4 surfaces opened x"),
    ("opening", "1 opening x"),
    ("street crossing", "0 street crossings x"),
    ("location", "1 location x"),
    ("week", "1 week x"),
    ("month", "1 month x"),
    ("sq ft of street", "6 sq ft x"),
    ("ft of pavement", "3 ft x"),
    ("sheet", "to be set: $1.00 per sheet; sheets not known"),
]


@pytest.mark.parametrize(("per", "words"), TOLD)
def test_what_the_cut_and_the_dates_tell_is_counted(per: str, words: str, tmp_path: Path) -> None:
    assert charged(made(STREET, tmp_path), per).startswith(words)


STATED = [
    ("blocks = 2", "block", "2 blocks x $1.00"),
    ("openings = 3", "opening", "3 openings x $1.00"),
    ("hours_of_review = 2.5", "hour of review", "2.5 hours of review x $1.00"),
    ("copies = 2", "copy", "2 copies x $1.00"),
    ('length_of_opening = "14 ft"', "ft of opening", "14 ft x $1.00"),
    ('area_of_street = "9 sq ft"', "sq yd of street", "1 sq yd x $1.00"),
    ('other = [{ per = "truck", number = 2 }]', "truck", "2 trucks x $1.00"),
    ('other = [{ per = "lf of frontage", number = 60 }]', "ft of frontage", "60 ft x $1.00"),
]


@pytest.mark.parametrize(("count", "per", "words"), STATED)
def test_what_the_job_states_is_counted_as_stated(
    count: str, per: str, words: str, tmp_path: Path
) -> None:
    job = made(STREET.replace("[cut]\n", f"[counts]\n{count}\n[cut]\n", 1), tmp_path)

    assert charged(job, per).startswith(words)


def test_a_share_may_be_charged_for_each_of_what_is_counted() -> None:
    lines = "{{ name = 'base', sum = 200 }}, {{ name = 'a', percent = 5, of = 'base', per = '{}' }}"

    (_, holes), (_, months) = (
        fees(lines.format(per), sizes={"holes": 2}).fees.rows for per in ("hole", "month of age")
    )
    assert (holes.arithmetic, holes.shown) == ("2 holes x 5 % of $200.00 = $20.00", "$20.00")
    assert months.arithmetic == "to be set: 5 % of base per month of age; months of age not known"


@pytest.mark.parametrize(
    "count", ["hours = true", "sheets = -1", 'copies = "two"', 'area_of_street = "9 sq ft"']
)
def test_a_count_that_cannot_be_is_a_fault(count: str, tmp_path: Path) -> None:
    with pytest.raises(InputError) as raised:
        made(DEMO.replace("[cut]\n", f"[counts]\n{count}\n[cut]\n", 1), tmp_path)

    (found,) = raised.value.faults
    assert f"counts.{count.partition(' ')[0]}" in found.where


def test_an_area_that_is_not_opened_is_not_padded() -> None:
    line = "rate = 5, per = 'sq yd of street', pad_length = '30 ft'"
    found = row(line, {"length of street": "0 ft", "width of street": "27 ft"})

    assert (found.arithmetic, found.shown) == ("0 sq yd x $5.00 = $0.00", "$0.00")


SURFACES: dict[str, str | int] = {
    "sq ft of walk": "25 sq ft",
    "sq ft of verge": "10 sq ft",
    "sq ft of pavement": "0 sq ft",
}
ROWS = "by = 'surface', rows = { walk = { sum = 25 } }, otherwise = { sum = 50 }"


def test_one_opening_over_several_surfaces_is_added_up_or_taken_once() -> None:
    added, once = (row(f"{more}{ROWS}", SURFACES) for more in ("", "once = 'greatest', "))

    assert str(added.amount) == "75.00"
    assert (str(once.amount), once.arithmetic) == (
        "50.00",
        "greatest of walk: $25.00 and verge: $50.00: $50.00",
    )


def test_the_dearest_of_one_surface_is_that_one() -> None:
    found = row(f"once = 'greatest', {ROWS}", {**SURFACES, "sq ft of verge": "0 sq ft"})

    assert found.arithmetic == "walk: $25.00"
