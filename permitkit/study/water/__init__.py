"""The water side of a study: rain and flows, the run, its grade lines, what stands in it."""
