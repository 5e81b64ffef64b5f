"""The walk cut and its restoration."""

from permitkit.drawing.walk_cut.sheets import walk_cut

__all__ = ["walk_cut"]
