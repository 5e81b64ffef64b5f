"""Speed of rule sheets: loading one with its layers, and listing two hundred towns.

`python tests/benchmarks/sheets.py` prints the table; nothing here passes or fails.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from permitkit.load.find_sheet import SheetPlaces, find_sheet, list_places
from permitkit.load.rule_sheet import load_layers, load_sheet, read_sheet

if TYPE_CHECKING:
    from collections.abc import Callable

ROOT = Path(__file__).resolve().parents[2]
TOWNS = 200
DAY = date(2026, 4, 6)


def seconds(work: Callable[[], object]) -> float:
    """Return how long one call takes."""
    begun = time.perf_counter()
    work()
    return time.perf_counter() - begun


def two_hundred_towns(folder: Path) -> list[str]:
    """Write two hundred towns, each one of those shipped under another name."""
    paths = [find_sheet(place) for place in list_places()]
    texts = {
        path.parent.name: path.read_text(encoding="utf-8")
        for path in paths
        if load_sheet(path).kind == "town"
    }
    names = []
    for n in range(TOWNS):
        place = sorted(texts)[n % len(texts)]
        name = f"{place}-{n}"
        target = folder / "jurisdictions" / name / "rules.toml"
        target.parent.mkdir(parents=True)
        text = texts[place].replace(f'place = "{place}"', f'place = "{name}"')
        target.write_text(text, encoding="utf-8")
        names.append(name)
    return names


def load_seconds(folder: Path, names: list[str]) -> float:
    """Return the median of loading a town with its layers, nothing of it read before."""

    def once(name: str) -> float:
        read_sheet.cache_clear()
        return seconds(lambda: load_layers(name, SheetPlaces(job=folder)))

    return statistics.median(once(name) for name in names)


def command_seconds(folder: Path) -> float:
    """Return the best of three runs of the whole command, the interpreter's start included."""

    def once() -> float:
        return seconds(
            lambda: subprocess.run(
                [sys.executable, "-m", "permitkit", "town", "list", "--on", DAY.isoformat()],
                check=True,
                capture_output=True,
                cwd=folder,
                env={**os.environ, "PYTHONPATH": str(ROOT)},
            )
        )

    return min(once() for _ in range(3))


def main() -> None:
    """Measure everything and print the table."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        names = two_hundred_towns(folder)
        rows = (
            ("load a town with its layers, warm", load_seconds(folder, names), "<= 30 ms"),
            (f"permitkit town list, {TOWNS} towns, cold", command_seconds(folder), "<= 1000 ms"),
        )
    print(f"{'what':<44}{'found':>12}{'aim':>12}")
    for what, found, aim in rows:
        print(f"{what:<44}{f'{found * 1000:.0f} ms':>12}{aim:>12}")


if __name__ == "__main__":
    main()
