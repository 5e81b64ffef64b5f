"""A town's own form as frozen data: its map, and the values that may be written into it."""
