"""A town's sheet written for a test, and what is read back of a page."""

from __future__ import annotations

from pathlib import Path

from pypdf import PdfReader

ROOT = Path(__file__).resolve().parents[2]
JOBS = ROOT / "demo" / "jobs"
ON = ("--on", "2026-04-06")
FORD = """schema = 1
[sheet]
place = "ford"
title = "Town of Ford"
kind = "town"
follows = ["us-xx"]
checked = 2026-03-02
due = 2026-12-31
standing = "not verified with the town"
office = "Public Works counter"
office_phone = "(555) 555-0199"
[source.code]
title = "Ford Code"
read = 2026-03-02
"""


def written(folder: Path, text: str = FORD) -> Path:
    """Write a sheet into a folder of sheets; return its file."""
    path = folder / "jurisdictions" / "ford" / "rules.toml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def pages(path: Path) -> list[str]:
    return [page.extract_text() for page in PdfReader(path).pages]
