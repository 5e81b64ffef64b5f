"""Set up and run everything that the project asks of a change: `python3 tests/run.py`."""

from __future__ import annotations

import runpy
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
DEMO = runpy.run_path(str(ROOT / "demo" / "run.py"), run_name="demo_run")

PLACES = ("permitkit", "tests", "demo")


def main() -> None:
    """Run format, lint, types, tests, and the demo packets, in that order."""
    DEMO["set_up"](".[dev]")
    python = DEMO["interpreter"]()
    call = DEMO["call"]
    call(python, "-m", "ruff", "format", "--check", *PLACES)
    call(python, "-m", "ruff", "check", *PLACES)
    call(python, "-m", "mypy")
    call(python, "-m", "pytest", "-n", "2", "--cov", "--cov-report=term")
    DEMO["build"]()
    print("everything passed")


if __name__ == "__main__":
    main()
