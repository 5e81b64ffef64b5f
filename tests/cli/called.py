"""The command line called from a test without a new interpreter."""

from __future__ import annotations

import sys
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from typing import NamedTuple
from unittest.mock import patch

from permitkit.cli.main import run

__all__ = ["Done", "called", "too_wide"]


class Done(NamedTuple):
    """What a call printed, and its exit code."""

    code: int
    out: str
    err: str


def called(*words: object) -> Done:
    """Return what `permitkit` with these words prints, and its exit code."""
    out, err = StringIO(), StringIO()
    code: object = 0
    with (
        patch.object(sys, "argv", ["permitkit", *map(str, words)]),
        redirect_stdout(out),
        redirect_stderr(err),
    ):
        try:
            run()
        except SystemExit as ended:
            code = ended.code
    return Done(code if isinstance(code, int) else 0, out.getvalue(), err.getvalue())


def too_wide(text: str) -> list[str]:
    """Return the lines that do not fit 80 columns."""
    return [line for line in text.splitlines() if len(line) > 80]
