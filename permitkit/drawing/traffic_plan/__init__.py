"""People on foot and traffic during the work."""

from permitkit.drawing.traffic_plan.sheets import traffic_plan

__all__ = ["traffic_plan"]
