"""Everything put together into one PDF."""
