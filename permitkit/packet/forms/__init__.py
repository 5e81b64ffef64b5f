"""The town's own forms: which apply, what goes in, the filled PDF, and what is left to a pen."""
