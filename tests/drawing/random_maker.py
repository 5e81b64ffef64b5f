"""The chances of a job made from a seed, and the way its quantities are written."""

from __future__ import annotations

from random import Random

__all__ = ["FOOT_M", "Maker"]

FOOT_M = 0.3048
NAMES = ("Ash Court", "Lower Pemberton-Whitlow Embankment Road", "Oak St", "Q", "Ny Østergade 4")


class Maker:
    """The chances of one job, and the way its quantities are written."""

    def __init__(self, seed: int) -> None:
        self.chance = Random(seed)  # noqa: S311 - for tests, not for secrets
        self.metric = self.chance.random() < 0.3

    def between(self, low: float, high: float) -> float:
        return self.chance.uniform(low, high)

    def likely(self, share: float) -> bool:
        return self.chance.random() < share

    def length(self, feet: float) -> str:
        if self.metric:
            return f"{feet * FOOT_M:.3f} m"
        if self.likely(0.5):
            return f"{feet:.2f} ft"
        whole, inches = divmod(round(feet * 12), 12)
        return f"{whole} ft {inches} in"

    def size(self, inches: float) -> str:
        return f"{inches * 25.4:.1f} mm" if self.metric else f"{round(inches * 8) / 8} in"

    def level(self, feet: float) -> str:
        return f"{feet * FOOT_M:.3f} m" if self.metric else f"{feet:.2f} ft"

    def name(self) -> str:
        name = self.chance.choice(NAMES)
        return name if self.likely(0.95) else ("Very " * 40 + name)[:200]
