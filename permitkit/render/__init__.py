"""Shapes and text turned into ink."""
