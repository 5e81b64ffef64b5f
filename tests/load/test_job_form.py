"""The questions of a job file: every field has one, and together they begin a sound file."""

from __future__ import annotations

import json
import sys
import tomllib
from typing import TYPE_CHECKING, Annotated, Any

import pytest
from begun_text import KINDS, begun, empty_fields, filled_in, only_asked, taken
from demo_jobs import ROOT, faults_of
from jsonschema import Draft7Validator
from pydantic import TypeAdapter, ValidationError

from permitkit.checks.judge import judge
from permitkit.load.job_file import read_job
from permitkit.load.job_form import PARTS, questions
from permitkit.load.job_form.fields import Holds, JobField, job_fields
from permitkit.load.job_form.metric import in_metric
from permitkit.load.job_form.question import Question, Row
from permitkit.load.job_form.told import left_out, outlets_of
from permitkit.load.rule_sheet import load_layers
from permitkit.model.facts import FACTS
from permitkit.model.keys import KEYS
from permitkit.model.verdict import Outcome

sys.path.insert(0, str(ROOT / "tests"))

from regenerate import JOB_SCHEMA

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from permitkit.model.words import OutletKind

FIELDS = job_fields()
QUESTIONS = questions()
ROWS = [step for part in PARTS for step in part.steps if isinstance(step, Row)]
VALIDATOR = Draft7Validator(json.loads(JOB_SCHEMA.read_text(encoding="utf-8")))


def written(folder: Path, text: str) -> Path:
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return path


# ---- the questions and the model


def test_every_field_of_the_model_has_a_question_and_no_question_is_stale() -> None:
    assert set(FIELDS) - set(QUESTIONS) == set()
    assert set(QUESTIONS) - set(FIELDS) == set()
    assert len(QUESTIONS) == sum(isinstance(s, Question) for part in PARTS for s in part.steps)


def test_what_no_job_file_states_is_not_asked() -> None:
    assert {"firm", "assumed"} & set(FIELDS) == set()
    assert "firm.name" not in FIELDS


@pytest.mark.parametrize(
    ("path", "holds", "kind", "many"),
    [
        ("schema", "word", None, False),
        ("site.frontage", "measure", "length", False),
        ("curb.reveal", "measure", "length", True),
        ("papers.photo.arrow.across", "measure", "ratio", False),
        ("drain.reach.bends", "measure", "angle", True),
        ("drain.inflow.pump.months", "count", None, True),
        ("drain.inflow.surface", "word", None, False),
        ("cut.cost", "money", None, False),
        ("round.changed", "text", None, True),
        ("dates.start", "day", None, False),
        ("traffic.walk_closed", "flag", None, False),
        ("answer.value", "any", None, False),
        ("feature", "table", None, True),
    ],
)
def test_a_field_is_known_by_what_its_type_is_made_of(
    path: str,
    holds: str,
    kind: str | None,
    many: bool,  # noqa: FBT001
) -> None:
    field = FIELDS[path]

    assert (field.holds, field.kind, field.many) == (holds, kind, many)


def test_every_field_that_holds_anything_at_all_is_meant_to() -> None:
    assert [path for path, field in FIELDS.items() if field.holds is Holds.ANY] == ["answer.value"]


def examples() -> Iterator[tuple[str, str]]:
    """Yield every example there is, with its field."""
    for question in QUESTIONS.values():
        if FIELDS[question.path].holds is not Holds.TABLE:
            yield question.path, question.example
            yield from ((question.path, other) for other in question.others.values())
    for row in ROWS:
        yield from ((f"{row.table}.{name}", example) for name, example in row.answers.items())


def reads(field: JobField, example: str) -> bool:
    """Tell whether an example reads as what its field holds."""
    value = tomllib.loads(f"value = {example}")["value"]
    marks = field.info.metadata
    hint: Any = Annotated[(field.hint, *marks)] if marks else field.hint
    try:
        TypeAdapter(hint).validate_python(value)
    except ValidationError:
        return False
    return True


def test_every_example_reads_as_what_its_field_holds() -> None:
    found = list(examples())

    assert len(found) > len(QUESTIONS)
    assert [(path, text) for path, text in found if not reads(FIELDS[path], text)] == []


@pytest.mark.parametrize(
    ("path", "example"),
    [
        ("site.frontage", '"64"'),
        ("site.frontage", "64"),
        ("street.lanes", "9"),
        ("curb.shape", '"square"'),
        ("dates.start", '"2026-04-06"'),
        ("papers.photo.arrow.across", '"120 %"'),
        ("site.owner", '""'),
    ],
)
def test_an_example_that_does_not_read_is_found_out(path: str, example: str) -> None:
    assert not reads(FIELDS[path], example)


def test_every_metric_example_reads_as_well() -> None:
    measured = [(FIELDS[path], text) for path, text in examples() if FIELDS[path].kind]

    turned = [(field, in_metric(text, field.kind)) for field, text in measured if field.kind]

    assert all(reads(field, text) for field, text in turned)
    assert [text for _, text in turned if " in" in text or " ft" in text] == []


def test_the_questions_are_sentences_that_stand_on_their_own() -> None:
    texts = [question.asks for question in QUESTIONS.values()] + [row.asks for row in ROWS]

    assert [text for text in texts if not text[0].isupper() or not text.endswith(".")] == []
    assert [q.path for q in QUESTIONS.values() if q.left_out.endswith(".")] == []


def test_what_may_be_left_out_says_what_that_means_and_what_is_needed_does_not() -> None:
    for question in QUESTIONS.values():
        field = FIELDS[question.path]
        stands = field.holds is Holds.TABLE and not field.many and field.default is not None
        always = field.required or set(outlets_of(question.path)) <= set(question.needed_for)
        meant = left_out(question, "us")
        assert meant or always or stands, question.path
        assert not (meant and (field.required or stands)), question.path
        assert not (field.required and question.left_out), question.path


def test_what_is_assumed_is_told_with_the_value_that_is_taken() -> None:
    assert left_out(QUESTIONS["walk.thickness"], "us") == (
        "assumed 4 in, perhaps 3 1/2 in to 6 in (to be confirmed at saw cut)"
    )
    assert left_out(QUESTIONS["walk.thickness"], "metric").startswith("assumed 100 mm, perhaps 90")
    assert left_out(QUESTIONS["gutter.depth_running"], "us") == (
        "assumed half the reveal, perhaps a quarter to three quarters of it"
    )
    assert left_out(QUESTIONS["street.lanes"], "us") == "counts as 2"
    assert left_out(QUESTIONS["traffic.neighbours_told"], "us") == "counts as false"
    assert left_out(QUESTIONS["curb.condition"], "us") == 'counts as "unknown"'


def test_every_value_that_is_assumed_has_its_word(tmp_path: Path) -> None:
    job = read_job(written(tmp_path, filled_in(begun("core"))))

    assert len(job.assumed) > 5
    for one in job.assumed:
        assert left_out(QUESTIONS[one.field], "us").startswith("assumed "), one.field


def test_no_question_names_a_rule_or_a_fact_that_is_not_there() -> None:
    words = {word.partition(":")[0] for question in QUESTIONS.values() for word in question.reads}

    assert words - set(KEYS) - set(FACTS) == set()


def test_what_stops_a_job_and_the_facts_of_jobs_are_asked_somewhere() -> None:
    words = {word for question in QUESTIONS.values() for word in question.reads}
    not_in_a_job = {"flow", "holes", "new_outlet", "permit", "place"}

    assert {key.name for key in KEYS.values() if key.blocking} - words == set()
    assert set(FACTS) - words == not_in_a_job


# ---- a begun file


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("outlet", KINDS)
def test_the_examples_together_are_one_job_that_can_be_read_and_judged(
    tmp_path: Path, outlet: OutletKind | None, units: str
) -> None:
    path = written(tmp_path, taken(begun(outlet, units)))

    job = read_job(path)
    judged = judge(job, load_layers("millrace"))

    assert job.outlet.kind == (outlet or "core")
    assert job.units == units
    assert judged.verdicts
    assert list(VALIDATOR.iter_errors(tomllib.loads(path.read_text(encoding="utf-8")))) == []


@pytest.mark.parametrize("outlet", KINDS)
def test_what_stands_empty_is_all_that_is_needed(tmp_path: Path, outlet: OutletKind | None) -> None:
    text = filled_in(begun(outlet))
    if outlet is None:
        text = text.replace('\n#bit = "', '\nbit = "').replace("\n#hole_bottom", "\nhole_bottom")
    path = written(tmp_path, text)

    assert faults_of(path) == ()
    assert judge(read_job(path), load_layers("millrace")).verdicts


@pytest.mark.parametrize("outlet", KINDS)
def test_what_stands_empty_is_told_field_by_field(
    tmp_path: Path, outlet: OutletKind | None
) -> None:
    text = begun(outlet)
    path = written(tmp_path, text)

    told = {fault.where.removeprefix(f"{path}: ") for fault in faults_of(path)}

    assert len(told) > 30
    assert told == empty_fields(text)


@pytest.mark.parametrize("outlet", KINDS)
def test_every_field_that_is_asked_of_an_outlet_stands_in_its_file(
    outlet: OutletKind | None,
) -> None:
    text = begun(outlet)

    for path, field in FIELDS.items():
        if field.holds is Holds.TABLE:
            heading = f"[[{path}]]" if field.many else f"[{path}]"
            asked = outlet is None or outlet in outlets_of(path)
            assert (f"{heading}\n" in text) is asked, path
    lines = [line.lstrip("# ") for line in text.splitlines()]
    for path, field in FIELDS.items():
        if field.holds is not Holds.TABLE and (outlet is None or outlet in outlets_of(path)):
            assert any(line.startswith(f"{field.name} = ") for line in lines), path


def test_what_belongs_to_another_outlet_is_left_away() -> None:
    core, notch, emitter = (begun(kind) for kind in ("core", "notch", "emitter"))

    assert "\nbit = " in core
    assert "bit = " not in notch
    assert "\nfloor_toe = " in notch
    assert "floor_toe" not in core
    assert "\n[outlet.emitter]\n" in emitter
    assert "emitter]" not in core + notch
    assert "#   [drain.verge]" in notch
    assert "drain.verge" not in core + emitter
    assert "way_round" not in emitter


def test_a_file_for_any_outlet_says_for_which_each_line_is() -> None:
    text = begun(None)

    assert 'kind = ""  # such as "core"\n' in text
    assert "# Only for: notch, culvert under walk.\n" in text
    assert "# Needed for: core.\n# Left out: the size of the hole that is used again.\n" in text
    assert '\n#bit = "4 in"  # a length\n' in text
    assert "# Only for: emitter, dry well.\n#   [[drain.node]]\n" in text
    assert text.count("# Only for: emitter.\n") == 1


def test_the_words_to_choose_from_are_listed() -> None:
    text = begun("core")

    assert "# One of: vertical, sloping, rolled, half-round, granite, none.\nshape = " in text
    assert "# One of: asphalt; concrete; brick; lawn, sandy soil, flat; lawn," in text


def test_a_metric_file_speaks_metric() -> None:
    text = begun("core", "metric")

    assert '\nunits = "metric"\n' in text
    assert 'such as ["150 mm", "150 mm", "155 mm"]\n' in text
    assert "# Left out: assumed 230 mm (usual barrel past the face).\n" in text
    assert '#rate = "0.75 L/s"' in text
    assert "# Left out: assumed 9 in" not in text


def test_no_line_of_comment_is_too_long() -> None:
    longest = [line for kind in KINDS for line in begun(kind).splitlines() if len(line) > 100]

    assert longest == []


def test_the_same_job_is_begun_with_the_same_bytes() -> None:
    assert begun("core") == begun("core")


# ---- what the town asks


def test_what_the_town_turns_on_or_holds_against_a_field_is_marked() -> None:
    text = begun("core")

    assert '# This town asks it (walk.base).\n#base = "4 in"' in text
    assert "# This town asks it (restore.state).\n#finish = " in text
    assert (
        "# This town asks it (docs.photos: curb face with tape, walk panel with joints, line to "
        "the house,\n# street to the left, street to the right).\n#[[papers.photo]]" in text
    )
    assert "# Left out: by the levels.\n#trench_depth" in text


def test_another_town_asks_for_other_things() -> None:
    assert "This town asks it (walk.thickness" in begun("core")
    assert begun("core") != begun("core", town="sorrel-flats").replace("sorrel-flats", "millrace")


STOPS = {
    ("papers.attachment.signed", "signature-open"),
    ("papers.attachment.edition", "form-outdated"),
    ("drain.node.opening", "water-rises-above-opening"),
}


@pytest.mark.parametrize(
    ("town", "outlet"),
    [("millrace", "core"), ("sorrel-flats", "notch"), ("harrow-heights", "emitter")],
)
def test_what_the_town_does_not_ask_for_may_be_left_out_without_a_new_fault(
    tmp_path: Path, town: str, outlet: OutletKind
) -> None:
    text, sheets = begun(outlet, town=town), load_layers(town)

    def stopping(job_text: str) -> set[tuple[str, str]]:
        judged = judge(read_job(written(tmp_path, job_text)), sheets)
        stops = [v for v in judged.verdicts if v.outcome is Outcome.FAILS or v.blocking]
        return {(v.check, v.item) for v in stops if v.outcome is not Outcome.MEETS}

    fewer = only_asked(text)

    assert fewer.count("\n#") > text.count("\n#") / 2
    new = {check for check, _ in stopping(fewer) - stopping(taken(text))}
    assert new <= {check for _, check in STOPS}
