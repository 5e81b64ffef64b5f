"""The profile along the run."""

from permitkit.drawing.profile.sheets import profile

__all__ = ["profile"]
