"""The outlet window as a small chart."""

from permitkit.drawing.window_chart.chart import Chart, window_chart

__all__ = ["Chart", "window_chart"]
