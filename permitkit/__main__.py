"""`python -m permitkit`."""

from permitkit.cli.main import run

if __name__ == "__main__":
    run()
