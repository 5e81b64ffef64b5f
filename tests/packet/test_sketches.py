"""The drawings as files of their own: the packet's own sheets, each whole or not at all."""

from __future__ import annotations

import io
import sys
from pathlib import Path

import ezdxf
import pytest
from packets import judged
from pypdf import PdfReader
from typer.testing import CliRunner

from permitkit.cli.main import app
from permitkit.errors import OutputError, UsageError
from permitkit.packet.drawn import drawn_parts
from permitkit.packet.sketches import KINDS, sketch_files
from permitkit.packet.values import values_of
from permitkit.render.svg import render_svg

ROOT = Path(__file__).resolve().parent.parent.parent
CLEAN = "millrace-clean"


def test_all_sheets_become_svg_and_one_pdf_and_the_site_sketch_dxf(tmp_path: Path) -> None:
    paths = sketch_files(judged(CLEAN), tmp_path)
    parts = drawn_parts(judged(CLEAN), values_of(judged(CLEAN)))
    sheets = [sheet for part in parts for sheet in part.sheets]

    names = [path.name for path in paths]
    assert sorted(names) == sorted(path.name for path in tmp_path.iterdir())
    assert {"site-sketch.svg", "site-sketch.dxf", "profile.svg", "drawings.pdf"} <= set(names)
    assert sum(name.endswith(".svg") for name in names) == len(sheets)
    assert (tmp_path / "site-sketch.svg").read_bytes() == render_svg(sheets[0])
    assert len(PdfReader(io.BytesIO((tmp_path / "drawings.pdf").read_bytes())).pages) == len(sheets)
    layers = ezdxf.readfile(tmp_path / "site-sketch.dxf").layers  # type: ignore[attr-defined]
    assert "drain pipe" in layers


def test_a_part_of_several_sheets_is_numbered_from_its_second_on(tmp_path: Path) -> None:
    names = [path.name for path in sketch_files(judged(CLEAN), tmp_path, ("svg",))]

    assert {"walk-cut.svg", "walk-cut-2.svg"} <= set(names)
    assert "walk-cut-1.svg" not in names


def test_only_the_kinds_asked_for_are_written(tmp_path: Path) -> None:
    assert [path.name for path in sketch_files(judged(CLEAN), tmp_path, ("pdf",))] == [
        "drawings.pdf"
    ]


def test_a_kind_that_is_not_known_is_refused(tmp_path: Path) -> None:
    with pytest.raises(UsageError, match=r"'png'\n  expected  any of svg, dxf, pdf"):
        sketch_files(judged(CLEAN), tmp_path, (*KINDS, "png"))
    assert list(tmp_path.iterdir()) == []


def test_nothing_is_written_where_one_kind_cannot_be_drawn(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "ezdxf", None)

    with pytest.raises(OutputError, match=r"permitkit\[dxf\]"):
        sketch_files(judged(CLEAN), tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_the_command_writes_what_can_be_written_and_tells_what_cannot(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    job = ROOT / "demo" / "jobs" / CLEAN / "job.toml"

    done = CliRunner().invoke(app, ["sketches", str(job), "-o", str(tmp_path)])

    assert done.exit_code == 0
    assert "no DXF: its library is missing; pip install 'permitkit[dxf]'" in done.stderr
    assert {path.suffix for path in tmp_path.iterdir()} == {".svg", ".pdf"}


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="a folder that exists"):
        sketch_files(judged(CLEAN), tmp_path / "none", ("pdf",))


def test_the_same_job_gives_the_same_files(tmp_path: Path) -> None:
    first, second = tmp_path / "1", tmp_path / "2"
    for folder in (first, second):
        folder.mkdir()
        sketch_files(judged(CLEAN), folder)

    assert {path.name: path.read_bytes() for path in first.iterdir()} == {
        path.name: path.read_bytes() for path in second.iterdir()
    }
