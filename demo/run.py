"""Set everything up and build the demo packets: `python3 demo/run.py`, with only Python and pip."""

from __future__ import annotations

import os
import subprocess
import sys
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
OUT = ROOT / "demo" / "out"
OLDEST = (3, 11)
PACKETS = (
    "millrace-clean",
    "millrace-cured",
    "sorrel-flats-notch",
    "sorrel-flats-verge",
    "harrow-heights-emitter",
)
DRAFTS = ("millrace-faulty", "harrow-heights-core")


def interpreter() -> Path:
    """Return the virtual environment's own Python, on any system."""
    folder, name = ("Scripts", "python.exe") if os.name == "nt" else ("bin", "python")
    return VENV / folder / name


def call(*words: str | Path, expect: int = 0) -> None:
    """Run one step in the checkout, and stop with its exit code when it is not the one expected."""
    done = subprocess.run([str(word) for word in words], cwd=ROOT, check=False)
    if done.returncode != expect:
        print(f"stopped: {' '.join(str(word) for word in words)} gave {done.returncode}")
        raise SystemExit(done.returncode or 1)


def set_up(what: str = ".") -> None:
    """Make `.venv` where there is none, and install the project (and extras) into it."""
    if sys.version_info < OLDEST:
        raise SystemExit(f"Python 3.11 or newer is needed, this is {sys.version.split()[0]}")
    if not interpreter().exists():
        print(f"making {VENV}")
        venv.create(VENV, with_pip=True)
    print("installing")
    call(interpreter(), "-m", "pip", "install", "--quiet", "--editable", what)


def build() -> None:
    """Build the demo packets into demo/out: clean ones, then drafts of the failing jobs."""
    OUT.mkdir(parents=True, exist_ok=True)
    for name in PACKETS + DRAFTS:
        job = ROOT / "demo" / "jobs" / name / "job.toml"
        words = ["packet", job, "-o", OUT / f"{name}.pdf", "--office", OUT / f"{name}-office.pdf"]
        if name in DRAFTS:
            call(interpreter(), "-m", "permitkit", *words, "--draft", expect=1)
        else:
            call(interpreter(), "-m", "permitkit", *words)


def main() -> None:
    """Set up, build, and say where the packets are."""
    set_up()
    build()
    print("\nThe packets:")
    for path in sorted(OUT.glob("*.pdf")):
        print(f"  {path}")


if __name__ == "__main__":
    main()
