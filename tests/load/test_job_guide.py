"""The guide to a job file and its schema say what the questions say."""

from __future__ import annotations

import json
import sys
import tomllib
from typing import Any

import pytest
from demo_jobs import NAMES, ROOT, job_path
from jsonschema import Draft7Validator

from permitkit.load.job_form import PARTS, questions
from permitkit.load.job_form.fields import Holds, job_fields
from permitkit.load.job_form.question import Row
from permitkit.load.schema import job_file_schema

sys.path.insert(0, str(ROOT / "tests"))

from regenerate import JOB_GUIDE, JOB_SCHEMA

FIELDS = job_fields()
QUESTIONS = questions()
ROWS = [step for part in PARTS for step in part.steps if isinstance(step, Row)]
VALIDATOR = Draft7Validator(json.loads(JOB_SCHEMA.read_text(encoding="utf-8")))


def test_every_field_has_a_row_in_the_guide() -> None:
    guide = JOB_GUIDE.read_text(encoding="utf-8")

    for path, field in FIELDS.items():
        heading = f"[[{path}]]" if field.many else f"[{path}]"
        name = f"**`{heading}`**" if field.holds is Holds.TABLE else f"`{path}`"
        assert f"| {name} | {QUESTIONS[path].asks.replace('|', '/')}" in guide, path
    assert guide.index("`site.house.left`") < guide.index("`drain.node.invert`")
    assert guide.index("`drain.node.invert`") < guide.index("`street.speed`")


def test_the_schema_is_one_of_its_own_kind() -> None:
    Draft7Validator.check_schema(VALIDATOR.schema)

    assert json.loads(json.dumps(job_file_schema())) == job_file_schema()


@pytest.mark.parametrize("name", NAMES)
def test_every_demo_job_keeps_to_the_schema(name: str) -> None:
    table = tomllib.loads(job_path(name).read_text(encoding="utf-8"))

    assert list(VALIDATOR.iter_errors(table)) == []


@pytest.mark.parametrize(
    ("table", "field", "value"),
    [
        ("site", "frontage", 64),
        ("site", "frontige", "64 ft"),
        ("street", "lanes", 9),
        ("curb", "shape", "square"),
        ("walk", "level_curb_side", ""),
        ("outlet", "kind", "hole"),
        ("traffic", "walk_closed", "yes"),
    ],
)
def test_a_broken_job_breaks_the_schema(table: str, field: str, value: Any) -> None:  # noqa: ANN401
    job = tomllib.loads(job_path("millrace-clean").read_text(encoding="utf-8"))
    job[table][field] = value

    assert list(VALIDATOR.iter_errors(job))


def test_an_editor_is_told_the_question_and_an_example() -> None:
    schema = job_file_schema()["properties"]["curb"]["properties"]["base_depth"]

    assert schema["allOf"] == [{"$ref": "#/definitions/length"}]
    assert schema["description"] == (
        "From its top to its underside, where it can be seen. "
        'Left out: assumed 18 in (drawn as typical). For example: "18 in"'
    )
