"""Settings shared by all tests."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("permitkit", deadline=None, derandomize=True)
settings.load_profile("permitkit")

collect_ignore = ["run.py", "regenerate.py", "benchmarks"]
