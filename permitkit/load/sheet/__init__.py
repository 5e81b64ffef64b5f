"""The parts of a rule sheet: its head and sources, its rules, its permits."""
