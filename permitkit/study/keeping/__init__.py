"""Keeping rule sheets: what they say on a day, what they leave open, what changed, who differs."""
