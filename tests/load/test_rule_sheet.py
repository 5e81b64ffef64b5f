from __future__ import annotations

from datetime import date
from textwrap import dedent
from typing import TYPE_CHECKING

import pytest
from sheet_text import HEAD, sheet

from permitkit.errors import Exit, InputError, UsageError
from permitkit.load.find_sheet import SheetPlaces, find_sheet, list_places, shipped_folder
from permitkit.load.rule_sheet import load_layers, load_sheet
from permitkit.model.rules import OtherStreet
from permitkit.model.values import Limit, Stance

if TYPE_CHECKING:
    from pathlib import Path


def place(folder: Path, name: str, follows: str = "", rules: str = "", kind: str = "town") -> Path:
    """Write a sheet and return its file."""
    path = folder / name / "rules.toml"
    path.parent.mkdir(parents=True)
    head = HEAD.replace('"ford"', f'"{name}"').replace('"town"', f'"{kind}"')
    path.write_text(
        head.replace("[source", f"follows = [{follows}]\n[source", 1) + rules, encoding="utf-8"
    )
    return path


def test_a_sheet_holds_its_head_its_sources_and_its_permits() -> None:
    found = sheet(
        """
        [sheet.closings]
        "2026-11-27" = "day after Thanksgiving"
        [sheet.listed_streets]
        "Tarn Road" = "Tarn County"
        [sheet.paved]
        "Heron Street" = 2024-08-01
        [source.fees]
        title = "Fees"
        read = 2026-03-02T10:00:00
        address = "https://example.org/fees"
        dated = 2025-01-01
        note = "seen in full"
        [[permit]]
        id = "street"
        title = "Street opening permit"
        issuer = "Town of Ford"
        when = { pavement_cut = true }
        form = "PW-7"
        form_edition = "2025-09"
        cite = "code 12.08 page 3"
        """
    )

    assert (found.place, found.title, found.kind) == ("ford", "Town of Ford", "town")
    assert (found.checked, found.due) == (date(2026, 3, 2), date(2027, 3, 1))
    assert (found.standing, found.verified, found.units) == ("invented", False, "us")
    assert found.closings == {date(2026, 11, 27): "day after Thanksgiving"}
    assert found.listed_streets == (OtherStreet("Tarn Road", "Tarn County"),)
    assert found.paved == {"Heron Street": date(2024, 8, 1)}
    assert found.sources["fees"].read == date(2026, 3, 2)
    assert found.sources["fees"].dated == "2025-01-01"
    assert found.permits[0].cite is not None
    assert found.permits[0].cite.text == "Ford Code, section 12.08, page 3"
    assert found.path == "jurisdictions/ford/rules.toml"
    assert len(found.digest) == 64


def test_a_short_rule_is_one_case_always_in_force() -> None:
    rule = sheet('[rule]\ncore.bit = { at_most = "4 in", cite = "code 4.2" }').rules["core.bit"]

    (edition,) = rule.editions
    (only,) = edition.cases
    assert edition.since is None
    assert only.when is None
    assert isinstance(only.value, Limit)
    assert only.cite is not None
    assert only.cite.section == "4.2"


def test_a_long_rule_keeps_its_editions_and_cases_in_order() -> None:
    rule = sheet(
        """
        [[edition]]
        key = "water.allowed"
        note = "as first written"
        [[edition.case]]
        when = [{ water = "sump", outlet = "core" }, { water = ["footing"] }]
        stance = "allowed"
        cite = { source = "code", section = "12", page = "14" }
        waivable_by = [{ who = "engineer", needs = "a letter" }, "council"]
        note = "not in winter"
        [[edition.case]]
        ask = "town engineer"
        [[edition]]
        key = "water.allowed"
        since = 2026-01-01
        """
    ).rules["water.allowed"]

    first, second = rule.editions
    assert (first.since, second.since) == (None, date(2026, 1, 1))
    assert second.cases == ()
    case = first.cases[0]
    assert case.value == Stance("allowed")
    assert case.when is not None
    assert case.when.alternatives == (
        {"water": ("sump",), "outlet": ("core",)},
        {"water": ("footing",)},
    )
    assert (case.waivable_by, case.waiver_needs) == (("engineer", "council"), ("a letter", ""))
    assert case.note == "not in winter"


def test_the_same_bytes_give_the_same_sheet(tmp_path: Path) -> None:
    path = place(tmp_path, "ford")

    assert load_sheet(path) is load_sheet(path)


def test_layers_come_town_first_and_each_once(tmp_path: Path) -> None:
    folder = tmp_path / "jurisdictions"
    place(folder, "ford", '"county-a", "us-yy"')
    place(folder, "county-a", '"us-yy"', kind="county")
    place(folder, "us-yy", '"land"', kind="state")
    place(folder, "land", kind="country")

    layers = load_layers("ford", SheetPlaces(job=tmp_path))

    assert [layer.place for layer in layers] == ["ford", "county-a", "us-yy", "land"]


def test_a_loop_of_layers_is_told(tmp_path: Path) -> None:
    place(tmp_path, "ford", '"beta"')
    place(tmp_path, "beta", '"ford"')

    with pytest.raises(InputError) as raised:
        load_layers("ford", SheetPlaces(job=tmp_path))

    assert "found     ford follows beta follows ford" in str(raised.value)


def test_a_sheet_that_follows_itself_is_told(tmp_path: Path) -> None:
    place(tmp_path, "ford", '"ford"')

    with pytest.raises(InputError, match="ford follows ford"):
        load_layers("ford", SheetPlaces(job=tmp_path))


def test_a_missing_layer_is_told_with_the_nearest_name(tmp_path: Path) -> None:
    place(tmp_path, "ford", '"us-yyy"')
    place(tmp_path, "us-yy")

    with pytest.raises(InputError) as raised:
        load_layers("ford", SheetPlaces(job=tmp_path))

    (fault,) = raised.value.faults
    assert fault.where.endswith("rules.toml: sheet.follows")
    assert fault.found == "'us-yyy'"
    assert fault.fix.startswith("did you mean us-yy")


def test_the_faults_of_all_layers_come_at_once(tmp_path: Path) -> None:
    place(tmp_path, "ford", '"us-yy"', "[rule]\ncore.bit = { at_most = 4, cite = 'code 1' }")
    place(tmp_path, "us-yy", rules="[rule]\ncore.bitt = { ask = 'them' }")

    with pytest.raises(InputError) as raised:
        load_layers("ford", SheetPlaces(job=tmp_path))

    assert raised.value.exit_code is Exit.INPUT
    assert [fault.where.rpartition("/")[2] for fault in raised.value.faults] == [
        "rules.toml: rule core.bit.at_most",
        "rules.toml: rule core.bitt",
    ]


def test_a_sheet_that_cannot_be_read_at_all_ends_the_way(tmp_path: Path) -> None:
    place(tmp_path, "ford", '"us-yy"')
    place(tmp_path, "us-yy").write_text("sheet = [", encoding="utf-8")

    with pytest.raises(InputError) as raised:
        load_layers("ford", SheetPlaces(job=tmp_path))

    assert len(raised.value.faults) == 1


def test_a_town_without_a_sheet_offers_the_nearest_names(tmp_path: Path) -> None:
    place(tmp_path, "millrace")
    place(tmp_path, "millbrook")

    with pytest.raises(UsageError) as raised:
        load_layers("milrace", SheetPlaces(job=tmp_path))

    assert raised.value.exit_code is Exit.USAGE
    assert raised.value.faults[0].where == "town 'milrace'"
    assert "did you mean millrace" in raised.value.faults[0].fix


@pytest.mark.parametrize("name", ["", "../ford", "a\\b", "a:b", "ford."])
def test_a_name_that_is_a_path_finds_nothing(tmp_path: Path, name: str) -> None:
    place(tmp_path, "ford")

    with pytest.raises(UsageError):
        find_sheet(name, SheetPlaces(job=tmp_path / "other"))


def test_a_sheet_beside_the_job_stands_before_the_firms_and_the_shipped(tmp_path: Path) -> None:
    job, firm = tmp_path / "job", tmp_path / "firm"
    shipped = list_places()[0]
    own = place(job / "jurisdictions", shipped)
    of_firm = place(firm, shipped)

    assert find_sheet(shipped, SheetPlaces(job, firm)) == own
    assert find_sheet(shipped, SheetPlaces(firm=firm)) == of_firm
    assert find_sheet(shipped).is_relative_to(shipped_folder())


def test_a_sheet_may_be_a_file_alone(tmp_path: Path) -> None:
    folder = tmp_path / "jurisdictions"
    folder.mkdir()
    (folder / "ford.toml").write_text(HEAD, encoding="utf-8")

    assert load_sheet(find_sheet("ford", SheetPlaces(job=tmp_path))).place == "ford"
    assert "ford" in list_places(SheetPlaces(job=tmp_path))


def test_shipped_sheets_are_found_in_a_wheel_and_in_a_checkout(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    package = tmp_path / "permitkit"
    package.mkdir()
    monkeypatch.setattr("permitkit.load.find_sheet.files", lambda _name: package)

    assert shipped_folder.__wrapped__() == tmp_path / "jurisdictions"
    (package / "shipped" / "jurisdictions").mkdir(parents=True)
    assert shipped_folder.__wrapped__() == package / "shipped" / "jurisdictions"


def test_every_shipped_sheet_loads_with_its_layers() -> None:
    for name in list_places():
        assert load_layers(name)[0].place == name


def test_a_sheet_named_other_than_its_folder_is_told(tmp_path: Path) -> None:
    path = place(tmp_path, "ford").rename(tmp_path / "rules.toml")
    alone = tmp_path / "brook.toml"
    alone.write_text(HEAD, encoding="utf-8")

    with pytest.raises(InputError, match="as its folder is named"):
        load_sheet(path)
    with pytest.raises(InputError, match="as its file is named"):
        load_sheet(alone)


def test_text_is_read_whatever_the_indent() -> None:
    indented = dedent("""
        [rule]
          walk.thickness   =   { at_least = "4 in" , cite="code  7" }
    """)

    assert "walk.thickness" in sheet(indented).rules
