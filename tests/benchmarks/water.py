"""Speed of the water side, each beside a floor measured in the same run.

`python tests/benchmarks/water.py` prints the table; nothing here passes or fails.
"""

from __future__ import annotations

import sys
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING

from run import CLEAN, row, seconds

from permitkit.checks.cures import find_cures
from permitkit.cli.opened import judged_job
from permitkit.hydraulics.critical import critical_depth
from permitkit.hydraulics.pipe import normal_depth
from permitkit.hydraulics.profile import grade_line
from permitkit.hydraulics.section import Round
from permitkit.hydraulics.tree import Node, Reach, Tree
from permitkit.study.curb import curb_limits
from permitkit.study.study import studied
from permitkit.study.ways import compare_ways
from permitkit.study.window_map import run_limits, window_map

if TYPE_CHECKING:
    from collections.abc import Callable

FAULTY = CLEAN.parent.parent / "millrace-faulty" / "job.toml"
NODES, TRIALS = 30, 200
PIPE, N, SLOPE, EACH_M3S = Round(0.1), 0.011, 0.008, 0.0001


def quickest(work: Callable[[], object], times: int) -> float:
    """Return the least of several calls, after one that warms up: other work only adds."""
    work()
    return min(seconds(work) for _ in range(times))


def run_of_thirty(each_m3s: float) -> Tree:
    """Return a run of thirty nodes in a chain, with water entering at each."""
    inverts = [SLOPE * 10.0 * i for i in range(NODES + 1)]
    nodes = [Node(f"n{i}", at, at + 1.0, each_m3s if i else 0.0) for i, at in enumerate(inverts)]
    reaches = [
        Reach(f"r{i}", f"n{i}", f"n{i - 1}", 10.0, PIPE, N, inverts[i], inverts[i - 1])
        for i in range(1, NODES + 1)
    ]
    return Tree(tuple(nodes), tuple(reaches), "n0")


def grade_line_pair() -> tuple[float, float]:
    """Return seconds of a line over thirty nodes, and of its normal and critical depths alone.

    Every call has flows of its own, so that no depth is remembered from the call before.
    """
    flows = (EACH_M3S * (1.0 + 1e-6 * call) for call in count())
    trees = (run_of_thirty(flow) for flow in flows)

    def depths() -> object:
        each = next(flows)
        through = [each * i for i in range(1, NODES + 1)]
        return [(normal_depth(PIPE, q, SLOPE, N), critical_depth(PIPE, q)) for q in through]

    return quickest(lambda: grade_line(next(trees), 0.05), 21), quickest(depths, 21)


def window_pair() -> tuple[float, float]:
    """Return seconds of 200 x 200 trial holes with the run's limits, and of as many comparisons."""
    judged = judged_job(CLEAN)
    job, rules, study = judged.job, judged.rules, judged.study
    hole = study.curb.hole if study.curb else None
    assert hole is not None
    pipe = (hole.pipe_outside_m, hole.bore_m)
    bits = [0.05 + 0.0008 * i for i in range(TRIALS)]
    heights = [0.0004 * i for i in range(TRIALS)]

    def mapped() -> object:
        limits = run_limits(job, rules, study)
        return window_map(curb_limits(job, rules), limits, pipe, bits, heights)

    def compared() -> object:
        return [[0.001 <= height <= 0.01 for height in heights] for _ in bits]

    return quickest(mapped, 11), quickest(compared, 11)


def study_seconds() -> float:
    """Return seconds of the study of an ordinary job, rules and all, warm."""
    judged = judged_job(CLEAN)
    return quickest(lambda: studied(judged.job, judged.rules.sheets), 101)


def ways_pair() -> tuple[float, float]:
    """Return seconds of comparing every way for a job, and of studying it once."""
    judged = judged_job(CLEAN)
    return quickest(lambda: compare_ways(judged.job, judged.rules), 21), study_seconds()


def cures_pair() -> tuple[float, float]:
    """Return seconds of looking for what cures the worst of the demo jobs, and of studying it."""
    judged = judged_job(FAULTY)
    sheets = judged.rules.sheets
    once = quickest(lambda: studied(judged.job, sheets), 21)
    return quickest(lambda: find_cures(judged.job, sheets), 3), once


def told(name: str, pair: tuple[float, float], aim: str) -> None:
    """Print one row of the table."""
    ours, floor = (f"{seconds * 1000:.2f} ms" for seconds in pair)
    row(name, ours, floor, f"{pair[0] / pair[1]:.1f}", aim)


def main() -> None:
    """Measure everything and print the table."""
    row("what", "found", "floor", "ratio", "aim")
    told("(a) line of 30 nodes, against its depths", grade_line_pair(), "< 5 ms")
    told("(b) 200 x 200 holes, against comparisons", window_pair(), "< 1 s")
    ordinary = study_seconds()
    row("(c) study of an ordinary job", f"{ordinary * 1000:.2f} ms", "-", "-", "< 1.5 ms")
    told("(d) every way, against one study", ways_pair(), "-")
    told("(e) cures of the faulty job, against a study", cures_pair(), "-")


if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).resolve().parent))
    main()
