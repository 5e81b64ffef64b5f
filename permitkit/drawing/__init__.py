"""Shapes on paper, in millimetres, each with a role and never a pen."""
