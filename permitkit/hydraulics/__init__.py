"""Formulas with a book behind them, in SI floats."""
