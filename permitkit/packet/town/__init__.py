"""Pages about a town's rule sheet: to read and hang up, and to ask the town what is missing."""
