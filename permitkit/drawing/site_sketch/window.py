"""A part of the ground shown on one sheet of the site sketch."""

from __future__ import annotations

from dataclasses import dataclass

from permitkit.drawing.sheet_parts.pane import Pane, Part, clipped_line, joined

__all__ = ["Part", "Window", "clipped_line", "joined"]


@dataclass(frozen=True, slots=True)
class Window(Pane):
    """The ground visible on a sheet: stations to the right, offsets from the curb face up.

    Parameters
    ----------
    close
        Whether this is the enlarged plan at the outlet, which carries its distances.
    alone
        Whether there is no other plan, so that this one carries everything.
    """

    close: bool = False
    alone: bool = True

    @property
    def told(self) -> bool:
        """Return whether bands, buried lines and the limit of work are told in words here."""
        return self.close or self.alone
