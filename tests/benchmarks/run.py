"""Speed and memory, each as a ratio to a floor measured in the same run.

`python tests/benchmarks/run.py` prints the table; nothing here passes or fails.
"""

from __future__ import annotations

import io
import os
import statistics
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Self

from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.textobject import PDFTextObject

if TYPE_CHECKING:
    from collections.abc import Callable

    from reportlab.pdfgen.pathobject import PDFPathObject

HERE = Path(__file__).resolve().parent
ROOT = HERE.parent.parent
sys.path[:0] = [str(HERE), str(ROOT)]
JOBS = ROOT / "demo" / "jobs"
CLEAN = JOBS / "millrace-clean" / "job.toml"

BARE_TYPER = (
    "import typer\n"
    "app = typer.Typer(add_completion=False, rich_markup_mode=None)\n"
    "@app.command()\n"
    "def one(name: str = 'x') -> None: ...\n"
    "@app.command()\n"
    "def two(name: str = 'x') -> None: ...\n"
    "app()\n"
)
BARE_IMPORTS = (
    "import typer, pydantic, pint\n"
    "from fractions import Fraction\n"
    "pint.UnitRegistry(non_int_type=Fraction).Quantity(1, 'inch').to('metre')\n"
)


def seconds(work: Callable[[], object]) -> float:
    """Return how long one call takes."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def best(work: Callable[[], object], times: int) -> float:
    """Return the median of several calls, after one that warms up."""
    work()
    return statistics.median(seconds(work) for _ in range(times))


def in_turn(
    one: Callable[[], object], other: Callable[[], object], times: int
) -> tuple[float, float]:
    """Return the medians of two things measured alternately, so that drift hits both."""
    one(), other()
    pairs = [(seconds(one), seconds(other)) for _ in range(times)]
    return statistics.median(a for a, _ in pairs), statistics.median(b for _, b in pairs)


def process(*words: str) -> Callable[[], object]:
    """Return a call that runs one whole interpreter, which keeps compiled modules as usual."""
    kept = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": ""}
    command = [sys.executable, *words]
    return lambda: subprocess.run(command, check=False, capture_output=True, env=kept)


def help_ratio() -> tuple[float, float]:
    """Return seconds of `permitkit --help`, and of a bare Typer program's."""
    return in_turn(process("-m", "permitkit", "--help"), process("-c", BARE_TYPER, "--help"), 9)


def check_ratio() -> tuple[float, float]:
    """Return seconds of a cold `permitkit check`, and of the bare imports with one registry."""
    return in_turn(process("-m", "permitkit", "check", str(CLEAN)), process("-c", BARE_IMPORTS), 9)


@dataclass
class Step:
    """One call: the canvas, or the text or path it was made on, and what it gave back."""

    on: object
    name: str
    args: tuple[Any, ...]
    kwargs: dict[str, Any]
    gave: object = None
    path: bool = False


class Recorder:
    """Records every call that reaches ReportLab's canvas, its texts and its paths.

    What ReportLab calls of itself is left out; replayed, the calls draw the same without us.
    """

    def __init__(self) -> None:
        self.steps: list[Step] = []
        self._kept: list[tuple[type, str, Any]] = []
        self._depth = 0

    def __enter__(self) -> Self:
        """Wrap the drawing calls."""
        for kind, names in DRAWN.items():
            for name in names:
                real = getattr(kind, name)
                self._kept.append((kind, name, real))
                setattr(kind, name, self._wrapped(name, real))
        return self

    def __exit__(self, *_: object) -> None:
        """Take the wrapping off."""
        for kind, name, real in self._kept:
            setattr(kind, name, real)

    def _wrapped(self, name: str, real: Any) -> Any:
        def call(on: object, *args: Any, **kwargs: Any) -> Any:
            step = Step(on, name, args, kwargs)
            if self._depth == 0:
                if name in {"drawPath", "clipPath"}:
                    step.path, step.args = True, (traced(args[0]), *args[1:])
                self.steps.append(step)
            self._depth += 1
            try:
                step.gave = real(on, *args, **kwargs)
            finally:
                self._depth -= 1
            return step.gave

        return call


DRAWN = {
    Canvas: (
        "drawString", "drawRightString", "drawCentredString", "drawText", "beginText",
        "line", "lines", "rect", "circle", "arc", "drawPath", "clipPath", "setFont", "setDash",
        "setLineWidth", "setLineCap", "setLineJoin", "setStrokeColor", "setFillColor",
        "setStrokeColorRGB", "setFillColorRGB", "setStrokeGray", "setFillGray", "saveState",
        "restoreState", "translate", "rotate", "scale", "transform", "showPage", "setPageSize",
        "beginForm", "endForm", "doForm", "drawImage",
    ),
    PDFTextObject: (
        "setTextOrigin", "setTextTransform", "moveCursor", "setXPos", "setFont", "_setFont",
        "setLeading", "setCharSpace", "setWordSpace", "setTextRenderMode", "setRise",
        "setFillColor", "textOut", "_textOut", "textLine",
    ),
}  # fmt: skip


def traced(path: PDFPathObject) -> list[tuple[str, list[float]]]:
    """Return the calls that make a path, whoever made it."""
    calls = {"m": "moveTo", "l": "lineTo", "c": "curveTo", "re": "rect", "h": "close"}
    found: list[tuple[str, list[float]]] = []
    numbers: list[float] = []
    for word in path.getCode().split():
        if word in calls:
            found.append((calls[word], numbers))
            numbers = []
        elif word != "n":
            numbers.append(float(word))
    return found


def drawn_again(calls: list[tuple[str, list[float]]], canvas: Canvas) -> PDFPathObject:
    """Make a path once more."""
    path = canvas.beginPath()
    for name, numbers in calls:
        getattr(path, name)(*numbers)
    return path


def replayed(steps: list[Step]) -> bytes:
    """Draw the recorded calls with ReportLab alone, on one canvas."""
    target = io.BytesIO()
    canvas = Canvas(target, invariant=1, pageCompression=1)
    made: dict[int, Any] = {}
    forms: set[str] = set()
    skipped = False
    for step in steps:
        if step.name == "beginForm":
            skipped = step.args[0] in forms
            forms.add(step.args[0])
        if not skipped:
            args = [
                drawn_again(arg, canvas)
                if isinstance(arg, list) and step.path
                else made.get(id(arg), arg)
                for arg in step.args
            ]
            gave = getattr(made.get(id(step.on), canvas), step.name)(*args, **step.kwargs)
            if step.name.startswith("begin"):
                made[id(step.gave)] = gave
        skipped = skipped and step.name != "endForm"
    canvas.save()
    return target.getvalue()


def judged_clean() -> Any:
    """Return the clean demo, judged."""
    from permitkit.cli.opened import judged_job

    return judged_job(CLEAN)


def packet_ratio() -> tuple[float, float]:
    """Return seconds of building the clean town copy warm, and of ReportLab alone drawing it."""
    from permitkit.packet.assembly import town_copy

    judged = judged_clean()

    def build() -> object:
        return town_copy(judged, draft=False, folder=CLEAN.parent)

    build()
    with Recorder() as recorder:
        build()
    return in_turn(build, lambda: replayed(recorder.steps), 7)


def jobs_a_second() -> float:
    """Return how many varied jobs are studied and checked a second on one core, warm.

    Each is let go once it is judged, as whoever goes through a year's jobs would.
    """
    from varied import varied_jobs

    from permitkit.checks.judge import judge

    jobs = varied_jobs(1000)
    for job, sheets in jobs[:20]:
        judge(job, sheets)

    def judge_all() -> None:
        for job, sheets in jobs:
            judge(job, sheets)

    return len(jobs) / seconds(judge_all)


def placing_ratio() -> tuple[float, float]:
    """Return seconds of placing 80 labels among strokes, and of comparing each box with each."""
    from permitkit.drawing.placing import Want, overlaps, place
    from permitkit.drawing.shapes import Box

    room = Box(10.0, 10.0, 200.0, 200.0)
    strokes = [((12.0, 30.0 + 22 * i), (195.0, 34.0 + 22 * i)) for i in range(8)]
    asked = [
        Want(8 + (i * 13) % 22, 3.4, (20 + (i * 61.8) % 165, 22 + (i * 38.2) % 170))
        for i in range(80)
    ]
    boxes = [spot.box for spot in place(asked, room, (), strokes)]
    return in_turn(lambda: place(asked, room, (), strokes), lambda: overlaps(boxes), 9)


def peak_megabytes() -> float:
    """Return the peak memory of a process that builds both copies of the clean demo."""
    script = (
        "import resource, sys\n"
        "from pathlib import Path\n"
        "from permitkit.cli.opened import judged_job\n"
        "from permitkit.packet.assembly import office_copy, town_copy\n"
        "path = Path(sys.argv[1])\n"
        "judged = judged_job(path)\n"
        "town_copy(judged, draft=False, folder=path.parent)\n"
        "office_copy(judged, draft=False, files=[path])\n"
        "print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, str(CLEAN)], check=True, capture_output=True, text=True
    )
    return float(done.stdout)


def row(name: str, found: str, floor: str, ratio: str, aim: str) -> None:
    """Print one row of the table."""
    print(f"{name:<44}{found:>12}{floor:>12}{ratio:>9}{aim:>10}")


def compared(name: str, pair: tuple[float, float], aim: str) -> None:
    """Print a row that compares with a floor."""
    ours, floor = pair
    row(name, f"{ours * 1000:.0f} ms", f"{floor * 1000:.0f} ms", f"{ours / floor:.2f}", aim)


def main() -> None:
    """Measure everything and print the table."""
    row("what", "found", "floor", "ratio", "aim")
    compared("(a) --help, against a bare Typer program", help_ratio(), "<= 1.5")
    compared("(b) check cold, against the bare imports", check_ratio(), "<= 1.5")
    compared("(c) town copy warm, against ReportLab alone", packet_ratio(), "<= 1.8")
    row("(d) jobs checked a second, warm", f"{jobs_a_second():.0f}", "-", "-", ">= 300")
    compared("(f) 80 labels placed, against comparing them", placing_ratio(), "50 ms")
    row("(e) peak memory, both copies", f"{peak_megabytes():.0f} MB", "-", "-", "<= 150 MB")


if __name__ == "__main__":
    main()
