"""The `permitkit` command: its groups, and the one place where errors become exit codes."""

from __future__ import annotations

import gc
import sys
import traceback
from pathlib import Path

import typer

from permitkit import __version__
from permitkit.cli import begin, job, town, water
from permitkit.errors import Exit, PermitkitError

__all__ = ["app", "run"]

_RARELY = 1_000_000
"""What lives as long as the command need not be looked through for what could be thrown away."""

app = typer.Typer(
    name="permitkit",
    help="Right-of-way permits for curb outlets: check a job against its town's rules, "
    "and build the packet.",
    epilog="Exit: 0 ready, 1 not ready, 2 called wrongly, 3 an input file is wrong, "
    "4 cannot write, 70 our own fault.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)
begin.add_to(app)
job.add_to(app)
water.add_to(app)
app.add_typer(town.app, name="town")


def _show_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"permitkit {__version__}")
        raise typer.Exit


@app.callback()
def _options(
    version: bool = typer.Option(
        False, "--version", callback=_show_version, is_eager=True, help="Print the version."
    ),
) -> None:
    """Right-of-way permits for curb outlets."""


def _keep_trace() -> Path:
    import tempfile

    folder = Path(tempfile.mkdtemp(prefix="permitkit-"))
    kept = folder / "trace.txt"
    kept.write_text(traceback.format_exc(), encoding="utf-8")
    return kept


def run() -> None:
    """Run the command line: bad input is told as faults, our own fault keeps its trace."""
    gc.set_threshold(_RARELY)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    try:
        app()
    except PermitkitError as error:
        typer.echo(str(error), err=True)
        sys.exit(int(error.exit_code))
    except Exception:  # noqa: BLE001 - the last door: nothing may reach the user as a traceback
        kept = _keep_trace()
        typer.echo(f"error: permitkit itself failed\n  trace     {kept}", err=True)
        sys.exit(int(Exit.OWN_FAULT))
