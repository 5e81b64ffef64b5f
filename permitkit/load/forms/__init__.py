"""The maps of a town's own forms, read from beside its sheet."""
