"""Shapes of the real world, in SI floats."""
