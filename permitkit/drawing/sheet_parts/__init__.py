"""Parts that several views set on a sheet: ruled tables, text, tags along a line."""
