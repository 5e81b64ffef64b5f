"""Quantities as the views write them, in the units of the job's author."""

from __future__ import annotations

from typing import TYPE_CHECKING

from permitkit.drawing.scale import System
from permitkit.units import Kind, from_si

if TYPE_CHECKING:
    from permitkit.drawing.info import Figures

__all__ = ["bulk_text", "rain_text", "speed_text"]


def _one_of(figures: Figures, us: str, metric: str) -> str:
    return metric if figures.system is System.METRIC else us


def speed_text(figures: Figures, velocity_ms: float) -> str:
    """Return the velocity of water: `1.9 ft/s`, `0.58 m/s`."""
    return from_si(velocity_ms, Kind.VELOCITY, _one_of(figures, "ft/s", "m/s")).shown()


def rain_text(figures: Figures, intensity_ms: float) -> str:
    """Return the intensity of rain: `4 in/hr`, `102 mm/h`."""
    return from_si(intensity_ms, Kind.INTENSITY, _one_of(figures, "in/hr", "mm/h")).shown()


def bulk_text(figures: Figures, volume_m3: float) -> str:
    """Return a volume of concrete or stone: `8.33 cu ft`, `0.236 m3`."""
    return from_si(volume_m3, Kind.VOLUME, _one_of(figures, "cu ft", "m3")).shown()
