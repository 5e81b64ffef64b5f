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
BARE_TOML = (
    "import tomllib, typer\n"
    "from pathlib import Path\n"
    "for path in Path('jurisdictions').glob('*/rules.toml'):\n"
    "    tomllib.loads(path.read_text(encoding='utf-8'))\n"
)


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


def best_seconds(folder: Path, *words: str) -> float:
    """Return the best of three runs of a whole process, the interpreter's start included."""

    def once() -> float:
        return seconds(
            lambda: subprocess.run(
                [sys.executable, *words],
                check=True,
                capture_output=True,
                cwd=folder,
                env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": ""},
            )
        )

    return min(once() for _ in range(3))


def main() -> None:
    """Measure everything and print the table."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        names = two_hundred_towns(folder)
        load = load_seconds(folder, names)
        floor = best_seconds(folder, "-c", BARE_TOML)
        listed = best_seconds(folder, "-m", "permitkit", "town", "list", "--on", DAY.isoformat())
    print(f"{'what':<40}{'found':>10}{'floor':>10}{'aim':>12}")
    print(f"{'load a town with its layers, warm':<40}{_ms(load):>10}{'-':>10}{'<= 30 ms':>12}")
    what = f"list {TOWNS} towns, cold, against bare TOML"
    print(f"{what:<40}{_ms(listed):>10}{_ms(floor):>10}{'<= 1000 ms':>12}")


def _ms(found: float) -> str:
    return f"{found * 1000:.0f} ms"


if __name__ == "__main__":
    main()
